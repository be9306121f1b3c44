//! Refuses problems whose numbers cannot be trusted. Everything behind this door may add and
//! multiply in `i64` without checking: lengths, money and counts are at most 2^40, the pool's sums at
//! most 2^52 money (so that they are exact in a double too).

use super::charges::admit_charges;
use super::fault::NestFault;
use super::problem::{Group, Line, Pool, Problem, Stock};

/// Largest single number.
pub(super) const MOST: i64 = 1 << 40;
/// Largest number of pieces in a pool.
pub(super) const MOST_PIECES: u64 = 1 << 24;
/// Largest sum of money in a pool.
pub(super) const MOST_MONEY: i128 = 1 << 52;
/// Most splices per line: the common multiple of 1..16 doubled still scales 2^40 into an `i64`.
const MOST_SPLICES: u32 = 16;
/// Highest class: each is a bit of what a stock serves.
const MOST_CLASS: i64 = 31;
/// Most positions of a splice per line.
const MOST_POSITIONS: i64 = 1 << 20;

struct Door<'a> {
    pool: &'a str,
}

impl Door<'_> {
    fn range(&self, place: impl Fn() -> String, value: i64, least: i64) -> Result<(), NestFault> {
        if value > MOST {
            return Err(NestFault::TooLarge {
                pool: self.pool.to_string(),
                place: place(),
                value,
                most: MOST,
            });
        }
        if value < least {
            return Err(NestFault::TooSmall {
                pool: self.pool.to_string(),
                place: place(),
                value,
                least,
            });
        }
        Ok(())
    }

    fn twice(&self, place: String) -> NestFault {
        NestFault::Twice {
            pool: self.pool.to_string(),
            place,
        }
    }
}

/// Checks a whole problem; the first fault is returned.
pub(super) fn admit(problem: &Problem) -> Result<(), NestFault> {
    for (i, pool) in problem.pools.iter().enumerate() {
        if problem.pools[..i].iter().any(|p| p.name == pool.name) {
            return Err(NestFault::Twice {
                pool: pool.name.clone(),
                place: "the pool".to_string(),
            });
        }
        admit_pool(pool)?;
    }
    admit_charges(problem)
}

/// Checks one pool.
pub(super) fn admit_pool(pool: &Pool) -> Result<(), NestFault> {
    let door = Door { pool: &pool.name };
    door.range(|| "mark".into(), pool.mark, 1)?;
    door.range(|| "kerf".into(), pool.kerf, 0)?;
    door.range(|| "keep length".into(), pool.credit.keep, 0)?;
    door.range(|| "foot".into(), pool.credit.foot, 1)?;
    door.range(|| "credit per foot".into(), pool.credit.per_foot, 0)?;
    for stock in &pool.stocks {
        door.range(
            || format!("usable length of {}", stock.name),
            stock.usable,
            1,
        )?;
        door.range(|| format!("cost of {}", stock.name), stock.cost, 0)?;
        // What is paid for holds what is cut.
        door.range(
            || format!("length of {}", stock.name),
            stock.length,
            stock.usable,
        )?;
        door.range(|| format!("price of {}", stock.name), stock.price(), 0)?;
    }
    let mut seen: Vec<(i64, u8)> = Vec::with_capacity(pool.items.len());
    for (i, item) in pool.items.iter().enumerate() {
        door.range(|| format!("length of item {}", i + 1), item.length, 1)?;
        if item.class >= 32 {
            return Err(NestFault::TooLarge {
                pool: pool.name.clone(),
                place: format!("class of item {}", i + 1),
                value: i64::from(item.class),
                most: MOST_CLASS,
            });
        }
        seen.push((item.length, item.class));
    }
    seen.sort_unstable();
    if let Some(w) = seen.windows(2).find(|w| w[0] == w[1]) {
        return Err(door.twice(format!("item length {} of class {}", w[0].0, w[0].1)));
    }
    for group in &pool.groups {
        admit_group(&door, pool, group)?;
    }
    admit_sums(pool)?;
    pool.stocks.iter().try_for_each(|s| admit_credit(pool, s))
}

/// No joint pays by its drop, or left whole, so that no plan costs less than nothing. (Sums are sound before.)
fn admit_credit(pool: &Pool, stock: &Stock) -> Result<(), NestFault> {
    let credit = pool.credit.of(stock.usable);
    if stock.cost >= credit {
        return Ok(());
    }
    Err(NestFault::Pays {
        pool: pool.name.clone(),
        stock: stock.name.clone(),
        cost: stock.cost,
        credit,
    })
}

fn admit_group(door: &Door<'_>, pool: &Pool, group: &Group) -> Result<(), NestFault> {
    if group.lines.is_empty() || group.lines.len() > 2 {
        return Err(NestFault::Lines {
            pool: pool.name.clone(),
            place: group.name.clone(),
        });
    }
    if group.class >= 32 {
        return Err(NestFault::TooLarge {
            pool: pool.name.clone(),
            place: format!("class of {}", group.name),
            value: i64::from(group.class),
            most: MOST_CLASS,
        });
    }
    door.range(|| format!("apart of {}", group.name), group.apart, 0)?;
    door.range(
        || format!("splice cost of {}", group.name),
        group.splice_cost,
        0,
    )?;
    for (l, line) in group.lines.iter().enumerate() {
        let place = format!("{} line {}", group.name, l + 1);
        admit_line(door, pool, &place, line)?;
    }
    Ok(())
}

fn admit_line(door: &Door<'_>, pool: &Pool, place: &str, line: &Line) -> Result<(), NestFault> {
    let at = |what: &str| format!("{what} of {place}");
    door.range(|| at("length"), line.length, 1)?;
    door.range(|| at("whole piece"), line.whole, 1)?;
    door.range(|| at("gap"), line.gap, 0)?;
    door.range(|| at("least piece"), line.least_piece, 0)?;
    door.range(|| at("three-splice distance"), line.three_over, 0)?;
    if line.most_splices > MOST_SPLICES {
        return Err(NestFault::TooLarge {
            pool: pool.name.clone(),
            place: at("most splices"),
            value: i64::from(line.most_splices),
            most: i64::from(MOST_SPLICES),
        });
    }
    door.range(
        || at("most splices"),
        i64::from(line.most_splices),
        i64::from(line.least_splices),
    )?;
    let mut positions = 0i64;
    for (i, slot) in line.slots.iter().enumerate() {
        door.range(|| at("slot end"), slot.hi, -MOST)?;
        door.range(|| at("slot start"), slot.lo, -MOST)?;
        door.range(|| at("slot charge"), slot.charge, 0)?;
        let before = i.checked_sub(1).map(|b| &line.slots[b]);
        let split = before.is_some_and(|b| b.zone != slot.zone)
            && line.slots[..i].iter().any(|s| s.zone == slot.zone);
        let (lo, hi) = (slot.lo, slot.hi);
        let wrong = match before {
            _ if lo > hi => format!("runs backwards: lo {lo} is over hi {hi}"),
            Some(b) if b.hi > lo => format!(
                "starts at lo {lo}, before the one in front of it ends at {}",
                b.hi
            ),
            _ if split => format!(
                "comes back to zone {}, which another zone's slot has ended",
                slot.zone
            ),
            _ => String::new(),
        };
        if !wrong.is_empty() {
            return Err(NestFault::Slots {
                pool: pool.name.clone(),
                place: place.to_string(),
                slot: i,
                what: wrong,
            });
        }
        positions += (slot.hi.min(line.length) - slot.lo.max(0)).max(0) / pool.mark;
    }
    if positions > MOST_POSITIONS {
        return Err(NestFault::Sum {
            pool: pool.name.clone(),
            place: at("number of splice positions"),
        });
    }
    Ok(())
}

fn admit_sums(pool: &Pool) -> Result<(), NestFault> {
    let mut pieces: u64 = pool.items.iter().map(|i| u64::from(i.count)).sum();
    let mut money: i128 = 0;
    for group in &pool.groups {
        let count = u64::from(group.count);
        for line in &group.lines {
            pieces = pieces.saturating_add(count.saturating_mul(u64::from(line.most_splices) + 1));
            let charge = line.slots.iter().map(|s| s.charge).max().unwrap_or(0);
            money += i128::from(count)
                * i128::from(line.most_splices)
                * i128::from(group.splice_cost + charge);
        }
    }
    if pieces > MOST_PIECES {
        return Err(NestFault::Sum {
            pool: pool.name.clone(),
            place: "the number of pieces".to_string(),
        });
    }
    let dearest = pool.stocks.iter().map(|s| s.cost).max().unwrap_or(0);
    let feet = pool
        .stocks
        .iter()
        .map(|s| s.usable / pool.credit.foot + 1)
        .max()
        .unwrap_or(0);
    let each = i128::from(dearest) + i128::from(feet) * i128::from(pool.credit.per_foot);
    // Where nothing is cut charges may still ask what a whole joint is credited.
    money += i128::from(pieces.max(1)) * each;
    if money > MOST_MONEY {
        return Err(NestFault::Sum {
            pool: pool.name.clone(),
            place: "the money".to_string(),
        });
    }
    Ok(())
}
