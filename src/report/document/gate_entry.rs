//! Gates and pipes.

use serde::Serialize;

use crate::gate::Frame;
use crate::measure::{Unit, Units};
use crate::order::{
    Carrier, GateOrder, Hand, Lean, Paperwork, Pipe, PipeKey, SeenFrom, Variant, Week,
};
use crate::part::{TakeOff, gate_weight};

use super::super::figures::Figures;
use super::bending_entry::{BendingEntry, bending};
use super::quantity::{Exact, Geometric, degrees, exact, geometric, rounded};

/// A pipe key.
#[derive(Serialize)]
pub(super) struct PipeEntry<'a> {
    key: PipeKey,
    name: &'a str,
    title: String,
    od: f64,
    od_unit: &'static str,
    wall: f64,
    wall_unit: &'static str,
    standard: &'a str,
    grade: &'a str,
    finish: &'a str,
}

/// One gate order with its frame.
#[derive(Serialize)]
pub(in crate::report) struct GateEntry<'a> {
    mark: &'a str,
    count: u32,
    opening: Exact,
    height: Exact,
    hand: &'static str,
    /// From which side it is seen, if the order says.
    seen_from: Option<SeenFrom>,
    latch_overlap: Exact,
    roller_overlap: Exact,
    tail: Geometric,
    leaf: Geometric,
    due: Option<String>,
    barbed: u32,
    sway: bool,
    automated: bool,
    kit: bool,
    high_stress: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    paperwork: Option<&'a Paperwork>,
    note: &'a str,
    frame: Option<FrameEntry>,
    weight: Option<WeightEntry>,
    bending: Option<BendingEntry>,
}

/// What one gate weighs, lb or kg, and where it hangs.
#[derive(Serialize)]
struct WeightEntry {
    unit: &'static str,
    /// Bare pipe by saw lengths.
    pipe: Option<f64>,
    fabric: Option<f64>,
    hardware: Option<f64>,
    zinc: Option<f64>,
    /// All of the above that are known.
    total: Option<f64>,
    centre_from_latch_face: Geometric,
    centre_over_bottom_axis: Geometric,
}

/// One bay, from bay line to bay line.
#[derive(Serialize)]
struct BayEntry {
    bay: usize,
    from: Geometric,
    to: Geometric,
    width: Geometric,
    lean_deg: Option<f64>,
}

/// Centre lines.
#[derive(Serialize)]
pub(super) struct FrameEntry {
    variant: &'static str,
    lean: &'static str,
    rise: Geometric,
    drop: Geometric,
    axis_height: Geometric,
    bay_lines: Vec<Geometric>,
    bays: Vec<BayEntry>,
    lean_deg: Vec<Option<f64>>,
    check_measure: Geometric,
    carrier: Carrier,
    roller_front_closed: Geometric,
    roller_front_open: Geometric,
    roller_rear_closed: Geometric,
    roller_rear_open: Geometric,
    roller_spacing: Geometric,
}

/// Every pipe of the week; other entries refer to them by index.
pub(super) fn pipes(week: &Week) -> Vec<PipeEntry<'_>> {
    week.pipes.iter().map(pipe).collect()
}

fn pipe(pipe: &Pipe) -> PipeEntry<'_> {
    let unit = |u| match u {
        Unit::Inch => "in",
        Unit::Mm => "mm",
    };
    let value = |d: crate::measure::Dimension| match d.unit {
        Unit::Inch => d.inches(),
        Unit::Mm => d.millimetres(),
    };
    PipeEntry {
        key: pipe.key(),
        name: &pipe.name,
        title: pipe.title(),
        od: rounded(value(pipe.od), 6).unwrap_or_default(),
        od_unit: unit(pipe.od.unit),
        wall: rounded(value(pipe.wall), 6).unwrap_or_default(),
        wall_unit: unit(pipe.wall.unit),
        standard: &pipe.standard,
        grade: &pipe.grade,
        finish: &pipe.finish,
    }
}

/// Every gate order of the week, in file order.
pub(super) fn gates<'a>(week: &'a Week, take_off: &TakeOff) -> Vec<GateEntry<'a>> {
    let orders = week.gates.iter().enumerate();
    orders
        .map(|(i, order)| {
            let frame = take_off.frames.iter().find(|f| f.gate == i);
            gate(week, take_off, order, frame)
        })
        .collect()
}

/// One gate order; its frame when it can be made.
pub(in crate::report) fn gate<'a>(
    week: &Week,
    take_off: &TakeOff,
    order: &'a GateOrder,
    frame: Option<&Frame>,
) -> GateEntry<'a> {
    let figures = Figures::of(week);
    GateEntry {
        mark: &order.mark,
        count: order.count,
        opening: exact(figures, order.opening),
        height: exact(figures, order.height),
        hand: match order.hand {
            Hand::Left => "left",
            Hand::Right => "right",
        },
        seen_from: order.seen_from,
        latch_overlap: exact(figures, order.latch_overlap),
        roller_overlap: exact(figures, order.roller_overlap),
        tail: geometric(figures, order.tail),
        leaf: geometric(figures, order.leaf),
        due: order.due.map(|d| d.to_string()),
        barbed: order.barbed,
        sway: order.sway,
        automated: order.automated,
        kit: order.kit,
        high_stress: order.high_stress,
        paperwork: Some(&order.paperwork).filter(|p| !p.none()),
        note: &order.note,
        frame: frame.map(|f| frame_entry(figures, f, order.carrier(&week.shop))),
        weight: frame.and_then(|f| weight(week, take_off, f)),
        bending: frame.and_then(|f| bending(week, f)),
    }
}

fn frame_entry(figures: Figures<'_>, frame: &Frame, carrier: Carrier) -> FrameEntry {
    let lines = frame.bay_lines.iter();
    let bays = frame.bays.iter();
    FrameEntry {
        variant: match frame.variant {
            Variant::PostsRunPast => "posts_run_past",
            Variant::Through => "through",
        },
        lean: match frame.lean {
            Lean::HeadToTail => "head_to_tail",
            Lean::HeadToLatch => "head_to_latch",
        },
        rise: geometric(figures, frame.rise),
        drop: geometric(figures, frame.drop),
        axis_height: geometric(figures, frame.axis_height),
        bays: bays
            .clone()
            .enumerate()
            .map(|(i, bay)| BayEntry {
                bay: i + 1,
                from: geometric(figures, bay.from),
                to: geometric(figures, bay.to),
                width: geometric(figures, bay.to - bay.from),
                lean_deg: degrees(std::f64::consts::FRAC_PI_2 - bay.alpha),
            })
            .collect(),
        bay_lines: lines.map(|x| geometric(figures, *x)).collect(),
        lean_deg: bays
            .map(|b| degrees(std::f64::consts::FRAC_PI_2 - b.alpha))
            .collect(),
        check_measure: geometric(figures, frame.check_measure),
        carrier,
        roller_front_closed: geometric(figures, frame.rollers.front_closed),
        roller_front_open: geometric(figures, frame.rollers.front_open),
        roller_rear_closed: geometric(figures, frame.rollers.front_closed + frame.rollers.spacing),
        roller_rear_open: geometric(figures, frame.rollers.front_open + frame.rollers.spacing),
        roller_spacing: geometric(figures, frame.rollers.spacing),
    }
}

fn weight(week: &Week, take_off: &TakeOff, frame: &Frame) -> Option<WeightEntry> {
    let figures = Figures::of(week);
    let found = gate_weight(week, take_off, frame.gate)?;
    let known = |w: Option<f64>| w.and_then(|w| rounded(w, 4));
    Some(WeightEntry {
        unit: match week.shop.units {
            Units::Inch => "lb",
            Units::Metric => "kg",
        },
        pipe: known(Some(found.pipe)),
        fabric: known(found.fabric),
        hardware: known(found.hardware),
        zinc: known(found.zinc),
        total: known(Some(found.total)),
        centre_from_latch_face: geometric(figures, found.centre_of_gravity.x),
        centre_over_bottom_axis: geometric(figures, found.centre_of_gravity.y),
    })
}
