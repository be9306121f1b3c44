//! The block where the customer approves the gate as drawn.

use crate::order::GateOrder;
use crate::report::draw::{Face, Text};
use crate::report::paper::wrap::wrap;
use crate::report::paper::{Block, TICK};

/// Height under the title, points.
const TALL: f64 = 93.0;

/// Two boxes to tick, and lines for signature, name and date.
pub fn approval(gate: &GateOrder, wide: f64) -> Block {
    let title = format!("Customer's approval, gate {}", gate.mark);
    let mut size = 12.0;
    let mut lines = wrap(Face::Bold, size, wide - 16.0, &title);
    if lines.len() > 1 {
        size = 10.0;
        lines = wrap(Face::Bold, size, wide - 16.0, &title);
    }
    let mut block = Block::new(2.0);
    for line in lines {
        block.text(Text::new(8.0, block.height + size, size, line).bold());
        block.height += size * 1.2;
    }
    let mut y = block.height + 3.0;
    block.height += TALL + 2.0;
    block.frame(0.0, 0.0, wide, block.height, 1.0);
    for words in [
        "make as drawn, in the hand beside",
        "make with the changes marked",
    ] {
        block.tick(8.0, y);
        let text = Text::new(14.0 + TICK, y + 12.0, 11.0, words);
        block.text(text.fitted(wide - 22.0 - TICK, 8.0));
        y += TICK + 2.0;
    }
    y += 12.0;
    for words in ["signature", "name", "date"] {
        block.line(62.0, y, wide - 8.0, y, 0.6);
        block.text(Text::new(8.0, y - 2.0, 9.5, words));
        y += 19.0;
    }
    block
}
