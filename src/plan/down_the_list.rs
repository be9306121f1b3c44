//! The hand reference *down the list*: how a week is cut without a plan.
//!
//! Gates as listed, copy by copy, parts in sheet order; of each pipe one joint is open at a time:
//! a part that does not fit closes it and the next joint is opened. One length per pipe, the one
//! at the least price per foot on sale that holds the longest part (unpriced: the longest); the
//! rack is not looked at. A horizontal longer than a joint is spliced where the first joint ends,
//! moved back to the nearest place that the splice rules allow (bottom first, then top). Money on
//! the plan's own terms: joints less credits of kept drops, plus splices. Limits on what can be
//! had are not looked at.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use super::Reference;
use super::lay::credit_of;
use super::problem::units;
use crate::measure::{Length, Money};
use crate::order::{PipeId, Week};
use crate::part::TakeOff;
use crate::splice::{Lift, Prefer, SpliceSet, configure, terms};
use crate::stock::{PoolSource, StockOrigin, UNPRICED_SPLICE, longest_usable};

pub(crate) const NAME: &str = "down the list";

/// Joints of one pipe as they are used up.
struct Rod {
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
    for rod in rods.values_mut() {
        rod.close(week);
        money = money.saturating_add(rod.money);
        joints = joints.saturating_add(rod.joints);
    }
    Reference {
        name: NAME.to_owned(),
        joints,
        money: (priced && result.is_ok()).then(|| Money::from_millicents(money)),
        splices,
        failed: result.err(),
    }
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
            let each = week.quotes[q].price.and_then(|p| p.0.checked_div(nominal));
            (each.is_none(), each, std::cmp::Reverse(s.length))
        }
        StockOrigin::Rack(_) => (true, None, std::cmp::Reverse(s.length)),
    };
    let new = |s: &&crate::stock::PoolStock| {
        matches!(s.origin, StockOrigin::Quote(_)) && s.usable >= longest
    };
    pool.and_then(|p| {
        let stock = p.stocks.iter().filter(new).min_by_key(per_length)?;
        Some(Rod {
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
            "no joint of {} on sale holds {}",
            week.pipe(pipe).title(),
            longest.print(week.shop.units)
        )
    })
}
