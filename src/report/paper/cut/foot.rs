//! The foot of a joint's block: floor drop, near trim, the gates that are complete.

use crate::measure::Length;
use crate::plan::PlannedJoint;
use crate::report::blade::AT_TRIM;
use crate::report::draw::{Face, Text};
use crate::report::joint_block::scribe_words;
use crate::report::paper::Block;
use crate::report::paper::desk::Desk;
use crate::report::paper::wrap::wrap;
use crate::report::planned_length::keep_if_longer;
use crate::report::wrap::soften;

/// Size of what is done at the saw, points.
const PLAIN: f64 = 14.0;

/// The near trim in words; `None` where the near end is clean.
pub fn near_trim(desk: &Desk, joint: &PlannedJoint) -> Option<String> {
    let trim = joint.near > Length::ZERO;
    trim.then(|| format!("near trim at {}, {AT_TRIM}", desk.short(joint.near)))
}

/// Floor drop, trim and the gates that are complete; long lists of gates on lines of their own.
pub fn foot(desk: &Desk, run: &[&PlannedJoint]) -> Block {
    let mut block = Block::new(22.0);
    let Some(first) = run.first() else {
        return block;
    };
    let y = 16.5;
    let floor = desk.left(first.floor, first.kept);
    let say = match (first.kept, first.floor > Length::ZERO) {
        (true, _) => format!("floor {floor}"),
        (false, true) => format!("floor {floor} SCRAP"),
        (false, false) => String::from("nothing left"),
    };
    let text = Text::new(0.0, y, 15.0, say).bold();
    let mut x = text.width() + 8.0;
    block.text(text);
    if first.kept {
        let tags: Vec<&str> = run.iter().filter_map(|j| j.keep_tag.as_deref()).collect();
        x += block.flag(x, y, 15.0, &format!("KEEP {}", tags.join(" "))) + 10.0;
    }
    if let Some(words) = near_trim(desk, first) {
        let text = Text::new(x + 8.0, y, PLAIN, words);
        x += text.width() + 8.0;
        block.text(text);
    }
    if let Some(words) = keep_if_longer(desk.week, first) {
        let y = block.height + 11.0;
        block.text(Text::new(0.0, y, PLAIN, soften(&words)).fitted(desk.room, 9.0));
        block.height += 16.0;
    }
    for words in run.iter().filter_map(|j| scribe_words(j)) {
        let y = block.height + 11.0;
        block.text(Text::new(0.0, y, 12.0, soften(&words)).fitted(desk.room, 9.0));
        block.height += 15.0;
    }
    if let Some(words) = complete(desk, run) {
        let text = Text::new(desk.room, y, PLAIN, &words).bold().end();
        if x + 16.0 + text.width() <= desk.room {
            block.text(text);
        } else {
            for line in wrap(Face::Bold, PLAIN, desk.room, &words) {
                let y = block.height + 12.0;
                block.text(Text::new(desk.room, y, PLAIN, line).bold().end());
                block.height += 17.0;
            }
        }
    }
    block
}

/// The gates that are complete after these joints.
fn complete(desk: &Desk, run: &[&PlannedJoint]) -> Option<String> {
    let done: Vec<String> = run.iter().flat_map(|j| desk.done_after(j.number)).collect();
    match done.len() {
        0 => None,
        1 => Some(format!("gate {} complete", done.concat())),
        _ => Some(format!("gates {} complete", done.join(", "))),
    }
}

/// The foot of a joint that runs on.
pub fn continues() -> Block {
    let mut block = Block::new(22.0);
    block.text(Text::new(0.0, 16.5, 15.0, "the joint continues on the next page").bold());
    block
}
