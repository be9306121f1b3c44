//! Closing a small pool by branching on counts and on where splices stand.
//!
//! A node is the pool with slots cut narrower and counts within spans. Its program is its parent's, with
//! what is no longer legal made dear; branching goes on counts while they are broken, then to counts that
//! are whole but not settled (with all of them settled money comes in few sums, so a bound rises to the next), then
//! on the place of the splice that the program spreads most. Where all that is cheaper can be listed, it is.

use std::sync::{Arc, OnceLock};

use rayon::prelude::*;

use super::answer::{Configuration, PoolAnswer, Status};
use super::closing::{Reach, close_leaf, is_told_apart};
use super::compact::compact;
use super::converge::{Budget, Effort, converge};
use super::couple::{Coupling, PRICING_WORK, couple};
use super::dive::{Dive, dive};
use super::lattice::Span;
use super::leaves::Place;
use super::longest_first::longest_piece;
use super::master::Master;
use super::narrow::{At, narrowed, widest};
use super::placing::Means;
use super::price::Price;
use super::problem::{Group, Pool};
use super::tree::{counted, split};

/// Nodes looked at together: a fixed number, so that threads change nothing.
const BATCH: usize = 4;
/// Narrowed pools of one search.
const POOLS: usize = 4_096;
/// Rounds of refinement between two looks at whether they pay.
const REFINEMENTS: u32 = 6;
/// Looks.
const LOOKS: u32 = 2;
/// Groups, each counted by itself, up to which a pool is small enough.
const GROUPS: u32 = 6;
/// Stocks up to which it is.
const STOCKS: usize = 12;
/// How much the closing search of a node may look at, and of one that cannot be parted further.
const REACH: Reach = Reach {
    whole: (150_000, 500),
    part: (100_000, 300),
    rounds: 40,
};
const LAST_REACH: Reach = Reach {
    whole: (4_000_000, 20_000),
    ..REACH
};
/// The dive of such a search.
const DIVE: Dive = Dive {
    skip_at: None,
    splicings_first: true,
    rounds: 2,
};
/// Rows from which a program is rebuilt on those in use.
const ROWS: usize = 90;
/// Programs of such a search.
const FEW: u32 = 6;
/// Of so many nodes not closed one is searched for a better plan.
const SEARCHED: usize = 4;

/// A part of the answers.
struct Part<'p> {
    pool: &'p Pool,
    place: Place,
    bound: i64,
    parent: Option<Arc<Master<'p>>>,
    depth: u32,
}

impl<'p> Part<'p> {
    fn child(&self, pool: &'p Pool, place: Place, parent: &Arc<Master<'p>>) -> Part<'p> {
        Part {
            pool,
            place,
            bound: self.bound,
            parent: Some(parent.clone()),
            depth: self.depth + 1,
        }
    }
}

/// What a look at a part came to.
struct Looked<'p> {
    part: Part<'p>,
    better: Option<PoolAnswer>,
    next: Next<'p>,
    work: u64,
    /// Its steps did not suffice.
    cut: bool,
}

impl<'p> Looked<'p> {
    fn ends(part: Part<'p>, next: Next<'p>) -> Looked<'p> {
        Looked {
            part,
            better: None,
            next,
            work: 0,
            cut: false,
        }
    }
}

/// What is left of a part.
enum Next<'p> {
    /// Nothing.
    Closed,
    /// Spans of counts: at most and at least of a row each.
    Counts(Arc<Master<'p>>, Vec<Vec<(usize, i64)>>),
    /// Slots of a line (group, line) within spans of centres.
    Slots(Arc<Master<'p>>, At, Vec<Span>),
    /// No way to part it.
    Stuck,
}

/// Few enough groups and stocks to part.
pub(super) fn is_small(pool: &Pool) -> bool {
    let groups: u32 = pool.groups.iter().map(|g| g.count).sum();
    groups <= GROUPS && pool.stocks.len() <= STOCKS
}

/// Tries to prove the answer by search or to better it. True when it is proved.
pub(super) fn close_parts(pool: &Pool, answer: &mut PoolAnswer, budget: &mut Budget<'_>) -> bool {
    if !is_small(pool) || answer.status == Status::Short {
        return false;
    }
    let (single, of) = singles(pool);
    let pools: Vec<OnceLock<Pool>> = (0..POOLS).map(|_| OnceLock::new()).collect();
    let mut kept = 0;
    let mut open = vec![Part {
        pool: &single,
        place: Place::whole(&single),
        bound: 0,
        parent: None,
        depth: 0,
    }];
    let (mut whole, mut nodes) = (true, 0);
    while !open.is_empty() && whole {
        open.sort_by_key(|p| std::cmp::Reverse((p.bound, std::cmp::Reverse(p.depth))));
        let batch = open.split_off(open.len().saturating_sub(BATCH));
        let shared = (&*answer, &of[..]);
        let (left, stop) = (budget.left, budget.stop);
        let looked: Vec<Looked<'_>> = batch
            .into_par_iter()
            .enumerate()
            .map(|(n, part)| {
                let mut own = Budget::new(left, stop);
                let searched = (nodes + n) % SEARCHED == 0;
                let mut looked = look(part, shared, searched, &mut own);
                looked.work = left - own.left;
                looked.cut = own.cut;
                looked
            })
            .collect();
        nodes += looked.len();
        for Looked {
            part,
            better,
            next,
            work,
            cut,
        } in looked
        {
            budget.spend(work);
            budget.cut |= cut;
            if let Some(better) = better
                && better.cost < answer.cost
            {
                super::improve::replace(answer, better);
            }
            match next {
                Next::Closed => {}
                Next::Stuck => whole = false,
                Next::Counts(master, sides) => {
                    for side in sides {
                        let mut place = part.place.clone();
                        for (row, right) in side {
                            place.narrow(&master, row, right);
                        }
                        open.push(part.child(part.pool, place, &master));
                    }
                }
                Next::Slots(master, at, spans) => {
                    for span in spans {
                        if let (Some(narrow), Some(keep)) =
                            (narrowed(part.pool, &of, at, span), pools.get(kept))
                        {
                            kept += 1;
                            open.push(part.child(
                                keep.get_or_init(|| narrow),
                                part.place.clone(),
                                &master,
                            ));
                        } else if kept >= POOLS {
                            whole = false;
                        }
                    }
                }
            }
        }
        let cost = answer.cost;
        open.retain(|p| p.bound <= p.place.under(p.pool, cost));
        whole &= open.is_empty() || !budget.over();
    }
    // Where floats may take one plan for another the plans found count, what was ruled out does not.
    whole && is_told_apart(pool)
}

/// Every group by itself, and which group of the pool each was.
pub(super) fn singles(pool: &Pool) -> (Pool, Vec<usize>) {
    let mut single = pool.clone();
    single.groups.clear();
    let mut of = Vec::new();
    for (g, group) in pool.groups.iter().enumerate() {
        for _ in 0..group.count {
            single.groups.push(Group {
                count: 1,
                ..group.clone()
            });
            of.push(g);
        }
    }
    (single, of)
}

/// Bounds a part, tries to end it, and says how it is parted if it is not.
fn look<'p>(
    mut part: Part<'p>,
    (answer, of): (&PoolAnswer, &[usize]),
    searched: bool,
    budget: &mut Budget<'_>,
) -> Looked<'p> {
    let pool = part.pool;
    let goal = part.place.under(pool, answer.cost);
    let spare = match spare(pool) {
        Spare::Found(spare) if part.bound <= goal => spare,
        Spare::Unknown => return Looked::ends(part, Next::Stuck),
        _ => return Looked::ends(part, Next::Closed),
    };
    let mut master = match part.parent.take() {
        Some(parent) => {
            let mut master = Master::clone(&parent);
            budget.spend(master.size());
            if !std::ptr::eq(master.pool, pool) {
                master.restrict(pool);
            }
            master
        }
        None => super::improve::begin(pool, &apart(answer, of), &spare),
    };
    part.place.bind(&mut master);
    bound_part(&mut part, &mut master, goal, budget);
    if part.bound > goal {
        return Looked::ends(part, Next::Closed);
    }
    let (counts, loose) = (split(&master), part.place.loose(&master));
    let value = loose.map_or(0.0, |l| counted(&master, l.0));
    let widest = widest(pool, &master);
    let mut sub = PoolAnswer {
        configurations: Vec::new(),
        ..answer.clone()
    };
    let mut closed = false;
    if counts.is_none() && loose.is_none() {
        let reach = if widest.is_some() { REACH } else { LAST_REACH };
        closed = close_leaf(pool, &mut sub, (&part.place, &spare), (reach, true), budget);
        if !closed && searched {
            let few = Reach {
                rounds: FEW,
                ..REACH
            };
            close_leaf(pool, &mut sub, (&part.place, &spare), (few, false), budget);
        }
    }
    if !closed && searched && !budget.over() {
        let found = dive(&master, DIVE, (&spare, &mut Vec::new()), budget);
        if let Some(found) = found.filter(|f| f.cost < sub.cost) {
            super::improve::replace(&mut sub, found);
        }
    }
    let better = (sub.cost < answer.cost).then(|| {
        for c in &mut sub.configurations {
            c.group = of[c.group];
        }
        sub
    });
    if !closed && master.rows.len() > ROWS {
        (master, _) = compact(&master, None);
        part.place.bind(&mut master);
    }
    let next = if closed {
        Next::Closed
    } else if let Some((_, _, children)) = counts {
        let sides = children.map(|(row, right)| vec![(row, right as i64)]);
        Next::Counts(Arc::new(master), sides.to_vec())
    } else if let Some(((most, least), (low, high))) = loose {
        let value = (value.round() as i64).clamp(low, high);
        let spans = [(low, value - 1), (value, value), (value + 1, high)];
        let spans = spans.into_iter().filter(|s| s.0 <= s.1);
        let sides = spans.map(|s| vec![(most, s.1), (least, s.0)]).collect();
        Next::Counts(Arc::new(master), sides)
    } else if let Some((at, spans)) = widest {
        Next::Slots(Arc::new(master), at, spans)
    } else {
        Next::Stuck
    };
    Looked {
        part,
        better,
        next,
        work: 0,
        cut: false,
    }
}

/// Some way of making every group.
enum Spare {
    Found(Vec<Configuration>),
    /// A group cannot be made.
    Nowhere,
    /// The search for one gave up.
    Unknown,
}

fn spare(pool: &Pool) -> Spare {
    let mut made = Vec::new();
    for (g, group) in pool.groups.iter().enumerate() {
        let price = Price::new(&[], longest_piece(pool, group.class, false));
        let means = Means {
            enough: i64::MAX,
            work: PRICING_WORK,
            stop: &|| false,
        };
        match couple(group, pool.mark, &price, (1, group.splice_cost), &means) {
            Coupling::Impossible { .. } => return Spare::Nowhere,
            Coupling::Open { .. } => return Spare::Unknown,
            Coupling::Found(found) => made.push(Configuration {
                group: g,
                times: 1,
                lines: found.lines,
            }),
        }
    }
    Spare::Found(made)
}

/// The answer with its groups apart.
fn apart(answer: &PoolAnswer, of: &[usize]) -> PoolAnswer {
    let mut single = answer.clone();
    single.configurations.clear();
    for (g, origin) in of.iter().enumerate() {
        let own = answer.configurations.iter().filter(|c| c.group == *origin);
        single.configurations.extend(own.map(|c| Configuration {
            group: g,
            times: 1,
            lines: c.lines.clone(),
        }));
    }
    single
}

/// Bounds a part by column generation, rows refined as long as that closes a good part of its gap.
fn bound_part<'p>(
    part: &mut Part<'p>,
    master: &mut Master<'p>,
    goal: i64,
    budget: &mut Budget<'_>,
) {
    let effort = Effort {
        rounds: 100_000,
        refinements: REFINEMENTS,
        compact: false,
        enough: goal + 1,
    };
    for look in 0..LOOKS {
        let done = converge(master, effort, budget);
        let Some((found, duals)) = &done.bound else {
            return;
        };
        let before = part.bound;
        if *found > before || look == 0 {
            part.place.leaf = duals.leaf(master);
        }
        part.bound = before.max(part.place.next(part.pool, *found));
        // Past the goal no gap is counted: where nothing fits, a bound is near the largest number.
        let settled = part.bound > goal || done.whole || budget.over();
        if settled || look > 0 && (part.bound - before) * 20 < goal - part.bound {
            return;
        }
        if look + 1 < LOOKS && master.rows.len() > ROWS {
            (*master, _) = compact(master, Some(duals));
            part.place.bind(master);
        }
    }
}

#[cfg(test)]
mod tests;
