//! Gate sheets: the elevation with the customer's approval, then what a layout table needs.

mod approval;
mod facts;
mod first;
mod hand;
#[cfg(test)]
mod laid_out;
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
    desk.frames().flat_map(|f| sheets_of(desk, f)).collect()
}

/// The sections of one gate order.
fn sheets_of(desk: &Desk, frame: &Frame) -> Vec<Section> {
    let Some(gate) = order(desk, frame) else {
        return Vec::new();
    };
    let groups = copies(desk, frame).into_iter();
    groups
        .map(|(copies, made)| sheet(desk, frame, gate, &copies, &made))
        .collect()
}

fn sheet(
    desk: &Desk,
    frame: &Frame,
    gate: &GateOrder,
    copies: &[u32],
    made: &[&SplicedLine],
) -> Section {
    let drawing = elevation(desk, frame, made);
    let second = layout::Second {
        cautions: cautions(desk, gate, !made.is_empty()),
        ..layout::Second::default()
    };
    let (first, second) = first::first(desk, frame, gate, &drawing, second);
    let mut pieces = vec![Piece::of(first)];
    pieces.extend(layout::second(desk, frame, &drawing, second));
    Section {
        title: String::from("Gate sheets"),
        header: format!(
            "Gate {} · make {}: {}",
            gate.mark,
            copies.len(),
            desk.gate_copies(frame.gate, copies)
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
