//! The gate's figures under its elevation, the approval, and the view from the ordered side.

use super::{approval, hand, weight};
use crate::gate::Frame;
use crate::order::{GateOrder, Variant};
use crate::report::counted::counted;
use crate::report::draw::Face;
use crate::report::gate_sheet::no_splice_in;
use crate::report::hand_words::hand_words;
use crate::report::paper::Block;
use crate::report::paper::desk::Desk;
use crate::report::paper::wrap::paragraph;
use crate::report::roller_words::stand;
use crate::report::wrap::soften;

/// Width of the approval and of the view, points.
const APPROVAL: f64 = 214.0;
pub const VIEW: f64 = 150.0;
/// Space between them, points.
const GUTTER: f64 = 16.0;

/// The gate's figures, a line each.
pub fn facts(desk: &Desk, frame: &Frame, gate: &GateOrder) -> Vec<String> {
    let corners = match frame.variant {
        Variant::PostsRunPast => "end post tip to end post tip",
        Variant::Through => "outside corners of the horizontals",
    };
    let lines = [
        format!(
            "leaf {} · height {} · {} · check measure {} both ways, {corners}",
            desk.geometry(frame.leaf),
            desk.length(gate.height),
            counted(frame.bays.len(), "bay", "bays"),
            desk.geometry(frame.check_measure)
        ),
        weight::words(desk, frame),
        soften(&format!("rollers {}", stand(desk.week, frame))),
        brackets(desk, gate),
        format!(
            "hand {} · drawn above with the latch end at the left, as parts are measured; beside, as the customer sees it; never turn the leaf end for end",
            hand_words(gate)
        ),
        note(gate),
    ];
    lines.into_iter().filter(|l| !l.is_empty()).collect()
}

/// Where brackets are welded on, which splices keep clear of; empty without any.
fn brackets(desk: &Desk, gate: &GateOrder) -> String {
    let at: Vec<String> = gate.brackets.iter().map(|l| desk.length(*l)).collect();
    match at.is_empty() {
        true => String::new(),
        false => format!("brackets at {} from the latch face", at.join(" and ")),
    }
}

/// What the customer approves: the gate in its hand, seen from the side the order speaks of.
pub fn view(frame: &Frame, gate: &GateOrder) -> Block {
    hand::approved(frame, gate, VIEW)
}

/// What stands under the elevation: the figures in a size, the customer's approval, the view from the
/// ordered side.
pub fn foot(desk: &Desk, facts: &[String], frame: &Frame, gate: &GateOrder, size: f64) -> Block {
    let thumb = view(frame, gate);
    let approval = approval::approval(gate, APPROVAL);
    let mut block = Block::new(thumb.height.max(approval.height));
    let room = desk.room - APPROVAL - VIEW - 2.0 * GUTTER;
    let mut y = 0.0;
    for (i, words) in facts.iter().enumerate() {
        let face = if i == 0 { Face::Bold } else { Face::Regular };
        let text = paragraph(face, size, room, words);
        let height = text.height;
        block.place(0.0, y, text);
        y += height + 1.0;
    }
    block.place(room + GUTTER, 0.0, approval);
    block.place(desk.room - VIEW, 0.0, thumb);
    block.height = block.height.max(y);
    block
}

/// Due date, what the order asks for, and its note.
pub fn note(gate: &GateOrder) -> String {
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
    if let Some(bays) = no_splice_in(gate) {
        words.push(format!("splices: {bays}"));
    }
    let paperwork = gate.paperwork.pairs();
    words.extend(
        paperwork
            .iter()
            .map(|(name, value)| format!("{name}: {value}")),
    );
    if !gate.note.is_empty() {
        words.push(gate.note.clone());
    }
    words.join(" · ")
}
