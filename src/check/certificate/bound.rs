//! The lower bound of DESIGN §9, re-derived: for any integer duals π ≥ 0
//! `bound = Σ πᵢnᵢ + Σ min μ·w + Σₛ min n·rₛ + Σ_g N_g·q_g`,
//! w over the interval of each counted set, n over the interval of each stock; the multipliers μ are
//! taken off rₛ and q_g.
//!
//! Duals come in units of 1/scale money, and so does everything here until the end, where the bound is
//! rounded up to the greatest money that divides every cost, credit and charge: no plan costs anything
//! between two multiples of it.

use std::collections::BTreeMap;

use super::configuration::cheapest;
use super::intervals::Intervals;
use super::knapsack::{Load, Table};
use super::worth::Worth;
use crate::nest::{Counted, Group, Leaf, Pool};

/// Why there is no bound: the tree is no tree, or a leaf leans on what nothing bounds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct NoBound(pub(super) String);

/// The bound that a leaf's duals give inside these intervals, in the pool's money; `None` when no
/// answer lies there.
pub(super) fn bound(
    pool: &Pool,
    leaf: &Leaf,
    intervals: &Intervals,
) -> Result<Option<i128>, NoBound> {
    if intervals.is_empty(pool) {
        return Ok(None);
    }
    let worths: BTreeMap<u8, Worth> = pool
        .groups
        .iter()
        .map(|g| (g.class, Worth::of_class(&leaf.length_duals, g.class)))
        .collect();
    let items: i128 = pool
        .items
        .iter()
        .zip(&leaf.item_duals)
        .map(|(item, dual)| i128::from(item.count) * i128::from(*dual))
        .sum();
    let scale = i128::from(leaf.dual_scale);
    let mut total = items + counted(leaf, intervals)? + stocks(pool, leaf, &worths, intervals);
    for (g, group) in pool.groups.iter().enumerate().filter(|(_, g)| g.count > 0) {
        let Some(worth) = worths.get(&group.class) else {
            continue;
        };
        let longest = longest(pool, group.class);
        let splice = i128::from(group.splice_cost) * scale - paid(leaf, Kind::Splices, g);
        let least = cheapest(group, pool.mark, longest, worth, (scale, splice));
        let Some(least) = least else {
            return Ok(None);
        };
        total += i128::from(group.count) * least;
    }
    let floor = scale * step(pool);
    Ok(Some(-(-total).div_euclid(floor) * step(pool)))
}

/// Σ min μ·w over the counted sets.
fn counted(leaf: &Leaf, intervals: &Intervals) -> Result<i128, NoBound> {
    let mut total = 0i128;
    for m in &leaf.multipliers {
        let (least, most) = intervals.of(&m.counted);
        let value = i128::from(m.value);
        total += match (value < 0, most) {
            (false, _) => value * i128::from(least),
            (true, Some(most)) => value * i128::from(most),
            (true, None) => {
                let what = format!("{:?} has a multiplier and no most", m.counted);
                return Err(NoBound(what));
            }
        };
    }
    Ok(total)
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Joints,
    Splices,
}

/// What the multipliers take off one joint of a stock, or one splice of a group.
fn paid(leaf: &Leaf, kind: Kind, index: usize) -> i128 {
    let counts = |counted: &Counted| match counted {
        Counted::Joints(set) => kind == Kind::Joints && set.contains(&index),
        Counted::Splices(set) => kind == Kind::Splices && set.contains(&index),
    };
    let paying = leaf.multipliers.iter().filter(|m| counts(&m.counted));
    paying.map(|m| i128::from(m.value)).sum()
}

fn gcd(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { gcd(b, a % b) }
}

/// The greatest money that divides every cost and charge, and the credit where a drop can reach it.
pub(super) fn step(pool: &Pool) -> i128 {
    let there = pool.stocks.iter().filter(|s| s.limit != Some(0));
    let longest = there.map(|s| s.usable - pool.kerf - 1).max().unwrap_or(0);
    let credited = longest >= pool.credit.keep && longest >= pool.credit.foot;
    let credit = if credited { pool.credit.per_foot } else { 0 };
    let costs = pool.stocks.iter().map(|s| s.cost);
    // A group of which none is wanted costs nothing.
    let groups = || pool.groups.iter().filter(|g| g.count > 0);
    let splices = groups().map(|g| g.splice_cost);
    let slots = groups().flat_map(|g| &g.lines);
    let charges = slots.flat_map(|l| &l.slots).map(|s| s.charge);
    let all = costs.chain(splices).chain(charges);
    i128::from(all.fold(credit, gcd).max(1))
}

/// The longest piece of a class that any stock holds.
fn longest(pool: &Pool, class: u8) -> i64 {
    let there = pool.stocks.iter().filter(|s| s.limit != Some(0));
    let serving = there.filter(|s| (s.serves >> class) & 1 == 1);
    serving.map(|s| s.usable).max().unwrap_or(0)
}

/// Most pieces a group can ask for.
fn pieces(group: &Group) -> u64 {
    let lines = group.lines.iter().map(|l| u64::from(l.most_splices) + 1);
    lines.sum::<u64>() * u64::from(group.count)
}

/// Most pieces a pool can ask for.
pub(super) fn pieces_of(pool: &Pool) -> u64 {
    pool.items.iter().map(|i| u64::from(i.count)).sum::<u64>()
        + pool.groups.iter().map(pieces).sum::<u64>()
}

/// Σₛ min n·rₛ over the interval of each stock. Stocks that serve the same classes share one table.
fn stocks(pool: &Pool, leaf: &Leaf, worths: &BTreeMap<u8, Worth>, intervals: &Intervals) -> i128 {
    let all = pieces_of(pool);
    let mut longest: BTreeMap<u32, i64> = BTreeMap::new();
    for stock in pool.stocks.iter().filter(|s| s.limit != Some(0)) {
        let most = longest.entry(stock.serves).or_default();
        *most = (*most).max(stock.usable);
    }
    let tables: BTreeMap<u32, Table> = longest
        .into_iter()
        .map(|(serves, usable)| {
            let loads = loads(pool, leaf, worths, serves);
            (serves, Table::new(&loads, usable + pool.kerf))
        })
        .collect();
    let scale = i128::from(leaf.dual_scale);
    let each = pool.stocks.iter().enumerate().map(|(s, stock)| {
        let table = tables.get(&stock.serves);
        let money = i128::from(stock.cost) * scale - paid(leaf, Kind::Joints, s);
        let least = table.and_then(|t| t.reduced(pool, stock.usable, money, scale));
        let (fewest, most) = intervals.stock(pool, s, all);
        let r = least.unwrap_or(0);
        r * i128::from(if r < 0 { most } else { fewest })
    });
    each.sum()
}

/// What may be cut: items up to their counts; of spliced lines the shortest piece for each length at
/// which the worth rises, a whole number of marks or a whole line (a longer piece is worth no more
/// until the next rise).
fn loads(pool: &Pool, leaf: &Leaf, worths: &BTreeMap<u8, Worth>, serves: u32) -> Vec<Load> {
    let serving = |class: u8| (serves >> class) & 1 == 1;
    let mut out: Vec<Load> = pool
        .items
        .iter()
        .zip(&leaf.item_duals)
        .filter(|(item, _)| serving(item.class))
        .map(|(item, dual)| Load {
            weight: item.length + pool.kerf,
            worth: i128::from(*dual),
            most: u64::from(item.count),
        })
        .collect();
    for (class, worth) in worths.iter().filter(|(class, _)| serving(**class)) {
        let groups = || pool.groups.iter().filter(|g| g.class == *class);
        let most = groups().map(pieces).sum();
        let lines = || groups().flat_map(|g| &g.lines);
        let least = lines().map(|l| l.least_piece).min().unwrap_or(0).max(1);
        let shortest = |from: i64| {
            let marked = -(-from.max(least)).div_euclid(pool.mark) * pool.mark;
            let wholes = lines().map(|l| l.whole).filter(|w| *w >= from);
            wholes.fold(marked, i64::min)
        };
        let mut lengths: Vec<i64> = worth.rises().chain([1]).map(shortest).collect();
        lengths.sort_unstable();
        lengths.dedup();
        out.extend(lengths.into_iter().map(|length| Load {
            weight: length + pool.kerf,
            worth: worth.of(length),
            most,
        }));
    }
    out
}
