//! How many steps a pool gets, and in which rounds: those of the default first, then the rest that are allowed.
//!
//! How far a search goes by each of its means follows from its steps, so that more of them may lead past a good
//! plan. What the first round found stands: more steps never give a dearer plan or a lower bound than the default.

use super::answer::{Answer, Status, StopReason};
use super::long_list::LONG;
use super::master::pieces_at_most;
use super::problem::{Limits, Pool};
use super::whole::Whole;

/// Times the steps of each pool where charges tie pools together: every node of their tree shares them.
pub(super) const CHARGED: u64 = 2;
/// A small pool has at most so many pieces, and with several spliced groups takes so many times the steps.
const SMALL: (i64, u64) = (60, 4);
/// A larger one with several spliced groups takes so many times the steps (measured).
const SEVERAL: u64 = 2;

/// Long lists take so many times the steps at most: lists of 15,000 and 50,000 pieces came to the same plan and bound
/// by five times as by fifteen and fifty times (measured), as what each joint leaves open matters less and less.
const LONGEST: u64 = 5;

/// How many times the steps of the limit a pool gets. Long lists take longer; so do pools with several spliced
/// groups, where the bound is slow to settle over the places of their splices.
pub(super) fn times(pool: &Pool) -> u64 {
    let pieces = pieces_at_most(pool);
    let spliced = pool.groups.iter().filter(|g| g.count > 0).count();
    let long = u64::try_from(pieces / LONG).unwrap_or(1).clamp(1, LONGEST);
    match spliced {
        0 | 1 => long,
        _ if pieces <= SMALL.0 => SMALL.1,
        _ => long.max(SEVERAL),
    }
}

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
    if !one.status.has_plan() {
        return second;
    }
    if !two.status.has_plan() {
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
