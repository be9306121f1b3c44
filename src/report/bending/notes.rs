//! The gate's bending in sentences: peak, reactions, droop.

use super::{force, movement, name, stress};
use crate::gate::Frame;
use crate::measure::Units;
use crate::order::Week;
use crate::statics::{Envelope, Lift, Line, Worst, envelope, model};

/// Said wherever the numbers are.
pub(super) const STANDING: &str = "Computed by a plane frame under own weight and fabric; it ranks \
                                   places for a splice and is no design check.";

/// Label and value of what was computed for a gate; the reason alone when nothing could be.
pub(in crate::report) fn figures_of(week: &Week, frame: &Frame) -> Vec<(String, String)> {
    match envelope(&model(week, frame)) {
        Ok(found) => figures(week.shop.units, &found),
        Err(fault) => vec![("Bending as it rolls".to_owned(), fault.to_string())],
    }
}

fn figures(units: Units, found: &Envelope) -> Vec<(String, String)> {
    let pair = |label: &str, value: String| (label.to_owned(), value);
    vec![
        pair("Peak as it rolls", peak(units, found)),
        pair("Rollers push, closed", pushes(units, &found.closed)),
        pair("Rollers push, open", pushes(units, &found.open)),
        pair(
            "Latch end, closed",
            format!("moves {}", way(units, found.nose_closed)),
        ),
        pair(
            "Tail end, open",
            format!("moves {}", way(units, found.tail_open)),
        ),
    ]
}

/// Stress, horizontal, bay and where in the bay.
pub(in crate::report) fn peak(units: Units, found: &Envelope) -> String {
    let (line, worst) = worst(found);
    format!(
        "{}, {}, bay {} at {:.2} of the bay",
        stress(units, worst.stress),
        name(line),
        worst.bay,
        worst.fraction
    )
}

/// The horizontal that is stressed most and where; of equals the bottom one.
pub(in crate::report) fn worst(found: &Envelope) -> (Line, Worst) {
    let [bottom, top] = Line::BOTH.map(|line| (line, found.worst(line)));
    if top.1.stress > bottom.1.stress {
        top
    } else {
        bottom
    }
}

/// Which of the two rollers the one at a place of a list of that many is.
pub(in crate::report) fn roller(rollers: usize, at: usize) -> &'static str {
    match (rollers, at) {
        (2, 0) | (4, 0 | 1) => "front",
        _ => "rear",
    }
}

fn way(units: Units, rise: f64) -> String {
    let side = if rise < 0.0 { "down" } else { "up" };
    format!("{side} {}", movement(units, rise.abs()))
}

fn pushes(units: Units, lifts: &[Lift]) -> String {
    let side = |lift: &Lift| if lift.force < 0.0 { "down" } else { "up" };
    let each = lifts.iter().enumerate().map(|(at, lift)| {
        format!(
            "{} {} {} on the {}",
            roller(lifts.len(), at),
            force(units, lift.force.abs()),
            side(lift),
            name(lift.line)
        )
    });
    each.collect::<Vec<String>>().join("; ")
}
