//! The approval drawing: the gate closed in its opening, in its real hand, seen from the side the order speaks of.
//!
//! Opening to the left, the leaf moves left and its latch end is at the right: the elevation, latch end at the left,
//! is then mirrored. Every measure stays as it is, from the latch end.

use crate::gate::Frame;
use crate::order::{GateOrder, Hand, Lean};
use crate::report::draw::{Ink, Path, Pen, Tag, Text};
use crate::report::hand_words::{opens, seen};
use crate::report::paper::Block;

/// Highest the leaf is drawn; width of a support; how far it stands out of the ground over the leaf, points.
const TALLEST: f64 = 34.0;
const SUPPORT: f64 = 4.0;
const OVER: f64 = 4.0;
/// Least width of the words under the leaf, points.
const LEAST: f64 = 110.0;

/// Where things fall, points from the left.
struct View {
    scale: f64,
    /// Where the latch end falls, and which way the tail lies from it.
    latch: f64,
    way: f64,
}

impl View {
    fn x(&self, ticks: f64) -> f64 {
        self.latch + self.way * ticks * self.scale
    }
}

/// The drawing, `wide` points wide.
pub fn approved(frame: &Frame, gate: &GateOrder, wide: f64) -> Block {
    // A support may stand half past the leaf's end.
    let across = (wide - 2.0 * SUPPORT) / frame.leaf.max(1.0);
    let scale = across.min(TALLEST / frame.height.max(1.0));
    let (w, high) = (frame.leaf * scale, frame.height * scale);
    let mirrored = gate.hand == Hand::Left;
    let view = View {
        scale,
        latch: SUPPORT + if mirrored { w } else { 0.0 },
        way: if mirrored { -1.0 } else { 1.0 },
    };
    let top = 16.0 + OVER;
    let ground = top + high + 3.0;
    let mut block = Block::new(ground + 44.0);
    let title = Text::new(0.0, 9.0, 9.0, "Approve in this hand:").bold();
    block.text(title.fitted(wide, 7.0));
    leaf(&mut block, frame, &view, top, high);
    supports(&mut block, frame, gate, &view, (top - OVER, ground));
    let room = w + 2.0 * SUPPORT;
    block.line(0.0, ground, room, ground, 0.8);
    let room = room.max(LEAST).min(wide);
    arrow(&mut block, mirrored, room, ground + 10.0);
    for (i, words) in [opens(gate.hand), seen(gate)].into_iter().enumerate() {
        let y = ground + 24.0 + 11.0 * if i == 0 { 0.0 } else { 1.0 };
        block.text(Text::new(0.0, y, 9.0, words).fitted(wide, 6.0));
    }
    block
}

fn leaf(block: &mut Block, frame: &Frame, view: &View, top: f64, high: f64) {
    let (a, b) = (view.x(0.0), view.x(frame.leaf));
    let tag = Tag {
        class: String::from("approved-leaf"),
        data: vec![("latch", format!("{a:.3}"))],
    };
    let path = Path::rect(a.min(b), top, (b - a).abs(), high);
    block.shape(path, Some(Pen::solid(1.0)), None, Some(tag));
    for line in &frame.bay_lines {
        block.line(view.x(*line), top, view.x(*line), top + high, 0.6);
    }
    for bay in &frame.bays {
        let (foot, head) = match frame.lean {
            Lean::HeadToTail => (bay.from, bay.to),
            Lean::HeadToLatch => (bay.to, bay.from),
        };
        block.line(view.x(foot), top + high, view.x(head), top, 0.5);
    }
}

/// The latch support and both roller supports, dashed: they are not of the leaf.
fn supports(
    block: &mut Block,
    frame: &Frame,
    gate: &GateOrder,
    view: &View,
    (top, ground): (f64, f64),
) {
    let latch = gate.latch_overlap.geometric();
    let opening = gate.opening.geometric();
    let rear = frame.rollers.front_closed + frame.rollers.spacing;
    let out = SUPPORT * view.way;
    // Each by its face toward the opening, or its middle.
    let places = [
        (view.x(latch), -out),
        (view.x(latch + opening), out),
        (view.x(rear) - out / 2.0, out),
    ];
    for (x, wide) in places {
        let path = Path::rect(x.min(x + wide), top, SUPPORT, ground - top);
        block.shape(path, Some(Pen::dashed(0.6, 1.5)), None, None);
    }
}

/// Which way the leaf moves, and which end is the latch end.
fn arrow(block: &mut Block, mirrored: bool, room: f64, y: f64) {
    let (tip, back) = if mirrored {
        (4.0, 40.0)
    } else {
        (room - 4.0, room - 40.0)
    };
    block.line(back, y, tip, y, 1.4);
    let into = if mirrored { 7.0 } else { -7.0 };
    block.shape(
        Path::polygon(&[(tip, y), (tip + into, y - 3.5), (tip + into, y + 3.5)]),
        Some(Pen::solid(0.5)),
        Some(Ink::Black),
        None,
    );
    let latch = Text::new(if mirrored { room } else { 0.0 }, y + 3.0, 9.0, "latch end").bold();
    block.text(if mirrored { latch.end() } else { latch });
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::draw::Item;
    use crate::report::world::world;

    /// (left, right, latch end) of the leaf as drawn.
    fn drawn(hand: Hand) -> (f64, f64, f64) {
        let mut world = world();
        world.week.gates[0].hand = hand;
        let block = approved(&world.take_off.frames[0], &world.week.gates[0], 150.0);
        let shape = block.items.iter().find_map(|item| match item {
            Item::Shape(s) => s
                .tag
                .as_ref()
                .filter(|t| t.class == "approved-leaf")
                .map(|t| (s, t)),
            _ => None,
        });
        let (shape, tag) = shape.expect("the leaf");
        let xs: Vec<f64> = shape
            .path
            .segments
            .iter()
            .filter_map(|s| match s {
                crate::report::draw::Segment::Move(x, _)
                | crate::report::draw::Segment::Line(x, _) => Some(*x),
                _ => None,
            })
            .collect();
        let least = xs.iter().copied().fold(f64::INFINITY, f64::min);
        let most = xs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        (least, most, tag.data[0].1.parse().expect("a number"))
    }

    /// A leaf that opens to the left has its tail at the left, so its latch end is at the right.
    #[test]
    fn the_latch_end_stands_where_the_hand_puts_it() {
        let (left, _, latch) = drawn(Hand::Right);
        assert!((latch - left).abs() < 0.01);
        let (_, right, latch) = drawn(Hand::Left);
        assert!((latch - right).abs() < 0.01);
    }
}
