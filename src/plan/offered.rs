//! A plan of a changed week, offered to this one: its joints and splices in this problem's terms.
//!
//! Stocks are known again by the row they come from. Pieces of one length are known by the class of the
//! gates they serve: ranked by class on both sides, the piece of a rank takes the other's place. Where this
//! week knows more delivery days than the other, one class there is several here, and a joint of the other
//! week serves all of them or none. Whatever does not fit is left to the nest room to refuse.

use std::collections::{BTreeMap, VecDeque};

use super::Plan;
use super::problem::Work;
use super::rewrite::{Ways, as_configurations};
use crate::nest::{Configuration, Cut, Group, Pattern, Pool, PoolAnswer, PoolOffer};
use crate::order::Week;
use crate::stock::{PoolSource, StockOrigin};

/// A plan and the week it is of.
#[derive(Clone, Copy, Debug)]
pub struct Offered<'a> {
    /// How the week is changed, in words.
    pub name: &'a str,
    /// The week; of this week's pipes and rack.
    pub week: &'a Week,
    /// The plan.
    pub plan: &'a Plan,
}

/// The offered plan as an answer to this problem; `None` when it is of other work or other stock.
pub(crate) fn offer(
    week: &Week,
    work: &Work,
    pools: &[PoolSource],
    offered: Offered<'_>,
) -> Option<Vec<PoolOffer>> {
    let here = work.problem.pools.iter().zip(pools);
    here.map(|(pool, source)| {
        let at = offered
            .plan
            .pools
            .iter()
            .position(|p| p.pipe == source.pipe)?;
        let (nest, theirs) = (&offered.plan.nest, &offered.plan.pools[at]);
        let other = Other {
            pool: nest.problem.pools.get(at)?,
            answer: nest.answers.get(at)?,
        };
        let stocks: Vec<Option<usize>> = theirs
            .stocks
            .iter()
            .map(|s| stock_here(week, source, (offered.week, s.origin)))
            .collect();
        one(pool, &other, &stocks)
    })
    .collect()
}

/// The stock here that comes from the same row.
fn stock_here(
    week: &Week,
    source: &PoolSource,
    (of, origin): (&Week, StockOrigin),
) -> Option<usize> {
    let origin = match origin {
        StockOrigin::Rack(r) => StockOrigin::Rack(r),
        StockOrigin::Quote(q) => {
            let row = &of.quotes.get(q)?.origin;
            StockOrigin::Quote(week.quotes.iter().position(|q| q.origin == *row)?)
        }
    };
    source.stocks.iter().position(|s| s.origin == origin)
}

/// A pool of the offered plan.
struct Other<'a> {
    pool: &'a Pool,
    answer: &'a PoolAnswer,
}

impl Other<'_> {
    /// Length and class of a cut.
    fn of(&self, cut: &Cut) -> Option<(i64, u8)> {
        match *cut {
            Cut::Item(i) => self.pool.items.get(i).map(|i| (i.length, i.class)),
            Cut::Piece { length, class } => Some((length, class)),
        }
    }
}

fn one(pool: &Pool, other: &Other<'_>, stocks: &[Option<usize>]) -> Option<PoolOffer> {
    let configurations = configurations(pool, other)?;
    let mut queues = queues(pool, &configurations, other)?;
    let mut counts: BTreeMap<(usize, Vec<(i64, Cut)>), u32> = BTreeMap::new();
    for pattern in &other.answer.patterns {
        let stock = (*stocks.get(pattern.stock)?)?;
        for _ in 0..pattern.times {
            let mut cuts = Vec::new();
            for cut in &pattern.cuts {
                let (length, class) = other.of(cut)?;
                cuts.push((-length, queues.get_mut(&(length, class))?.pop_front()?));
            }
            cuts.sort_unstable();
            *counts.entry((stock, cuts)).or_insert(0) += 1;
        }
    }
    let patterns = counts.into_iter().map(|((stock, cuts), times)| Pattern {
        stock,
        times,
        cuts: cuts.into_iter().map(|(_, cut)| cut).collect(),
    });
    Some((patterns.collect(), configurations))
}

/// Lengths of a group's lines: what it is known by.
type Shape = Vec<(i64, i64)>;

fn shape(group: &Group) -> Shape {
    group.lines.iter().map(|l| (l.length, l.whole)).collect()
}

/// How each group here is spliced: as the other's groups of its shape, ranked by class, or not at all
/// where the other has none.
fn configurations(pool: &Pool, other: &Other<'_>) -> Option<Vec<Configuration>> {
    let mut theirs: BTreeMap<Shape, Vec<(u8, &Configuration)>> = BTreeMap::new();
    for c in &other.answer.configurations {
        let group = other.pool.groups.get(c.group)?;
        let each = (0..c.times).map(|_| (group.class, c));
        theirs.entry(shape(group)).or_default().extend(each);
    }
    theirs
        .values_mut()
        .for_each(|all| all.sort_by_key(|(class, _)| *class));
    let mut ranked: Vec<usize> = (0..pool.groups.len()).collect();
    ranked.sort_by_key(|g| pool.groups[*g].class);
    let mut counts = Ways::new();
    let mut taken: BTreeMap<Shape, usize> = BTreeMap::new();
    for g in ranked {
        let group = &pool.groups[g];
        let key = shape(group);
        let whole = || group.lines.iter().map(|l| vec![l.whole]).collect();
        for _ in 0..group.count {
            let lines = match theirs.get(&key) {
                None => whole(),
                Some(all) => {
                    let rank = taken.entry(key.clone()).or_insert(0);
                    *rank += 1;
                    all.get(*rank - 1)?.1.lines.clone()
                }
            };
            *counts.entry((g, lines)).or_insert(0) += 1;
        }
    }
    Some(as_configurations(counts))
}

/// Per length and class of the other's cuts: what they are here.
fn queues(
    pool: &Pool,
    configurations: &[Configuration],
    other: &Other<'_>,
) -> Option<BTreeMap<(i64, u8), VecDeque<Cut>>> {
    let mut here: BTreeMap<i64, Vec<(u8, Cut)>> = BTreeMap::new();
    for (i, item) in pool.items.iter().enumerate() {
        let each = (0..item.count).map(|_| (item.class, Cut::Item(i)));
        here.entry(item.length).or_default().extend(each);
    }
    for c in configurations {
        let class = pool.groups.get(c.group)?.class;
        for &length in c.lines.iter().flatten() {
            let each = (0..c.times).map(|_| (class, Cut::Piece { length, class }));
            here.entry(length).or_default().extend(each);
        }
    }
    let mut out: BTreeMap<(i64, u8), VecDeque<Cut>> = BTreeMap::new();
    let mut theirs: BTreeMap<(i64, u8), usize> = BTreeMap::new();
    for pattern in &other.answer.patterns {
        for cut in &pattern.cuts {
            *theirs.entry(other.of(cut)?).or_insert(0) += usize::try_from(pattern.times).ok()?;
        }
    }
    here.values_mut().for_each(|all| all.sort_unstable());
    let mut at: BTreeMap<i64, usize> = BTreeMap::new();
    for ((length, class), count) in theirs {
        let from = at.entry(length).or_insert(0);
        let slice = here.get(&length)?.get(*from..*from + count)?;
        out.insert((length, class), slice.iter().map(|(_, cut)| *cut).collect());
        *from += count;
    }
    Some(out)
}
