//! Steps in rounds: those of the default first, then the rest that are allowed.
//!
//! How far a search goes by each of its means follows from its steps, so that more of them may lead past a good
//! plan. What the first round found stands: more steps never give a dearer plan or a lower bound than the default.

use super::answer::{Answer, Status, StopReason};
use super::problem::Limits;
use super::whole::Whole;

/// The steps of the first round, and those of the second (0: there is none).
pub(super) fn rounds(limits: &Limits) -> (u64, u64) {
    let first = limits.work.min(Limits::default().work);
    (first, limits.work - first)
}

/// The cheaper plan of two rounds of one problem with charges, under the higher bound.
pub(super) fn best_of(first: Answer, second: Answer) -> Answer {
    let (one, two) = match (&first.whole, &second.whole) {
        (Some(one), Some(two)) => (one, two),
        _ => return second,
    };
    if !has_plan(one) {
        return second;
    }
    if !has_plan(two) {
        return first;
    }
    let stop = two.stop;
    let higher = if two.bound > one.bound { two } else { one }.clone();
    let mut best = if two.cost < one.cost { second } else { first };
    if let Some(whole) = &mut best.whole {
        let closed = higher.bound >= whole.cost;
        *whole = Whole {
            cost: whole.cost,
            charges: whole.charges.clone(),
            status: if closed {
                Status::Proved
            } else {
                Status::Within
            },
            stop: if closed { StopReason::Closed } else { stop },
            ..higher
        };
    }
    best
}

fn has_plan(whole: &Whole) -> bool {
    !matches!(whole.status, Status::Short | Status::Stopped)
}
