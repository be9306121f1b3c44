//! Hand: which way the leaf opens, and a small view from the side the order speaks of.

use crate::gate::Frame;
use crate::order::{Hand, Lean};
use crate::report::draw::{Ink, Path, Pen, Text};
use crate::report::paper::Block;

/// Least width of the words under the leaf, points.
const LEAST: f64 = 100.0;

/// The leaf seen from the side the order speaks of, opening as ordered, `wide` points wide.
///
/// Opening to the left, the leaf moves left and its latch end is at the right: the elevation (latch
/// end at the left) is then the other face's view.
pub fn thumbnail(frame: &Frame, hand: Hand, wide: f64) -> Block {
    let scale = (wide / frame.leaf.max(1.0)).min(34.0 / frame.height.max(1.0));
    let (w, h) = (frame.leaf * scale, frame.height * scale);
    let mirrored = hand == Hand::Left;
    let x = |at: f64| if mirrored { w - at * scale } else { at * scale };
    let mut block = Block::new(h + 34.0);
    let top = 4.0;
    block.frame(0.0, top, w, h, 1.0);
    for line in &frame.bay_lines {
        block.line(x(*line), top, x(*line), top + h, 0.6);
    }
    for bay in &frame.bays {
        let (foot, head) = match frame.lean {
            Lean::HeadToTail => (bay.from, bay.to),
            Lean::HeadToLatch => (bay.to, bay.from),
        };
        block.line(x(foot), top + h, x(head), top, 0.5);
    }
    // A short leaf is narrower than the words under it.
    let under = w.max(LEAST);
    let (tip, back) = if mirrored {
        (4.0, 40.0)
    } else {
        (under - 4.0, under - 40.0)
    };
    let y = top + h + 10.0;
    block.line(back, y, tip, y, 1.4);
    let into = if mirrored { 7.0 } else { -7.0 };
    block.shape(
        Path::polygon(&[(tip, y), (tip + into, y - 3.5), (tip + into, y + 3.5)]),
        Some(Pen::solid(0.5)),
        Some(Ink::Black),
        None,
    );
    let latch = if mirrored { under } else { 0.0 };
    let opens = (back + tip) / 2.0;
    let words = match hand {
        Hand::Left => "opens to the left",
        Hand::Right => "opens to the right",
    };
    let opens_text = Text::new(opens, y + 13.0, 9.0, words);
    let latch_text = Text::new(latch, y + 3.0, 9.0, "latch end").bold();
    block.text(if mirrored {
        Text {
            x: 0.0,
            ..opens_text
        }
    } else {
        Text {
            x: under,
            ..opens_text
        }
        .end()
    });
    block.text(if mirrored {
        latch_text.end()
    } else {
        latch_text
    });
    block
}

/// The hand in words.
pub fn words(hand: Hand) -> &'static str {
    match hand {
        Hand::Left => "LEFT: opens to the left, seen from the side the order speaks of",
        Hand::Right => "RIGHT: opens to the right, seen from the side the order speaks of",
    }
}
