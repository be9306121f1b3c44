//! The lower bound of DESIGN §9, re-derived: for any integer duals π ≥ 0
//! `bound = Σ πᵢnᵢ + Σₛ Nₛ·min(0, rₛ) + Σ_g N_g·q_g`.
//!
//! Duals come in units of 1/scale money, and so does everything here until the end, where the bound is
//! rounded up to the greatest money that divides every cost, credit and charge: no plan costs anything
//! between two multiples of it.

use std::collections::BTreeMap;

use super::configuration::{TooLarge, cheapest};
use super::knapsack::{Load, Table};
use super::worth::Worth;
use crate::nest::{Group, Pool, PoolAnswer};

/// Why there is no bound.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoBound {
    /// A group has more ways than the verifier follows.
    TooLarge(String),
    /// A group has no legal configuration at all.
    NoWay(String),
}

/// The bound that the answer's duals give, in the problem's money.
pub(super) fn bound(pool: &Pool, answer: &PoolAnswer) -> Result<i128, NoBound> {
    let worths: BTreeMap<u8, Worth> = pool
        .groups
        .iter()
        .map(|g| (g.class, Worth::of_class(answer, g.class)))
        .collect();
    let items: i128 = pool
        .items
        .iter()
        .zip(&answer.item_duals)
        .map(|(item, dual)| i128::from(item.count) * i128::from(*dual))
        .sum();
    let scale = i128::from(answer.dual_scale);
    let mut total = items + stocks(pool, answer, &worths, scale);
    for group in &pool.groups {
        let Some(worth) = worths.get(&group.class) else {
            continue;
        };
        let longest = longest(pool, group.class);
        let least = cheapest(group, pool.mark, longest, worth, scale)
            .map_err(|TooLarge| NoBound::TooLarge(group.name.clone()))?
            .ok_or_else(|| NoBound::NoWay(group.name.clone()))?;
        total += i128::from(group.count) * least;
    }
    let floor = scale * step(pool);
    Ok(-(-total).div_euclid(floor) * step(pool))
}

fn gcd(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { gcd(b, a % b) }
}

/// The greatest money that divides every cost, credit and charge.
fn step(pool: &Pool) -> i128 {
    let costs = pool.stocks.iter().map(|s| s.cost);
    let splices = pool.groups.iter().map(|g| g.splice_cost);
    let slots = pool.groups.iter().flat_map(|g| &g.lines);
    let charges = slots.flat_map(|l| &l.slots).map(|s| s.charge);
    let all = costs.chain(splices).chain(charges);
    i128::from(all.fold(pool.credit.per_foot, gcd).max(1))
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

/// Σₛ Nₛ·min(0, rₛ). Stocks that serve the same classes share one table.
fn stocks(pool: &Pool, answer: &PoolAnswer, worths: &BTreeMap<u8, Worth>, scale: i128) -> i128 {
    let all = pool.items.iter().map(|i| u64::from(i.count)).sum::<u64>()
        + pool.groups.iter().map(pieces).sum::<u64>();
    let mut longest: BTreeMap<u32, i64> = BTreeMap::new();
    for stock in pool.stocks.iter().filter(|s| s.limit != Some(0)) {
        let most = longest.entry(stock.serves).or_default();
        *most = (*most).max(stock.usable);
    }
    let tables: BTreeMap<u32, Table> = longest
        .into_iter()
        .map(|(serves, usable)| {
            let loads = loads(pool, answer, worths, serves);
            (serves, Table::new(&loads, usable + pool.kerf))
        })
        .collect();
    let each = pool.stocks.iter().map(|stock| {
        let table = tables.get(&stock.serves);
        let least = table.and_then(|t| t.reduced(pool, stock.usable, stock.cost, scale));
        let r = least.unwrap_or(0).min(0);
        let n = stock.limit.map_or(all, u64::from).min(all);
        r * i128::from(n)
    });
    each.sum()
}

/// What may be cut: items up to their counts; of spliced lines the shortest piece for each length at
/// which the worth rises, a whole number of marks or a whole line (a longer piece is worth no more
/// until the next rise).
fn loads(pool: &Pool, answer: &PoolAnswer, worths: &BTreeMap<u8, Worth>, serves: u32) -> Vec<Load> {
    let serving = |class: u8| (serves >> class) & 1 == 1;
    let mut out: Vec<Load> = pool
        .items
        .iter()
        .zip(&answer.item_duals)
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
