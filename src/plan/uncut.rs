//! Joints bought and left whole, to fill a lift, reach a minimum, a break or free freight: they go on the
//! rack, credited as drops are.

use serde::Serialize;

use super::lay::credit_of;
use crate::measure::Money;
use crate::nest::{Pattern, PoolAnswer};
use crate::order::Week;
use crate::stock::{PoolSource, StockOrigin};

/// Joints of one quote left whole.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Uncut {
    /// Index into `Week::quotes`.
    pub quote: usize,
    /// How many.
    pub joints: u32,
    /// Credit of all of them: of the usable length of each.
    pub credit: Money,
}

/// The joints left whole, in the answers' order.
pub(crate) fn uncut(week: &Week, pools: &[PoolSource], answers: &[PoolAnswer]) -> Vec<Uncut> {
    let mut out = Vec::new();
    for (source, answer) in pools.iter().zip(answers) {
        for pattern in answer.patterns.iter().filter(|p| p.cuts.is_empty()) {
            let stock = &source.stocks[pattern.stock];
            let StockOrigin::Quote(quote) = stock.origin else {
                continue;
            };
            let each = credit_of(week, source.credit_per_foot, stock.usable);
            out.push(Uncut {
                quote,
                joints: pattern.times,
                credit: Money::from_millicents(each.saturating_mul(i64::from(pattern.times))),
            });
        }
    }
    out
}

/// How many joints of a quote are left whole.
pub(crate) fn left_whole(uncut: &[Uncut], quote: usize) -> u32 {
    let mine = uncut.iter().filter(|u| u.quote == quote);
    mine.map(|u| u.joints).fold(0, u32::saturating_add)
}

/// The joints left whole of one pool as patterns.
pub(crate) fn as_patterns(source: &PoolSource, uncut: &[Uncut]) -> Vec<Pattern> {
    let pattern = |u: &Uncut| {
        let origin = StockOrigin::Quote(u.quote);
        let stock = source.stocks.iter().position(|s| s.origin == origin)?;
        Some(Pattern {
            stock,
            times: u.joints,
            cuts: Vec::new(),
        })
    };
    uncut.iter().filter_map(pattern).collect()
}
