//! The block where the customer approves the gate as drawn.

use crate::order::GateOrder;
use crate::report::draw::Text;
use crate::report::paper::{Block, TICK};

/// Height, points.
const TALL: f64 = 118.0;

/// Two boxes to tick, and lines for signature, name and date.
pub fn approval(gate: &GateOrder, wide: f64) -> Block {
    let mut block = Block::new(TALL);
    block.frame(0.0, 0.0, wide, TALL, 1.0);
    let title = format!("Customer's approval, gate {}", gate.mark);
    let title = Text::new(8.0, 14.0, 12.0, title).bold();
    block.text(title.fitted(wide - 16.0, 7.0));
    let mut y = 19.0;
    for words in ["make as drawn", "make with the changes marked"] {
        block.tick(8.0, y);
        let text = Text::new(14.0 + TICK, y + 12.0, 11.0, words);
        block.text(text.fitted(wide - 22.0 - TICK, 8.0));
        y += TICK + 2.0;
    }
    y += 16.0;
    for words in ["signature", "name", "date"] {
        block.line(62.0, y, wide - 8.0, y, 0.6);
        block.text(Text::new(8.0, y - 2.0, 9.5, words));
        y += 20.0;
    }
    block
}
