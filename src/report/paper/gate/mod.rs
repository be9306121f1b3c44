//! Gate sheets: the elevation with the customer's approval, then what a layout table needs.

mod approval;
mod facts;
mod hand;
mod layout;
pub mod notes;
pub mod tables;
mod weight;

use crate::gate::Frame;
use crate::order::{GateOrder, Variant};
use crate::part::gate_weight;
use crate::plan::SplicedLine;
use crate::report::cautions::{gate_cautions, splice_cautions};
use crate::splice::SpliceSet;

use super::desk::Desk;
use super::elevation::Elevation;
use super::{Piece, Section};

pub use facts::{VIEW, facts, view};
pub use tables::cutback;

/// The order of a frame.
fn order<'a>(desk: &Desk<'a>, frame: &Frame) -> Option<&'a GateOrder> {
    desk.week.gates.get(frame.gate)
}

/// The spliced lines of one copy of a gate.
fn lines<'a>(desk: &Desk<'a>, frame: &Frame, copy: u32) -> Vec<&'a SplicedLine> {
    let of = |l: &&SplicedLine| {
        let part = desk.take_off.parts.get(l.part);
        l.copy == copy && part.and_then(|p| p.gate) == Some(frame.gate)
    };
    desk.plan.spliced.iter().filter(of).collect()
}

/// Whether two copies' lines are made alike.
fn same(a: &[&SplicedLine], b: &[&SplicedLine]) -> bool {
    let key = |l: &SplicedLine| (l.part, l.serial, l.pieces.clone());
    a.len() == b.len() && a.iter().zip(b).all(|(x, y)| key(x) == key(y))
}

/// Copies of a gate, grouped by how their horizontals are spliced.
pub fn copies<'a>(desk: &Desk<'a>, frame: &Frame) -> Vec<(Vec<u32>, Vec<&'a SplicedLine>)> {
    let count = order(desk, frame).map_or(0, |g| g.count);
    let mut groups: Vec<(Vec<u32>, Vec<&SplicedLine>)> = Vec::new();
    for copy in 1..=count {
        let made = lines(desk, frame, copy);
        match groups.iter_mut().find(|(_, l)| same(l, &made)) {
            Some((list, _)) => list.push(copy),
            None => groups.push((vec![copy], made)),
        }
    }
    groups
}

/// Windows of a gate, if its horizontals are spliced.
fn windows<'a>(desk: &Desk<'a>, frame: &Frame) -> Option<&'a SpliceSet> {
    desk.plan.splice_sets.iter().find(|s| s.gate == frame.gate)
}

/// x of the horizontals' throat at the latch end.
pub fn throat(frame: &Frame) -> f64 {
    match frame.variant {
        Variant::Through => 0.0,
        Variant::PostsRunPast => 2.0 * frame.bay_lines.first().copied().unwrap_or(0.0),
    }
}

/// The elevation of some copies of a gate.
pub fn elevation<'a>(
    desk: &'a Desk<'a>,
    frame: &'a Frame,
    made: &[&'a SplicedLine],
) -> Elevation<'a> {
    Elevation {
        week: desk.week,
        take_off: desk.take_off,
        frame,
        windows: if made.is_empty() {
            None
        } else {
            windows(desk, frame)
        },
        lines: made.to_vec(),
        gravity: gate_weight(desk.week, desk.take_off, frame.gate).map(|w| w.centre_of_gravity),
    }
}

/// One section per gate order and way of splicing.
pub fn sheets(desk: &Desk) -> Vec<Section> {
    let mut out = Vec::new();
    for frame in desk.frames() {
        for (copies, made) in copies(desk, frame) {
            if let Some(gate) = order(desk, frame) {
                out.push(sheet(desk, frame, gate, &copies, &made));
            }
        }
    }
    out
}

fn sheet(
    desk: &Desk,
    frame: &Frame,
    gate: &GateOrder,
    copies: &[u32],
    made: &[&SplicedLine],
) -> Section {
    let names: Vec<String> = copies
        .iter()
        .map(|c| desk.gate_copy(frame.gate, *c))
        .collect();
    let foot = facts::foot(desk, frame, gate);
    let drawing = elevation(desk, frame, made);
    let mut first = drawing.block(desk.room, desk.high - foot.height - 8.0);
    first.below(6.0, foot);
    let mut pieces = vec![Piece::of(first)];
    let cautions = cautions(desk, gate, !made.is_empty());
    pieces.extend(layout::second(desk, frame, &drawing, cautions));
    Section {
        title: String::from("Gate sheets"),
        header: format!(
            "Gate {} · make {}: {}",
            gate.mark,
            copies.len(),
            names.join(", ")
        ),
        pieces,
    }
}

/// The gate's cautions, with the splices' where it has any.
pub fn cautions(desk: &Desk, gate: &GateOrder, spliced: bool) -> Vec<String> {
    let mut out = gate_cautions(desk.week, gate);
    if spliced {
        let more = splice_cautions(desk.week).into_iter();
        let new: Vec<String> = more.filter(|c| !out.contains(c)).collect();
        out.splice(0..0, new);
    }
    out
}
