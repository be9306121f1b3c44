//! One block of a cut sheet: one joint, or two or three that are cut alike.

use super::columns::columns;
use super::folded::folded;
use super::foot::{continues, foot};
use super::head::head;
use super::single::full;
use crate::measure::Length;
use crate::plan::PlannedJoint;
use crate::report::paper::Block;
use crate::report::paper::desk::Desk;

/// The blocks of a run of joints cut alike. More than one only where a joint has more pieces than three
/// columns of a page hold; each then repeats the strip and says which part it is. `high` is the room on
/// the page.
pub fn blocks(desk: &Desk, run: &[&PlannedJoint], longest: Length, high: f64) -> Vec<Block> {
    let head = |part: &str| head(desk, run, longest, part);
    let whole = |lines: Block| {
        let mut block = head("");
        block.below(0.0, lines);
        end(desk, block, foot(desk, run))
    };
    let joint = match run {
        [joint] => joint,
        _ => return vec![whole(folded(desk, run))],
    };
    let air = high - head("").height - end(desk, Block::new(0.0), foot(desk, run)).height;
    if let Some(lines) = full(desk, joint, air) {
        return vec![whole(lines)];
    }
    let mut sheets = columns(desk, joint, air);
    if sheets.len() <= 1 {
        return sheets.pop().map(whole).into_iter().collect();
    }
    let count = sheets.len();
    let part = |(i, lines): (usize, Block)| {
        let mut block = head(&format!("part {} of {count}", i + 1));
        block.below(0.0, lines);
        let last = i + 1 == count;
        end(
            desk,
            block,
            if last { foot(desk, run) } else { continues() },
        )
    };
    sheets.into_iter().enumerate().map(part).collect()
}

/// A block with what stands under its lines, ruled off.
fn end(desk: &Desk, mut block: Block, foot: Block) -> Block {
    block.below(2.0, foot);
    block.below(2.0, rule(desk));
    block
}

fn rule(desk: &Desk) -> Block {
    let mut block = Block::new(4.0);
    block.line(0.0, 2.0, desk.room, 2.0, 1.6);
    block
}
