//! How a gate works as it rolls.

use serde::Serialize;

use crate::gate::Frame;
use crate::measure::{INCH, MM, Units};
use crate::order::Week;
use crate::statics::{Lift, Line, PSI_PER_MPA, envelope, model, share_of_yield};

use super::super::bending::{NEWTONS, roller, worst};
use super::super::figures::Figures;
use super::quantity::{Geometric, geometric, rounded};

/// Computed under own weight and fabric: ranks places for a splice, no design check.
#[derive(Serialize)]
pub(super) struct BendingEntry {
    stress_unit: &'static str,
    force_unit: &'static str,
    peak: Option<f64>,
    peak_on: Line,
    peak_bay: usize,
    /// Fraction of the bay from its latch-side bay line.
    peak_at: Option<f64>,
    /// None: no yield given for the horizontals' pipe.
    peak_of_yield: Option<f64>,
    rollers_closed: Vec<PushEntry>,
    rollers_open: Vec<PushEntry>,
    /// + up, in the document's unit of length.
    latch_end_rise_closed: Option<f64>,
    tail_end_rise_open: Option<f64>,
}

/// One roller's push, + up.
#[derive(Serialize)]
pub(super) struct PushEntry {
    roller: &'static str,
    on: Line,
    from_latch_face: Geometric,
    force: Option<f64>,
}

/// A gate's; `None` when it could not be computed.
pub(super) fn bending(week: &Week, frame: &Frame) -> Option<BendingEntry> {
    let found = envelope(&model(week, frame)).ok()?;
    let units = week.shop.units;
    let figures = Figures::of(week);
    let first = frame.bay_lines.first().copied().unwrap_or(0.0);
    let (line, worst) = worst(&found);
    let push = |lifts: &[Lift]| {
        let each = lifts.iter().enumerate().map(|(at, lift)| PushEntry {
            roller: roller(lifts.len(), at),
            on: lift.line,
            from_latch_face: geometric(figures, first + lift.x * INCH),
            force: match units {
                Units::Inch => rounded(lift.force, 1),
                Units::Metric => rounded(lift.force * NEWTONS, 1),
            },
        });
        each.collect()
    };
    Some(BendingEntry {
        stress_unit: match units {
            Units::Inch => "psi",
            Units::Metric => "MPa",
        },
        force_unit: match units {
            Units::Inch => "lbf",
            Units::Metric => "N",
        },
        peak: match units {
            Units::Inch => rounded(worst.stress, 1),
            Units::Metric => rounded(worst.stress / PSI_PER_MPA, 2),
        },
        peak_on: line,
        peak_bay: worst.bay,
        peak_at: rounded(worst.fraction, 2),
        peak_of_yield: share_of_yield(week, frame.gate, &found).and_then(|s| rounded(s, 3)),
        rollers_closed: push(&found.closed),
        rollers_open: push(&found.open),
        latch_end_rise_closed: rise(units, found.nose_closed),
        tail_end_rise_open: rise(units, found.tail_open),
    })
}

fn rise(units: Units, inches: f64) -> Option<f64> {
    match units {
        Units::Inch => rounded(inches, 3),
        Units::Metric => rounded(inches * INCH / MM, 2),
    }
}
