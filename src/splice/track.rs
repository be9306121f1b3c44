//! `Track`: what stands along one line that splices must keep clear of: weld toes, parked rollers.
//!
//! Toes from a vertical's centre line (DESIGN §8 rule 1): plain side `r_v + leg`; on the side where
//! the diagonal lands the larger of that and `D/(2 tan α) + r_d/sin α + leg` plus the landing
//! offset. Everything between a vertical and its diagonal is inside the toes, hence never a window.

use std::sync::Arc;

use crate::gate::{Frame, Role, Sway};
use crate::order::{Carrier, GateOrder, Lean, Week};
use crate::statics::{Envelope, Line};

/// Toes of one bay line, as distances from its centre line (ticks).
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Toes {
    /// Toward the latch end.
    pub latch: f64,
    /// Toward the tail.
    pub tail: f64,
}

/// One line by stations along it (ticks): x on a horizontal, the arc from its latch end on a brace.
#[derive(Clone, Debug)]
pub(crate) struct Track {
    /// Station of the latch-end long point: p = station − `long_at`.
    pub long_at: f64,
    /// Bay lines 0..=n.
    pub lines: Vec<f64>,
    /// Toes at each bay line.
    pub toes: Vec<Toes>,
    /// Other welds: (station, half width to the toe).
    pub others: Vec<(f64, f64)>,
    /// Clear distance from toes.
    pub clear: f64,
    /// Roller stations, gate closed and open; empty on a brace.
    pub parked: Vec<f64>,
    /// Rollers run along it.
    pub carries: bool,
    /// The gate's bending, and which of its lines this is; `None`: not computed.
    pub bending: Option<(Arc<Envelope>, Line)>,
}

/// The track of a horizontal; `long_at` is x of its latch-end long point.
pub(crate) fn horizontal(
    week: &Week,
    order: &GateOrder,
    frame: &Frame,
    role: Role,
    long_at: f64,
) -> Track {
    let rules = &week.shop.splice;
    let lines: Vec<f64> = frame.bay_lines.clone();
    let toes = (0..lines.len())
        .map(|i| toes_at(week, order, frame, role, i))
        .collect();
    let half = rules.bracket_half_width.geometric();
    let carrier = order.carrier(&week.shop);
    let carries = match role {
        Role::TopHorizontal => carrier != Carrier::Bottom,
        _ => carrier != Carrier::Top,
    };
    let r = frame.rollers;
    Track {
        long_at,
        lines,
        toes,
        others: rules
            .brackets
            .iter()
            .chain(&order.brackets)
            .map(|b| (b.geometric(), half))
            .collect(),
        clear: clear_distance(week, week.pipe(order.pipes.horizontal).diameter()),
        parked: [r.front_closed, r.front_open]
            .into_iter()
            .flat_map(|f| [f, f + r.spacing])
            .collect(),
        carries,
        bending: None,
    }
}

/// The track of a sway brace along its arc, latch end at 0: standoffs are its welds; no roller
/// touches it.
pub(crate) fn brace(week: &Week, order: &GateOrder, frame: &Frame, sway: &Sway) -> Track {
    let toe = week.pipe(order.pipes.sway).radius() + week.shop.splice.leg.geometric();
    let (half, middle) = (sway.chord / 2.0, frame.leaf / 2.0);
    let allowance = week.shop.sway.end_allowance.geometric();
    let along = |x: f64| {
        let angle = |d: f64| (d / sway.radius).clamp(-1.0, 1.0).asin();
        allowance + sway.radius * (angle(x - middle) + angle(half))
    };
    Track {
        long_at: 0.0,
        lines: frame.bay_lines.iter().map(|x| along(*x)).collect(),
        toes: vec![
            Toes {
                latch: toe,
                tail: toe
            };
            frame.bay_lines.len()
        ],
        others: Vec::new(),
        clear: clear_distance(week, week.pipe(order.pipes.sway).diameter()),
        parked: Vec::new(),
        carries: false,
        bending: None,
    }
}

/// Rule 1's clear distance for a pipe of this OD: 1.5 OD, never under the larger of 1 OD and 2 in.
pub(crate) fn clear_distance(week: &Week, od: f64) -> f64 {
    let rules = &week.shop.splice;
    let times = |d: rust_decimal::Decimal| super::fraction(d) * od;
    times(rules.clear_ods)
        .max(times(rules.clear_least_ods))
        .max(rules.clear_least.geometric())
}

fn toes_at(week: &Week, order: &GateOrder, frame: &Frame, role: Role, line: usize) -> Toes {
    let leg = week.shop.splice.leg.geometric();
    let last = frame.bays.len();
    let stands = match line {
        0 => order.pipes.latch_post,
        n if n == last => order.pipes.tail_post,
        _ => order.pipes.vertical,
    };
    let plain = week.pipe(stands).radius() + leg;
    let toward_tail = (role == Role::BottomHorizontal) == (frame.lean == Lean::HeadToTail);
    let bay = if toward_tail {
        frame.bays.get(line)
    } else {
        line.checked_sub(1).and_then(|b| frame.bays.get(b))
    };
    let od = week.pipe(order.pipes.horizontal).diameter();
    let diagonal = bay.map_or(0.0, |b| {
        od / (2.0 * b.alpha.tan())
            + week.pipe(order.pipes.diagonal).radius() / b.alpha.sin()
            + leg
            + week.shop.gate.landing_offset.geometric()
    });
    let landing = plain.max(diagonal);
    if toward_tail {
        Toes {
            latch: plain,
            tail: landing,
        }
    } else {
        Toes {
            latch: landing,
            tail: plain,
        }
    }
}
