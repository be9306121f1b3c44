//! The exact cost of an answer, from the problem alone; anything wrong with it is named.

use std::collections::BTreeMap;

use super::answer::{Configuration, Cut, Pattern, PoolAnswer};
use super::charges::uncut;
use super::fault::NestFault;
use super::problem::{Pool, Problem};
use super::rules::configuration_cost;

/// Cost of a full answer: every item exactly its count, every piece of every configuration cut
/// exactly once, every joint within its length, limit and classes, every configuration legal.
///
/// # Errors
/// [`NestFault::Answer`] names the first thing wrong.
pub fn cost(
    pool: &Pool,
    patterns: &[Pattern],
    configurations: &[Configuration],
) -> Result<i64, NestFault> {
    cost_with_uncut(pool, patterns, configurations, &[])
}

/// Cost of a whole answer, and the money of each charge in it. Joints may be left uncut where charges over
/// their stock allow it.
///
/// # Errors
/// [`NestFault::Answer`] names the first thing wrong, [`NestFault::Charge`] a range that is broken.
pub fn cost_with_charges(
    problem: &Problem,
    pools: &[PoolAnswer],
) -> Result<(i64, Vec<i64>), NestFault> {
    let may = uncut(problem);
    let (mut total, mut taken) = (0i128, Vec::new());
    for ((pool, answer), may) in problem.pools.iter().zip(pools).zip(&may) {
        let (patterns, configurations) = (&answer.patterns, &answer.configurations);
        total += i128::from(cost_with_uncut(pool, patterns, configurations, may)?);
        let mut joints = vec![0u64; pool.stocks.len()];
        for pattern in patterns {
            joints[pattern.stock] += u64::from(pattern.times);
        }
        taken.push(joints);
    }
    let mut charges = Vec::new();
    for charge in &problem.charges {
        let money = charge.money(problem, &taken);
        let money = money.and_then(|m| i64::try_from(m).ok());
        let money = money.ok_or_else(|| NestFault::Charge {
            charge: charge.name.clone(),
            what: "is over joints that its range does not allow".to_string(),
        })?;
        total += i128::from(money);
        charges.push(money);
    }
    let total = i64::try_from(total).map_err(|_| NestFault::Answer {
        pool: "all pools".to_string(),
        what: "the money is too large".to_string(),
    })?;
    Ok((total, charges))
}

pub(super) fn cost_with_uncut(
    pool: &Pool,
    patterns: &[Pattern],
    configurations: &[Configuration],
    uncut: &[bool],
) -> Result<i64, NestFault> {
    let bad = |what: String| NestFault::Answer {
        pool: pool.name.clone(),
        what,
    };
    let mut need: BTreeMap<(i64, u8), i64> = BTreeMap::new();
    let mut items = vec![0u64; pool.items.len()];
    let mut money: i128 = 0;
    let mut groups = vec![0u64; pool.groups.len()];
    for configuration in configurations {
        let group = pool
            .groups
            .get(configuration.group)
            .ok_or_else(|| bad("a configuration of no group".into()))?;
        let each = configuration_cost(group, pool.mark, &configuration.lines).map_err(bad)?;
        money += i128::from(each) * i128::from(configuration.times);
        groups[configuration.group] += u64::from(configuration.times);
        for &piece in configuration.lines.iter().flatten() {
            *need.entry((piece, group.class)).or_insert(0) += i64::from(configuration.times);
        }
    }
    for (group, made) in pool.groups.iter().zip(&groups) {
        if u64::from(group.count) != *made {
            return Err(bad(format!(
                "{}: {made} of {} made",
                group.name, group.count
            )));
        }
    }
    let mut used = vec![0u64; pool.stocks.len()];
    for pattern in patterns {
        let may = uncut.get(pattern.stock).copied().unwrap_or(false);
        money += pattern_cost(pool, pattern, may).map_err(bad)? * i128::from(pattern.times);
        used[pattern.stock] += u64::from(pattern.times);
        for cut in &pattern.cuts {
            match *cut {
                Cut::Item(i) => items[i] += u64::from(pattern.times),
                Cut::Piece { length, class } => {
                    *need.entry((length, class)).or_insert(0) -= i64::from(pattern.times);
                }
            }
        }
    }
    for (stock, taken) in pool.stocks.iter().zip(&used) {
        if stock.limit.is_some_and(|l| u64::from(l) < *taken) {
            return Err(bad(format!(
                "{}: {taken} taken, more than there are",
                stock.name
            )));
        }
    }
    for (i, (item, cut)) in pool.items.iter().zip(&items).enumerate() {
        if u64::from(item.count) != *cut {
            return Err(bad(format!("item {}: {cut} of {} cut", i + 1, item.count)));
        }
    }
    if let Some(((length, _), n)) = need.iter().find(|(_, n)| **n != 0) {
        return Err(bad(format!("pieces of {length}: {n} missing")));
    }
    i64::try_from(money).map_err(|_| bad("the money is too large".into()))
}

/// Cost of one joint less its credit, or what is wrong with it.
fn pattern_cost(pool: &Pool, pattern: &Pattern, uncut: bool) -> Result<i128, String> {
    let stock = pool
        .stocks
        .get(pattern.stock)
        .ok_or("a pattern of no stock")?;
    if pattern.cuts.is_empty() {
        let kept = i128::from(stock.cost) - i128::from(pool.credit.of(stock.usable));
        let wrong = || format!("{}: nothing is cut from a joint", stock.name);
        return uncut.then_some(kept).ok_or_else(wrong);
    }
    let mut taken: i128 = 0;
    for cut in &pattern.cuts {
        let (length, class) = match *cut {
            Cut::Item(i) => {
                let item = pool.items.get(i).ok_or("a pattern with no such item")?;
                (item.length, item.class)
            }
            Cut::Piece { length, class } => (length, class),
        };
        if length <= 0 || class >= 32 || stock.serves >> class & 1 == 0 {
            return Err(format!("{}: may not serve class {class}", stock.name));
        }
        taken += i128::from(length) + i128::from(pool.kerf);
    }
    let over = taken - i128::from(pool.kerf) - i128::from(stock.usable);
    if over > 0 {
        return Err(format!("{}: cut over its length by {over}", stock.name));
    }
    let drop = (i128::from(stock.usable) - taken).max(0);
    let drop = i64::try_from(drop).map_err(|_| "a drop past all numbers")?;
    Ok(i128::from(stock.cost) - i128::from(pool.credit.of(drop)))
}
