//! A pool at moved costs, by itself: see [`super::super::whole`] for how it is made.

use super::super::answer::{Configuration, Cut, Pattern, PoolAnswer};
use super::super::charge::StockOf;
use super::super::master::pieces_at_most;
use super::super::problem::{Pool, Problem, Stock};
use super::place::{Place, weight};

/// Stocks of a moved pool: which stock each is, whether it is bought anyway, and how many joints of it the
/// place asks for at least (0 where all it allows are bought anyway).
pub(super) type Layout = Vec<(usize, bool, i64)>;

/// A moved pool and the way back.
#[derive(Clone, Debug)]
pub(super) struct Moved {
    /// The pool at moved costs.
    pub pool: Pool,
    /// Money × grain beside it.
    pub constant: i128,
    /// Its stocks.
    pub origin: Layout,
    /// Joints of each stock that are bought anyway.
    bought: Vec<i64>,
}

/// What a plan of a moved pool means.
#[derive(Clone, Debug)]
pub(super) struct Back {
    /// Patterns of the pool itself.
    pub patterns: Vec<Pattern>,
    /// Configurations.
    pub configurations: Vec<Configuration>,
    /// Joints taken of each stock, uncut ones too.
    pub taken: Vec<i64>,
}

/// A pool with all its money × grain.
fn grained(pool: &Pool, grain: i64) -> Pool {
    let mut pool = pool.clone();
    pool.credit.per_foot *= grain;
    for stock in &mut pool.stocks {
        stock.cost *= grain;
        stock.price = None;
    }
    for group in &mut pool.groups {
        group.splice_cost *= grain;
        for slot in group.lines.iter_mut().flat_map(|l| &mut l.slots) {
            slot.charge *= grain;
        }
    }
    pool
}

/// The moved pool `index` at a place under slopes.
pub(super) fn moved(
    problem: &Problem,
    index: usize,
    place: &Place,
    (slopes, grain): (&[i64], i64),
) -> Moved {
    let from = &problem.pools[index];
    let all = pieces_at_most(from);
    let mut pool = grained(from, grain);
    let stocks = std::mem::take(&mut pool.stocks);
    let mut out = Moved {
        pool,
        constant: 0,
        origin: Vec::new(),
        bought: vec![0; stocks.len()],
    };
    for (s, stock) in stocks.into_iter().enumerate() {
        let at = StockOf {
            pool: index,
            stock: s,
        };
        let named: Vec<i64> = problem
            .charges
            .iter()
            .zip(slopes)
            .filter(|(c, _)| c.over.binary_search(&at).is_ok())
            .map(|(c, slope)| slope * weight(problem, c, at))
            .collect();
        if named.is_empty() {
            out.push((s, false, 0), stock);
            continue;
        }
        let (least, most) = place.joints[index][s];
        let owned = out.pool.credit.of(stock.usable);
        let cost = stock.cost + named.iter().sum::<i64>();
        let extra = i128::from(cost - owned);
        let anyway = if extra < 0 { most } else { least };
        out.constant += extra * i128::from(anyway);
        out.bought[s] = anyway;
        let limit = |n: i64| {
            let endless = stock.limit.is_none() && n >= all;
            (!endless).then(|| u32::try_from(n).unwrap_or(u32::MAX))
        };
        let of = |cost: i64, n: i64| Stock {
            cost,
            limit: limit(n),
            ..stock.clone()
        };
        let asked = if extra < 0 { 0 } else { least };
        if anyway > 0 || extra < 0 {
            out.push((s, true, asked), of(owned, anyway));
        }
        if extra >= 0 {
            // Joints bought anyway are cut first: no answer needs more others than the pieces left of all.
            let others = (most - least).min((all - least).max(0));
            out.push((s, false, asked), of(cost, others));
        }
    }
    out
}

impl Moved {
    fn push(&mut self, origin: (usize, bool, i64), moved: Stock) {
        self.pool.stocks.push(moved);
        self.origin.push(origin);
    }

    /// A plan of the moved pool as one of the pool.
    pub fn back(&self, answer: &PoolAnswer) -> Back {
        let mut taken = self.bought.clone();
        let mut patterns: std::collections::BTreeMap<(usize, Vec<Cut>), u32> = Default::default();
        for pattern in &answer.patterns {
            let (stock, anyway, _) = self.origin[pattern.stock];
            if !anyway {
                taken[stock] += i64::from(pattern.times);
            }
            *patterns.entry((stock, pattern.cuts.clone())).or_insert(0) += pattern.times;
        }
        let patterns =
            patterns
                .into_iter()
                .map(|((stock, cuts), times)| Pattern { stock, times, cuts });
        Back {
            patterns: patterns.collect(),
            configurations: answer.configurations.clone(),
            taken,
        }
    }
}
