//! What a plan's orders cost beyond their joints: freight, lifts, minimum orders.

use serde::Serialize;

use super::problem::units;
use super::uncut::left_whole;
use super::{JointSource, PlannedJoint, Uncut};
use crate::measure::Money;
use crate::order::Week;
use crate::stock::{PoolSource, Term, TermKind, terms};

/// What is paid beyond joints.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FeeKind {
    /// Freight of the shipment, or what longer joints add to it.
    Freight,
    /// Started and broken lifts.
    Lift,
    /// What the order falls short of the supplier's least.
    Minimum,
}

/// One fee of the plan's orders.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Fee {
    /// What for: `freight of Harbor Pipe`.
    pub name: String,
    /// Supplier; empty where the quote names none.
    pub supplier: String,
    /// Kind.
    pub kind: FeeKind,
    /// Exact, 1/1000 cent.
    pub millicents: i64,
    /// As printed: rounded once to cents.
    pub money: Money,
}

/// The fees of these joints, cut and left whole, in a fixed order; none of nothing.
pub(crate) fn fees(
    week: &Week,
    pools: &[PoolSource],
    joints: &[PlannedJoint],
    uncut: &[Uncut],
) -> Vec<Fee> {
    let count = |quote: usize| {
        let mine = |j: &&PlannedJoint| j.source == JointSource::Bought(quote);
        let cut = i64::try_from(joints.iter().filter(mine).count()).unwrap_or(i64::MAX);
        cut.saturating_add(i64::from(left_whole(uncut, quote)))
    };
    fees_of(week, pools, &count)
}

/// The fees of so many joints of each quote.
pub(crate) fn fees_of(week: &Week, pools: &[PoolSource], count: &dyn Fn(usize) -> i64) -> Vec<Fee> {
    let fee = |term: &Term| {
        let (kind, millicents) = paid(week, term, count)?;
        (millicents > 0).then(|| Fee {
            name: term.name.clone(),
            supplier: term.supplier.clone(),
            kind,
            millicents,
            money: Money::from_millicents(millicents).cents(),
        })
    };
    terms(week, pools).iter().filter_map(fee).collect()
}

/// What a term costs, 1/1000 cent; `None` of one that costs nothing ever.
fn paid(week: &Week, term: &Term, count: &dyn Fn(usize) -> i64) -> Option<(FeeKind, i64)> {
    let joints: i64 = term.quotes.iter().map(|q| count(*q)).sum();
    let price = |q: &usize| week.quotes[*q].price.map_or(0, units);
    let prices: i64 = term
        .quotes
        .iter()
        .map(|q| count(*q).saturating_mul(price(q)))
        .fold(0, i64::saturating_add);
    let any = joints > 0;
    Some(match term.kind {
        TermKind::Freight { amount, free_over } => {
            let free = free_over.is_some_and(|over| prices >= units(over));
            let due = if any && !free { units(amount) } else { 0 };
            (FeeKind::Freight, due)
        }
        TermKind::Lift {
            joints: lift,
            fee,
            part_fee,
        } => {
            let lift = i64::from(lift.max(1));
            let started = joints / lift + i64::from(joints % lift > 0);
            let broken = i64::from(joints % lift > 0);
            let due = started.saturating_mul(units(fee)) + broken * units(part_fee);
            (FeeKind::Lift, due)
        }
        TermKind::Minimum { least } => {
            let due = if any { units(least) - prices } else { 0 };
            (FeeKind::Minimum, due.max(0))
        }
        TermKind::Count { .. } => return None,
    })
}
