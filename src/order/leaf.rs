//! Leaf, overlap and tail: any two fix the third, three must agree, the shop's rule fills in.

use rust_decimal::prelude::ToPrimitive;

use super::faults::Faults;
use super::sheet::Cells;
use super::{GateStandards, TailRule};
use crate::measure::{FaultCode, Length, Units};

/// The three as settled.
pub(super) struct Leaf {
    pub latch_overlap: Length,
    pub roller_overlap: Length,
    /// Ticks.
    pub tail: f64,
    /// Ticks.
    pub leaf: f64,
}

/// What the order says of them.
pub(super) struct Given {
    pub overlap: Option<Length>,
    pub tail: Option<Length>,
    pub leaf: Option<Length>,
}

/// Written lengths are each rounded to a tick: three of them may be this far out.
const ROUNDED: i64 = 3;

/// Settles them for one opening.
pub(super) fn settle(
    cells: &Cells<'_>,
    opening: Length,
    given: &Given,
    gate: &GateStandards,
    units: Units,
    faults: &mut Faults,
) -> Option<Leaf> {
    let standard = gate.latch_overlap + gate.roller_overlap;
    let (overlap, tail) = match (given.leaf, given.overlap, given.tail) {
        (Some(leaf), Some(overlap), Some(tail)) => {
            let sum = opening + overlap + tail;
            if (leaf - sum).ticks().abs() > ROUNDED {
                faults.error(
                    FaultCode::ValuesDisagree,
                    &cells.spot("leaf"),
                    &format!(
                        "the leaf is not opening + overlap + tail, which is {}",
                        sum.print(units)
                    ),
                    "correct one of the four, or leave one of leaf, overlap and tail empty",
                );
                return None;
            }
            (overlap, tail.geometric())
        }
        (Some(leaf), overlap, None) => {
            let overlap = overlap.unwrap_or(standard);
            (overlap, (leaf - opening - overlap).geometric())
        }
        (Some(leaf), None, Some(tail)) => (leaf - opening - tail, tail.geometric()),
        (None, overlap, Some(tail)) => (overlap.unwrap_or(standard), tail.geometric()),
        (None, overlap, None) => (
            overlap.unwrap_or(standard),
            tail_by_rule(cells, opening, gate, faults)?,
        ),
    };
    if tail <= 0.0 || overlap < Length::ZERO {
        let rest = if tail <= 0.0 { "tail" } else { "overlap" };
        faults.error(
            FaultCode::ValuesDisagree, &cells.spot("leaf"),
            &format!("the leaf leaves nothing for the {rest}"),
            "a cantilever leaf is longer than opening + overlap; common practice is 1.5 times the opening",
        );
        return None;
    }
    warn_short_tail(cells, opening, tail, gate, units, faults);
    let (latch_overlap, roller_overlap) = share(overlap, gate);
    Some(Leaf {
        latch_overlap,
        roller_overlap,
        tail,
        leaf: (opening + overlap).geometric() + tail,
    })
}

fn tail_by_rule(
    cells: &Cells<'_>,
    opening: Length,
    gate: &GateStandards,
    faults: &mut Faults,
) -> Option<f64> {
    let tail = gate.tail.tail(opening);
    if tail.is_none() && matches!(&gate.tail, TailRule::Steps(steps) if !steps.is_empty()) {
        faults.error(
            FaultCode::ValueOutOfRange,
            &cells.spot("opening"),
            "the opening is past the last row of the shop's tail_steps",
            "add a row to gate.tail_steps, or give the tail in the order",
        );
    }
    tail
}

fn warn_short_tail(
    cells: &Cells<'_>,
    opening: Length,
    tail: f64,
    gate: &GateStandards,
    units: Units,
    faults: &mut Faults,
) {
    let least = gate.tail_warning.to_f64().unwrap_or(0.0) * opening.geometric();
    if tail < least - 0.5 {
        let name = if cells.text("tail").is_empty() {
            "opening"
        } else {
            "tail"
        };
        faults.warn(
            FaultCode::Caution,
            &cells.spot(name),
            &format!(
                "the tail is {}: under {} % of the opening",
                Length::nearest_tick(tail).print(units),
                (gate.tail_warning * rust_decimal::Decimal::ONE_HUNDRED).normalize()
            ),
            "a short tail lifts off its rollers sooner; lengthen it unless this is meant",
        );
    }
}

/// An overlap is shared between latch and roller side as the shop's standard is (half and half
/// when that is nothing); the odd tick goes to the roller side.
fn share(overlap: Length, gate: &GateStandards) -> (Length, Length) {
    let (latch, roller) = (gate.latch_overlap.ticks(), gate.roller_overlap.ticks());
    let (latch, whole) = match latch + roller {
        0 => (1, 2),
        whole => (latch, whole),
    };
    let part = i128::from(overlap.ticks()) * i128::from(latch) / i128::from(whole);
    let part = Length::from_ticks(i64::try_from(part).unwrap_or(0));
    (part, overlap - part)
}
