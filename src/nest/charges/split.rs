//! Where to split a place whose bound is not enough.

use super::super::charge::{Charge, ChargeKind, StockOf};
use super::super::problem::Problem;
use super::curve::{corners, least};
use super::place::{Place, number};
use super::relax::Relaxed;

/// A split: the count and the most on its one side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Split {
    /// A charge's number.
    Charge(usize, i64),
    /// Joints of a stock.
    Joints(StockOf, i64),
}

impl Split {
    /// The two sides of a place.
    pub fn sides(self, place: &Place) -> [Place; 2] {
        let (mut under, mut over) = (place.clone(), place.clone());
        match self {
            Split::Charge(c, most) => {
                under.spans[c].1 = most;
                over.spans[c].0 = most + 1;
            }
            Split::Joints(at, most) => {
                under.joints[at.pool][at.stock].1 = most;
                over.joints[at.pool][at.stock].0 = most + 1;
            }
        }
        [under, over]
    }
}

/// The split for a place, `None` when there is nothing left to split: the charge whose money lies
/// furthest over its line, at a step of its own; else the stock on which the plans met differ most.
pub(super) fn split(
    problem: &Problem,
    grain: i64,
    place: &Place,
    relaxed: &Relaxed,
) -> Option<Split> {
    let mut off: Vec<(i128, usize)> = Vec::new();
    for (c, charge) in problem.charges.iter().enumerate() {
        let (lo, hi) = place.spans[c];
        let corners = corners(&charge.kind, lo, hi);
        let slope = relaxed.slopes[c];
        let line = least(&corners, grain, slope).map_or(0, |l| l.0);
        let far = match &relaxed.taken {
            None => i128::MAX,
            Some(taken) => {
                let w = number(problem, charge, taken);
                let here = least(&super::curve::corners(&charge.kind, w, w), grain, slope);
                here.map_or(i128::MAX, |h| h.0 - line)
            }
        };
        off.push((far, c));
    }
    off.sort_by_key(|(far, c)| (std::cmp::Reverse(*far), *c));
    let steps = off.iter().filter(|(far, _)| *far > 0).find_map(|&(_, c)| {
        let taken = relaxed.taken.as_ref();
        let w = taken.map(|t| number(problem, &problem.charges[c], t));
        Some(Split::Charge(
            c,
            step(&problem.charges[c], place.spans[c], w)?,
        ))
    });
    steps.or_else(|| joints(problem, place, relaxed, &off))
}

/// Does the charge jump as soon as any joint is taken, so that paid or not paid is the first question?
pub(super) fn jumps(kind: &ChargeKind) -> bool {
    match *kind {
        ChargeKind::Fixed { amount, .. } => amount > 0,
        ChargeKind::Minimum { least } => least > 0,
        ChargeKind::Range { least, .. } => least > 1,
        ChargeKind::Lift { .. } => false,
    }
}

/// A step of the charge inside its interval.
fn step(charge: &Charge, (lo, hi): (i64, i64), number: Option<i64>) -> Option<i64> {
    if jumps(&charge.kind) && lo == 0 && hi > 0 {
        return Some(0);
    }
    let inside = |most: i64| (lo <= most && most < hi).then_some(most);
    match charge.kind {
        ChargeKind::Fixed { free_over, .. } => inside(free_over? - 1),
        ChargeKind::Minimum { least } => inside(least - 1),
        ChargeKind::Range { .. } => None,
        ChargeKind::Lift { lift, .. } => {
            let lift = i64::from(lift.max(1));
            let w = number.unwrap_or(lo).clamp(lo, hi);
            let whole = w / lift * lift;
            inside(whole)
                .filter(|k| k % lift == 0)
                .or_else(|| inside(whole + lift))
                .or_else(|| inside(whole - lift))
        }
    }
}

/// The stock on which the plans met differ most, half-way; else any stock still open.
fn joints(
    problem: &Problem,
    place: &Place,
    relaxed: &Relaxed,
    off: &[(i128, usize)],
) -> Option<Split> {
    let mut best: Option<(i64, StockOf, i64)> = None;
    for &(_, c) in off {
        for &at in &problem.charges[c].over {
            let (lo, hi) = place.joints[at.pool][at.stock];
            if lo == hi {
                continue;
            }
            let seen = relaxed
                .seen
                .iter()
                .map(|t| t[at.pool][at.stock].clamp(lo, hi));
            let (low, high) = (seen.clone().min().unwrap_or(lo), seen.max().unwrap_or(hi));
            let most = (low + (high - low) / 2).min(hi - 1);
            if best.is_none_or(|b| high - low > b.0) {
                best = Some((high - low, at, most));
            }
        }
    }
    best.map(|(_, at, most)| Split::Joints(at, most))
}
