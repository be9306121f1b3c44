//! One block of a cut sheet: one joint, or two or three that are cut alike.

use super::lines::{folded, full, most};
use super::strip::strip;
use crate::measure::Length;
use crate::plan::PlannedJoint;
use crate::report::draw::{Face, Text};
use crate::report::joint_block::TOO_SHORT;
use crate::report::paper::Block;
use crate::report::paper::desk::Desk;
use crate::report::paper::wrap::paragraph;

/// The blocks of a run of joints cut alike. More than one only where a joint has more pieces than a
/// page can hold; each then repeats the strip and says so.
pub fn blocks(desk: &Desk, run: &[&PlannedJoint], longest: Length) -> Vec<Block> {
    let Some(first) = run.first() else {
        return Vec::new();
    };
    let pieces = first.pieces.len();
    let per = if run.len() > 1 {
        pieces.max(1)
    } else {
        most(desk)
    };
    let parts = pieces.div_ceil(per).max(1);
    let block = |k: usize| {
        let (from, to) = (k * per, ((k + 1) * per).min(pieces));
        let mut block = head(desk, run, longest, (k, parts));
        let lines = match run {
            [_] => full(desk, first, from, to),
            _ => folded(desk, run),
        };
        block.below(0.0, lines);
        if k + 1 == parts {
            block.below(2.0, foot(desk, run));
        }
        block.below(2.0, rule(desk));
        block
    };
    (0..parts).map(block).collect()
}

fn rule(desk: &Desk) -> Block {
    let mut block = Block::new(4.0);
    block.line(0.0, 2.0, desk.room, 2.0, 1.6);
    block
}

fn numbers(run: &[&PlannedJoint]) -> String {
    let list: Vec<String> = run.iter().map(|j| j.number.to_string()).collect();
    list.join(" ")
}

/// Title line and strip.
fn head(desk: &Desk, run: &[&PlannedJoint], longest: Length, (k, parts): (usize, usize)) -> Block {
    let mut block = Block::new(18.0);
    let Some(first) = run.first() else {
        return block;
    };
    let mut x = 0.0;
    let title = Text::new(
        x,
        14.0,
        15.0,
        format!("{} · {}", desk.pipe(first.pipe), desk.source(first)),
    )
    .bold();
    let title = title.fitted(desk.room * 0.68, 10.0);
    x += title.width() + 12.0;
    block.text(title);
    if run.len() > 1 {
        x += block.flag(x, 14.0, 14.0, &format!("cut {} like this", run.len())) + 8.0;
    }
    if parts > 1 {
        block.text(Text::new(
            x,
            14.0,
            12.0,
            format!("part {} of {parts}", k + 1),
        ));
    }
    if first.measure_first {
        // A line of its own: it must never run off the sheet.
        let least = (first.length - first.leftover).up_to(desk.shop().saw.mark);
        let words = format!("MEASURE FIRST: {} or longer", desk.length(least));
        let wide = block.flag(0.0, 32.0, 14.0, &words) + 8.0;
        block.height = 37.0;
        let words = format!("{TOO_SHORT}.");
        let mend = paragraph(Face::Bold, 10.0, desk.room - wide, &words);
        block.height = block.height.max(21.0 + mend.height);
        block.place(wide, 21.0, mend);
    }
    let last = |i: usize| first.pieces.get(i).is_none_or(|p| desk.is_last(p));
    let drawn = strip(
        first,
        &numbers(run),
        &desk.take_off.parts,
        longest,
        desk.room,
        last,
    );
    block.below(0.0, drawn);
    block
}

/// Trim, floor drop and the gates that are complete.
fn foot(desk: &Desk, run: &[&PlannedJoint]) -> Block {
    let mut block = Block::new(22.0);
    let Some(first) = run.first() else {
        return block;
    };
    let y = 16.5;
    let mut x = 0.0;
    let floor = desk.at_mark(first.floor);
    let say = match (first.kept, first.floor > Length::ZERO) {
        (true, _) => format!("floor {floor}"),
        (false, true) => format!("floor {floor} SCRAP"),
        (false, false) => String::from("nothing left"),
    };
    let text = Text::new(x, y, 15.0, say).bold();
    x += text.width() + 8.0;
    block.text(text);
    if first.kept {
        let tags: Vec<&str> = run.iter().filter_map(|j| j.keep_tag.as_deref()).collect();
        x += block.flag(x, y, 15.0, &format!("KEEP {}", tags.join(" "))) + 10.0;
    }
    if first.near > Length::ZERO {
        let words = format!("trim the near end to {} first", desk.short(first.near));
        let text = Text::new(x + 8.0, y, 12.0, words);
        x += text.width() + 8.0;
        block.text(text);
    }
    let done: Vec<String> = run.iter().flat_map(|j| desk.done_after(j.number)).collect();
    if !done.is_empty() {
        let words = match done.len() {
            1 => format!("gate {} complete", done.concat()),
            _ => format!("gates {} complete", done.join(", ")),
        };
        let room = (desk.room - x - 16.0).max(40.0);
        block.text(
            Text::new(desk.room, y, 14.0, words)
                .bold()
                .end()
                .fitted(room, 8.0),
        );
    }
    block
}
