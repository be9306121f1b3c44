//! Gate sheets: the elevation with what a layout table needs, then parts, figures, notes, approval.

mod hand;
pub mod notes;
pub mod tables;
mod weight;

use crate::gate::{Frame, Point};
use crate::order::{GateOrder, Variant};
use crate::part::gate_weight;
use crate::plan::SplicedLine;
use crate::report::cautions::{gate_cautions, splice_cautions};
use crate::report::draw::{Face, Text};
use crate::splice::SpliceSet;

use super::desk::Desk;
use super::elevation::Elevation;
use super::wrap::{bullet, paragraph};
use super::{Block, Piece, Section};

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
    let foot = foot(desk, frame, gate);
    let mut first = elevation(desk, frame, made).block(desk.room, desk.high - foot.height - 8.0);
    first.below(6.0, foot);
    let drawing = elevation(desk, frame, made);
    let mut second = tables::parts(desk, frame, desk.room).block();
    second.below(8.0, lines_and_details(desk, frame, &drawing));
    let mut pieces = vec![Piece::of(first), Piece::of(second)];
    pieces.push(Piece::of(advice(desk, frame, gate, !made.is_empty())));
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

/// Bay lines beside two nodes enlarged: the latch corner at the bottom, and the first vertical's foot.
fn lines_and_details(desk: &Desk, frame: &Frame, drawing: &Elevation) -> Block {
    let side = 118.0;
    let table_room = desk.room - 2.0 * side - 28.0;
    let mut block = tables::bay_lines(desk, frame, throat(frame), table_room).block();
    block.height = block.height.max(side + 14.0);
    let half = 5.0 * (frame.height - frame.axis_height);
    let mut x = table_room + 16.0;
    for (line, words) in [(0, "latch corner, bottom"), (1, "bay line 1, bottom")] {
        let at = Point {
            x: frame.bay_lines.get(line).copied().unwrap_or(0.0) + half * 0.35,
            y: half * 0.35,
        };
        block.place(x, 0.0, drawing.detail(at, half, side));
        block.text(Text::new(x, side + 10.0, 8.5, words));
        x += side + 12.0;
    }
    block
}

/// The gate's figures, a line each.
pub fn facts(desk: &Desk, frame: &Frame, gate: &GateOrder) -> Vec<String> {
    let corners = match frame.variant {
        Variant::PostsRunPast => "post tip to post tip",
        Variant::Through => "outside corners of the horizontals",
    };
    let lines = [
        format!(
            "leaf {} · height {} · {} bays · check measure {} both ways, {corners}",
            desk.geometry(frame.leaf),
            desk.length(gate.height),
            frame.bays.len(),
            desk.geometry(frame.check_measure)
        ),
        weight::words(desk, frame),
        format!(
            "hand {} · drawn with the latch end at the left; never turn the leaf end for end",
            hand::words(gate.hand)
        ),
        note(gate),
    ];
    lines.into_iter().filter(|l| !l.is_empty()).collect()
}

/// Figures under the elevation with the view from the ordered side.
fn foot(desk: &Desk, frame: &Frame, gate: &GateOrder) -> Block {
    let thumb = hand::thumbnail(frame, gate.hand, 150.0);
    let mut block = Block::new(thumb.height);
    let lines = facts(desk, frame, gate);
    let room = desk.room - 190.0;
    let mut y = 0.0;
    for (i, words) in lines.iter().enumerate() {
        let text = paragraph(
            if i == 0 { Face::Bold } else { Face::Regular },
            11.0,
            room,
            words,
        );
        let height = text.height;
        block.place(0.0, y, text);
        y += height + 1.0;
    }
    block.place(desk.room - 160.0, 0.0, thumb);
    block.height = block.height.max(y);
    block
}

fn note(gate: &GateOrder) -> String {
    let mut words = Vec::new();
    if let Some(due) = gate.due {
        words.push(format!("due {due}"));
    }
    if gate.barbed > 0 {
        words.push(format!("{} barbed strands", gate.barbed));
    }
    if gate.kit {
        words.push(String::from("KIT: the horizontals are bought locally"));
    }
    if gate.automated {
        words.push(String::from("automated"));
    }
    if !gate.note.is_empty() {
        words.push(gate.note.clone());
    }
    words.join(" · ")
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

/// Notes, cautions and the customer's approval, side by side.
fn advice(desk: &Desk, frame: &Frame, gate: &GateOrder, spliced: bool) -> Block {
    let gutter = 18.0;
    let room = desk.room - 2.0 * gutter;
    let list = |title: &str, items: Vec<String>, wide: f64| {
        let mut block = Block::new(16.0);
        block.text(Text::new(0.0, 12.0, 12.0, title).bold());
        for words in items {
            block.below(1.0, bullet(Face::Regular, 9.0, wide, &words));
        }
        block
    };
    let notes = notes::fit_up(desk, frame, spliced);
    let cautions = cautions(desk, gate, spliced);
    let mut block = Block::new(0.0);
    let mut x = 0.0;
    for (share, part) in [
        (0.36, list("Fit-up (common practice)", notes, 0.36 * room)),
        (0.38, list("Cautions", cautions, 0.38 * room)),
        (0.26, approval(gate, 0.26 * room)),
    ] {
        block.height = block.height.max(part.height);
        block.place(x, 0.0, part);
        x += share * room + gutter;
    }
    block
}

fn approval(gate: &GateOrder, wide: f64) -> Block {
    let mut block = Block::new(152.0);
    block.frame(0.0, 0.0, wide, 152.0, 1.0);
    block.text(
        Text::new(
            8.0,
            16.0,
            12.0,
            format!("Customer's approval, gate {}", gate.mark),
        )
        .bold()
        .fitted(wide - 16.0, 7.0),
    );
    let mut y = 24.0;
    for words in ["make as drawn", "make with the changes marked"] {
        block.tick(8.0, y);
        let text = Text::new(30.0, y + 12.5, 11.0, words);
        block.text(text.fitted(wide - 36.0, 8.0));
        y += 22.0;
    }
    y += 18.0;
    for words in ["signature", "name", "date"] {
        block.line(62.0, y, wide - 8.0, y, 0.6);
        block.text(Text::new(8.0, y - 2.0, 9.5, words));
        y += 26.0;
    }
    block
}
