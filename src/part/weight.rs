//! What one gate weighs, and where it hangs.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use serde::Serialize;

use super::TakeOff;
use crate::gate::{Frame, Point};
use crate::measure::{INCH, Length, MM, Units};
use crate::order::Week;

/// The lifting weight of one gate, lb or kg as the shop's units go. `None`: not given in the shop
/// file, so not in the total.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct GateWeight {
    /// Bare pipe, a kit's horizontals included: saw lengths × weight per unit, unrounded.
    pub pipe: f64,
    /// Fabric over the whole leaf (leaf × height).
    pub fabric: Option<f64>,
    /// Hardware.
    pub hardware: Option<f64>,
    /// Zinc, as a percentage of the bare pipe.
    pub zinc: Option<f64>,
    /// All of the above that are known.
    pub total: f64,
    /// Centre of gravity of pipe and fabric, in the gate's coordinates; zinc and hardware are taken
    /// to hang evenly on them.
    pub centre_of_gravity: Point,
}

/// The weight of one gate of `week.gates[gate]`; `None` when it could not be built.
pub fn gate_weight(week: &Week, take_off: &TakeOff, gate: usize) -> Option<GateWeight> {
    let frame = take_off.frames.iter().find(|f| f.gate == gate)?;
    let units = week.shop.units;
    let rules = &week.shop.fabric;
    let (pipe, of_pipe) = pipe(week, take_off, frame);
    let fabric = week
        .gates
        .get(gate)?
        .fabric_weight(&week.shop)
        .and_then(|w| Some(w.to_f64()? * area(frame, units)));
    let centre = Point {
        x: frame.leaf / 2.0,
        y: frame.axis_height / 2.0,
    };
    let hung = fabric.unwrap_or(0.0);
    let weigh = |moment: f64, at: f64| (moment + hung * at) / (pipe + hung);
    let number = |d: Option<Decimal>| d.and_then(|d| d.to_f64());
    let hardware = number(rules.hardware);
    let zinc = number(rules.zinc_percent).map(|p| pipe * p / 100.0);
    Some(GateWeight {
        pipe,
        fabric,
        hardware,
        zinc,
        total: pipe + hung + hardware.unwrap_or(0.0) + zinc.unwrap_or(0.0),
        centre_of_gravity: Point {
            x: weigh(of_pipe.x, centre.x),
            y: weigh(of_pipe.y, centre.y),
        },
    })
}

/// Bare pipe and its moment, each member by its saw length at the middle of its axis.
fn pipe(week: &Week, take_off: &TakeOff, frame: &Frame) -> (f64, Point) {
    let of_gate = take_off.parts.iter().filter(|p| p.gate == Some(frame.gate));
    let total = of_gate.clone().map(|p| p.weight * f64::from(p.per_gate));
    let mut moment = Point { x: 0.0, y: 0.0 };
    for m in &frame.members {
        // A member's part: same role, pipe and axis (what makes parts alike).
        let each = of_gate
            .clone()
            .find(|p| {
                p.role == Some(m.role) && p.pipe == m.pipe && (p.axis - m.axis).abs() <= 1e-6 * INCH
            })
            .map_or_else(
                || week.pipe(m.pipe).weight(week.shop.units, m.axis),
                |p| p.weight,
            );
        moment.x += each * (m.start.x + m.end.x) / 2.0;
        moment.y += each * (m.start.y + m.end.y) / 2.0;
    }
    (total.sum(), moment)
}

/// Leaf × height in square feet or square metres.
fn area(frame: &Frame, units: Units) -> f64 {
    let side = match units {
        Units::Inch => Length::FOOT.geometric(),
        Units::Metric => 1000.0 * MM,
    };
    (frame.leaf / side) * (frame.height / side)
}
