//! The answer against its problem: patterns fit their stocks, every item and piece is cut exactly
//! its count, configurations are legal; its cost.

use std::collections::BTreeMap;

use super::legal;
use crate::check::Rule;
use crate::check::docket::Docket;
use crate::nest::{Cut, Pattern, Pool, PoolAnswer};

/// Judges patterns, counts and configurations; returns the cost by the judge's own sum.
pub(super) fn judge(pool: &Pool, answer: &PoolAnswer, uncut: &[bool], docket: &mut Docket) -> i128 {
    let mut cut: BTreeMap<Cut, i128> = BTreeMap::new();
    let mut taken = vec![0i128; pool.stocks.len()];
    let mut cost = 0i128;
    for pattern in &answer.patterns {
        let may = uncut.get(pattern.stock).copied().unwrap_or(false);
        match joint(pool, pattern, may) {
            Ok(money) => cost += money * i128::from(pattern.times),
            Err(what) => {
                docket.say(Rule::CertificatePattern, &pool.name, what);
                continue;
            }
        }
        taken[pattern.stock] += i128::from(pattern.times);
        for piece in &pattern.cuts {
            *cut.entry(*piece).or_default() += i128::from(pattern.times);
        }
    }
    for (stock, n) in pool.stocks.iter().zip(taken) {
        let limit = stock.limit.map_or(i128::MAX, i128::from);
        docket.demand(n <= limit, Rule::CertificateStockLimit, &pool.name, || {
            format!("{}: {n} taken of {limit}", stock.name)
        });
    }
    cost += configurations(pool, answer, &mut cut, docket);
    counts(pool, answer, cut, docket);
    cost
}

/// Cost less credit of one joint, or what is wrong with its pattern.
fn joint(pool: &Pool, pattern: &Pattern, uncut: bool) -> Result<i128, String> {
    let stock = pool
        .stocks
        .get(pattern.stock)
        .ok_or_else(|| format!("stock {} does not exist", pattern.stock))?;
    if pattern.cuts.is_empty() && !uncut {
        return Err(format!("{}: nothing is cut", stock.name));
    }
    let mut filled = 0i128;
    for piece in &pattern.cuts {
        let (length, class) = match *piece {
            Cut::Item(i) => {
                let item = pool.items.get(i);
                let item = item.ok_or_else(|| format!("item {i} does not exist"))?;
                (item.length, item.class)
            }
            Cut::Piece { length, class } => (length, class),
        };
        if length < 1 || class >= 32 || (stock.serves >> class) & 1 == 0 {
            return Err(format!(
                "{}: a piece of {length}, class {class}",
                stock.name
            ));
        }
        filled += i128::from(length) + i128::from(pool.kerf);
    }
    let usable = i128::from(stock.usable);
    if filled - i128::from(pool.kerf) > usable {
        let over = filled - i128::from(pool.kerf) - usable;
        return Err(format!("{}: overfull by {over}", stock.name));
    }
    // A joint that stays uncut is kept whole.
    let drop = i64::try_from((usable - filled).max(0)).unwrap_or(i64::MAX);
    let credit = if drop >= pool.credit.keep {
        i128::from(pool.credit.per_foot) * i128::from(drop / pool.credit.foot)
    } else {
        0
    };
    Ok(i128::from(stock.cost) - credit)
}

/// Takes the pieces of every configuration from what is cut; returns the splices' money.
fn configurations(
    pool: &Pool,
    answer: &PoolAnswer,
    cut: &mut BTreeMap<Cut, i128>,
    docket: &mut Docket,
) -> i128 {
    let mut made = vec![0i128; pool.groups.len()];
    let mut cost = 0i128;
    for configuration in &answer.configurations {
        let Some(group) = pool.groups.get(configuration.group) else {
            let what = format!("group {} does not exist", configuration.group);
            docket.say(Rule::CertificateConfiguration, &pool.name, what);
            continue;
        };
        let times = i128::from(configuration.times);
        match legal::price(group, pool.mark, &configuration.lines) {
            Ok(money) => cost += money * times,
            Err(what) => docket.say(Rule::CertificateConfiguration, &group.name, what),
        }
        made[configuration.group] += times;
        for &length in configuration.lines.iter().flatten() {
            let class = group.class;
            *cut.entry(Cut::Piece { length, class }).or_default() -= times;
        }
    }
    for (index, (group, n)) in pool.groups.iter().zip(made).enumerate() {
        let short = missing(&answer.short_groups, index);
        docket.demand(
            n + short == i128::from(group.count),
            Rule::CertificateGroupCount,
            &group.name,
            || format!("{n} made, {short} missing, {} wanted", group.count),
        );
    }
    cost
}

fn missing(short: &[(usize, u32)], index: usize) -> i128 {
    short
        .iter()
        .filter(|(i, _)| *i == index)
        .map(|(_, n)| i128::from(*n))
        .sum()
}

fn counts(pool: &Pool, answer: &PoolAnswer, mut cut: BTreeMap<Cut, i128>, docket: &mut Docket) {
    for (index, item) in pool.items.iter().enumerate() {
        let n = cut.remove(&Cut::Item(index)).unwrap_or(0);
        let short = missing(&answer.short, index);
        docket.demand(
            n + short == i128::from(item.count),
            Rule::CertificateItemCount,
            &pool.name,
            || {
                format!(
                    "item {index} of {}: {n} cut, {short} missing, {} wanted",
                    item.length, item.count
                )
            },
        );
    }
    for (piece, n) in cut {
        docket.demand(n == 0, Rule::CertificatePieceCount, &pool.name, || {
            format!("{piece:?}: {n} more cut than the configurations want")
        });
    }
}
