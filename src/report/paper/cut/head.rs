//! The head of a joint's block: pipe and source, what to measure first, the strip.

use super::strip::strip;
use crate::measure::Length;
use crate::plan::PlannedJoint;
use crate::report::draw::{Face, Text};
use crate::report::joint_block::TOO_SHORT;
use crate::report::paper::Block;
use crate::report::paper::desk::Desk;
use crate::report::paper::wrap::{paragraph, wrap};

/// Size of a title that takes one line, and of a longer one, points.
const TITLE: f64 = 15.0;
const LONG: f64 = 14.0;

/// Title, measure first, strip; `part` says which part of a joint that runs on this is.
pub fn head(desk: &Desk, run: &[&PlannedJoint], longest: Length, part: &str) -> Block {
    let mut block = Block::new(0.0);
    let Some(first) = run.first() else {
        return block;
    };
    let aside = match run.len() {
        0 | 1 => part.to_owned(),
        n => format!("cut {n} like this"),
    };
    block.below(0.0, title(desk, first, &aside));
    if first.measure_first {
        block.below(2.0, measure(desk, first));
    }
    let last = |i: usize| first.pieces.get(i).is_none_or(|p| desk.is_last(p));
    let parts = &desk.take_off.parts;
    let drawn = strip(first, &numbers(run), parts, longest, desk.room, last);
    block.below(0.0, drawn);
    block
}

fn numbers(run: &[&PlannedJoint]) -> String {
    let list: Vec<String> = run.iter().map(|j| j.number.to_string()).collect();
    list.join(" ")
}

/// Pipe and where the joint comes from, a long one over two lines, then the flag.
fn title(desk: &Desk, joint: &PlannedJoint, aside: &str) -> Block {
    let words = format!("{} · {}", desk.pipe(joint.pipe), desk.source(joint));
    let flag = match aside {
        "" => 0.0,
        words => Text::new(0.0, 0.0, LONG, words).bold().width() + LONG + 12.0,
    };
    let whole = Text::new(0.0, 14.0, TITLE, &words).bold();
    let mut block = Block::new(18.0);
    let x = if whole.width() <= desk.room - flag {
        let wide = whole.width();
        block.text(whole);
        wide + 12.0
    } else {
        block.height = 4.0;
        for line in wrap(Face::Bold, LONG, desk.room - flag, &words) {
            let y = block.height + 10.0;
            block.text(Text::new(0.0, y, LONG, line).bold());
            block.height += 17.0;
        }
        desk.room - flag + 8.0
    };
    if !aside.is_empty() {
        block.flag(x, 14.0, LONG, aside);
    }
    block
}

/// A line of its own: it must never run off the sheet.
fn measure(desk: &Desk, joint: &PlannedJoint) -> Block {
    let least = (joint.length - joint.leftover).up_to(desk.shop().saw.mark);
    let words = format!("MEASURE FIRST: {} or longer", desk.length(least));
    let mut block = Block::new(17.0);
    let wide = block.flag(0.0, 12.0, LONG, &words) + 8.0;
    let words = format!("{TOO_SHORT}.");
    let mend = paragraph(Face::Bold, 10.0, desk.room - wide, &words);
    block.height = block.height.max(1.0 + mend.height);
    block.place(wide, 1.0, mend);
    block
}
