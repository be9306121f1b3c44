//! The hand reference *down the list*: how a week is cut without a plan.
//!
//! Gates as listed, copy by copy, parts in sheet order; of each pipe one joint is open at a time:
//! a part that does not fit closes it and the next joint is opened. One length per pipe, the one
//! at the least price per foot on sale that holds the longest part (unpriced: the longest); the
//! rack is not looked at. A horizontal longer than a joint is spliced where the first joint ends,
//! moved back to the nearest place that the splice rules allow (bottom first, then top). Money on
//! the plan's own terms: joints at the price their count earns, less credits of kept drops, plus
//! splices and fees. A week that wants more of the length than is to be had cannot be done so.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use super::Reference;
use super::fee::fees_of;
use super::lay::credit_of;
use super::problem::units;
use crate::measure::{Length, Money};
use crate::order::{PipeId, Week};
use crate::part::TakeOff;
use crate::splice::{Lift, Prefer, SpliceSet, configure, terms};
use crate::stock::{PoolSource, StockOrigin, UNPRICED_SPLICE, landed_price, longest_usable};

pub(crate) const NAME: &str = "down the list";

/// Joints of one pipe as they are used up.
struct Rod {
    quote: usize,
    usable: Length,
    cost: i64,
    per_foot: Money,
    joints: u32,
    /// Leftover u of the open joint; `None` before the first.
    open: Option<Length>,
    money: i64,
}

/// Work the week down the list.
pub(crate) fn down_the_list(
    week: &Week,
    take_off: &TakeOff,
    pools: &[PoolSource],
    parts: &[usize],
    sets: &[SpliceSet],
) -> Reference {
    let mut splices = 0u32;
    let mut splice_money = 0i64;
    let mut rods: BTreeMap<PipeId, Rod> = BTreeMap::new();
    let result = pieces(week, take_off, parts, sets).and_then(|list| {
        for (part, lengths) in &list {
            let pipe = take_off.parts[*part].pipe;
            let priced = pools.iter().any(|p| p.pipe == pipe && p.priced);
            let joints = u32::try_from(lengths.len().saturating_sub(1)).unwrap_or(0);
            let each = if priced {
                units(week.shop.splice.cost)
            } else {
                UNPRICED_SPLICE
            };
            splices = splices.saturating_add(joints);
            splice_money = splice_money.saturating_add(each.saturating_mul(i64::from(joints)));
            let rod = match rods.entry(pipe) {
                Entry::Occupied(open) => open.into_mut(),
                Entry::Vacant(none) => none.insert(rod(week, take_off, pools, pipe, &list)?),
            };
            for length in lengths {
                rod.cut(week, *length);
            }
        }
        Ok(())
    });
    let priced = pools.iter().all(|p| p.priced);
    let mut money = splice_money;
    let mut joints = 0u32;
    let mut bought: Vec<(usize, u32)> = Vec::new();
    for rod in rods.values_mut() {
        rod.close(week);
        money = money.saturating_add(rod.money);
        joints = joints.saturating_add(rod.joints);
        bought.push((rod.quote, rod.joints));
    }
    let result = result.and_then(|()| to_be_had(week, &bought));
    money = money.saturating_add(beyond(week, pools, &bought));
    Reference {
        name: NAME.to_owned(),
        joints,
        money: (priced && result.is_ok()).then(|| Money::from_millicents(money)),
        splices,
        failed: result.err(),
    }
}

/// No more joints than there are.
fn to_be_had(week: &Week, bought: &[(usize, u32)]) -> Result<(), String> {
    let over = bought
        .iter()
        .find(|(q, n)| week.quotes[*q].available.is_some_and(|most| *n > most));
    match over {
        None => Ok(()),
        Some((q, n)) => Err(format!(
            "it takes {n} of {}, more joints than are to be had",
            week.pipe(week.quotes[*q].pipe).title()
        )),
    }
}

/// What breaks take off and fees add, 1/1000 cent.
fn beyond(week: &Week, pools: &[PoolSource], bought: &[(usize, u32)]) -> i64 {
    let earned: Vec<(usize, u32)> = bought
        .iter()
        .map(|(quote, n)| (earned(week, *quote, *n), *n))
        .collect();
    let price = |q: usize| landed_price(week, &week.quotes[q]).map_or(0, units);
    let saved: i64 = bought
        .iter()
        .zip(&earned)
        .map(|((base, n), (row, _))| (price(*base) - price(*row)).saturating_mul(i64::from(*n)))
        .sum();
    let count = |quote: usize| {
        let mine = earned.iter().filter(|(q, _)| *q == quote);
        mine.map(|(_, n)| i64::from(*n)).sum::<i64>()
    };
    let fees = fees_of(week, pools, &count);
    fees.iter().map(|f| f.millicents).sum::<i64>() - saved
}

/// The row of an offer whose price so many joints earn.
fn earned(week: &Week, quote: usize, joints: u32) -> usize {
    let base = &week.quotes[quote];
    let reached = |q: &usize| {
        let row = &week.quotes[*q];
        row.same_joint(base) && row.terms.from > 1 && row.terms.from <= joints
    };
    let rows = (0..week.quotes.len()).filter(reached);
    rows.max_by_key(|q| week.quotes[*q].terms.from)
        .unwrap_or(quote)
}

impl Rod {
    fn cut(&mut self, week: &Week, length: Length) {
        let kerf = week.shop.saw.kerf;
        let left = self.open.map(|u| u - length - kerf);
        if let Some(left) = left.filter(|l| *l >= Length::ZERO) {
            self.open = Some(left);
        } else {
            self.close(week);
            self.joints = self.joints.saturating_add(1);
            self.money = self.money.saturating_add(self.cost);
            self.open = Some(self.usable - length);
        }
    }

    /// Put the open joint's drop down.
    fn close(&mut self, week: &Week) {
        if let Some(leftover) = self.open.take() {
            let drop = (leftover - week.shop.saw.kerf).max(Length::ZERO);
            self.money -= credit_of(week, self.per_foot, drop);
        }
    }
}

type List = Vec<(usize, Vec<Length>)>;

/// Every piece in the order of the list: (part, its piece lengths).
fn pieces(
    week: &Week,
    take_off: &TakeOff,
    parts: &[usize],
    sets: &[SpliceSet],
) -> Result<List, String> {
    let mut by_hand: BTreeMap<usize, Vec<Length>> = BTreeMap::new();
    for set in sets {
        for (part, pieces) in splice_by_hand(week, take_off, set)? {
            by_hand.insert(part, pieces);
        }
    }
    let mut list = List::new();
    for gate in 0..week.gates.len() {
        for _ in 0..week.gates[gate].count {
            for part in parts.iter().copied() {
                let p = &take_off.parts[part];
                if p.gate == Some(gate) {
                    let whole = vec![p.saw];
                    let lengths = by_hand.get(&part).unwrap_or(&whole);
                    list.extend((0..p.per_gate).map(|_| (part, lengths.clone())));
                }
            }
        }
    }
    for part in parts.iter().copied() {
        let p = &take_off.parts[part];
        if p.extra.is_some() {
            list.extend((0..p.count).map(|_| (part, vec![p.saw])));
        }
    }
    Ok(list)
}

/// A set's lines with fewest splices, each as far toward the tail as the rules allow.
fn splice_by_hand(
    week: &Week,
    take_off: &TakeOff,
    set: &SpliceSet,
) -> Result<Vec<(usize, Vec<Length>)>, String> {
    let mark = &week.gates[set.gate].mark;
    let pipe = set.lines.first().map(|l| take_off.parts[l.part].pipe);
    let usable = pipe
        .and_then(|p| longest_usable(week, p, Some(set.gate)))
        .unwrap_or(Length::ZERO);
    let figures = terms(week, set, usable, Lift::Nothing);
    let most = 1u32 << set.lines.len().min(8);
    let found = (0..most).find_map(|bits| {
        let splices: Vec<u32> = set
            .lines
            .iter()
            .enumerate()
            .map(|(i, l)| (l.least + (bits >> i & 1)).min(l.most))
            .collect();
        configure(&set.lines, &splices, &figures, Prefer::Tail)
    });
    let lines = found.ok_or_else(|| format!("no legal splice found by hand for {mark}"))?;
    let whole = |(line, pieces): (&crate::splice::SpliceLine, Vec<Length>)| {
        let pieces = if pieces.is_empty() {
            vec![line.whole]
        } else {
            pieces
        };
        (line.part, pieces)
    };
    Ok(set.lines.iter().zip(lines).map(whole).collect())
}

/// The one length used of a pipe.
fn rod(
    week: &Week,
    take_off: &TakeOff,
    pools: &[PoolSource],
    pipe: PipeId,
    list: &List,
) -> Result<Rod, String> {
    let longest = list
        .iter()
        .filter(|(p, _)| take_off.parts[*p].pipe == pipe)
        .flat_map(|(_, lengths)| lengths)
        .max()
        .copied()
        .unwrap_or(Length::ZERO);
    let pool = pools.iter().find(|p| p.pipe == pipe);
    let per_length = |s: &&crate::stock::PoolStock| match s.origin {
        StockOrigin::Quote(q) => {
            let nominal = rust_decimal::Decimal::from(week.quotes[q].nominal.ticks().max(1));
            let price = landed_price(week, &week.quotes[q]);
            let each = price.and_then(|p| p.0.checked_div(nominal));
            (each.is_none(), each, std::cmp::Reverse(s.length))
        }
        StockOrigin::Rack(_) => (true, None, std::cmp::Reverse(s.length)),
    };
    // From the first joint on, and here in time for every gate.
    let new = |s: &&crate::stock::PoolStock| match s.origin {
        StockOrigin::Quote(q) => {
            week.quotes[q].terms.from <= 1 && s.serves == u32::MAX && s.usable >= longest
        }
        StockOrigin::Rack(_) => false,
    };
    pool.and_then(|p| {
        let stock = p.stocks.iter().filter(new).min_by_key(per_length)?;
        let StockOrigin::Quote(quote) = stock.origin else {
            return None;
        };
        Some(Rod {
            quote,
            usable: stock.usable,
            cost: units(stock.cost),
            per_foot: p.credit_per_foot,
            joints: 0,
            open: None,
            money: 0,
        })
    })
    .ok_or_else(|| {
        format!(
            "no one length of {} on sale holds {} and is here in time",
            week.pipe(pipe).title(),
            longest.print(week.shop.units)
        )
    })
}
