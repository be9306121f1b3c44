//! The lines under a strip: what the saw man reads, ticks and writes.

use crate::plan::{PieceCut, PlannedJoint};
use crate::report::draw::Text;
use crate::report::paper::desk::Desk;
use crate::report::paper::{Block, TICK};

/// Height of a line, points.
pub const LINE: f64 = 23.0;
/// Lines one block holds in a single column, and in two.
pub const COLUMN: usize = 14;

/// Figures read at the saw, points.
const BIG: f64 = 16.0;
/// The rest of what is read there, points: never under 14.
const PLAIN: f64 = 14.0;

/// Left edges of the columns of a full line, as parts of the room's width.
const FULL: [f64; 9] = [0.0, 0.034, 0.066, 0.225, 0.42, 0.552, 0.695, 0.85, 0.94];

/// Throat of a piece; a dash where both its ends are square.
pub fn throat_words(desk: &Desk, piece: &PieceCut) -> String {
    let throat = desk.throat(piece);
    if throat == piece.saw {
        String::from("–")
    } else {
        desk.length(throat)
    }
}

/// Whether a piece's running mark lies past the shop's tape.
pub fn beyond_tape(desk: &Desk, piece: &PieceCut) -> bool {
    desk.shop().saw.tape.is_some_and(|tape| piece.end > tape)
}

/// A running mark; one past the shop's tape is flagged.
fn running(block: &mut Block, desk: &Desk, piece: &PieceCut, right: f64, y: f64) {
    let words = desk.at_mark(piece.end);
    if beyond_tape(desk, piece) {
        let w = Text::new(0.0, 0.0, BIG, &words).bold().width() + 0.7 * BIG;
        block.flag(right - w + 4.0, y, BIG, &words);
    } else {
        block.text(Text::new(right, y, BIG, words).bold().end());
    }
}

/// The lines of one joint in one column over the whole width.
pub fn full(desk: &Desk, joint: &PlannedJoint, from: usize, to: usize) -> Block {
    let at = FULL.map(|f| f * desk.room);
    let mut block = Block::new(15.0);
    let head = |block: &mut Block, x: f64, words: &str| block.text(Text::new(x, 10.0, 9.0, words));
    for (x, words) in [
        (at[2], "mark"),
        (at[3], "gate"),
        (at[6] - 72.0, "ends"),
        (at[7] + 6.0, "actual"),
        (at[8] + 2.0, "initials"),
    ] {
        head(&mut block, x, words);
    }
    for (x, words) in [
        (at[4], "saw length"),
        (at[5], "throat"),
        (at[7] - 12.0, "running mark"),
    ] {
        block.text(Text::new(x, 10.0, 9.0, words).end());
    }
    for (i, piece) in joint.pieces.iter().enumerate().take(to).skip(from) {
        let (top, y) = (block.height, block.height + 17.0);
        block.tick(at[0], top + 3.0);
        block.text(Text::new(at[1] + 16.0, y, PLAIN, (i + 1).to_string()).end());
        block.text(
            Text::new(at[2], y, BIG, &piece.mark)
                .bold()
                .fitted(at[3] - at[2] - 4.0, PLAIN),
        );
        block.text(Text::new(at[3], y, PLAIN, desk.gate_of(piece)).fitted(62.0, 9.0));
        block.text(
            Text::new(at[4], y, BIG, desk.length(piece.saw))
                .bold()
                .end(),
        );
        block.text(Text::new(at[5], y, PLAIN, throat_words(desk, piece)).end());
        block.text(Text::new(at[6] - 72.0, y, PLAIN, desk.ends(piece)).fitted(86.0, 9.0));
        running(&mut block, desk, piece, at[7] - 12.0, y);
        block.line(
            at[7] + 6.0,
            top + LINE - 3.0,
            at[8] - 6.0,
            top + LINE - 3.0,
            0.6,
        );
        block.line(
            at[8] + 2.0,
            top + LINE - 3.0,
            desk.room,
            top + LINE - 3.0,
            0.6,
        );
        block.height += LINE;
        block.line(0.0, block.height, at[7], block.height, 0.3);
    }
    block
}

/// The lines of two or three joints cut alike: one tick box and mark per joint.
pub fn folded(desk: &Desk, run: &[&PlannedJoint], from: usize, to: usize) -> Block {
    let mut block = Block::new(15.0);
    let Some(first) = run.first() else {
        return block;
    };
    // No., saw length, throat, ends, running mark; then a column per joint.
    let [saw, throat, ends, mark] = [0.165, 0.285, 0.3, 0.515].map(|f| f * desk.room);
    let start = 0.54 * desk.room;
    let wide = (desk.room - start) / 3.0;
    for (x, words) in [
        (saw, "saw length"),
        (throat, "throat"),
        (mark, "running mark"),
    ] {
        block.text(Text::new(x, 10.0, 9.0, words).end());
    }
    block.text(Text::new(ends, 10.0, 9.0, "ends"));
    let mut x = start;
    for joint in run {
        block.text(Text::new(x, 11.0, 11.0, format!("joint {}", joint.number)).bold());
        x += wide;
    }
    for (i, piece) in first.pieces.iter().enumerate().take(to).skip(from) {
        let (top, y) = (block.height, block.height + 17.0);
        block.text(Text::new(18.0, y, PLAIN, (i + 1).to_string()).end());
        block.text(Text::new(saw, y, BIG, desk.length(piece.saw)).bold().end());
        block.text(Text::new(throat, y, PLAIN, throat_words(desk, piece)).end());
        block.text(Text::new(ends, y, PLAIN, desk.ends(piece)).fitted(70.0, 9.0));
        running(&mut block, desk, piece, mark, y);
        let mut x = start;
        for joint in run {
            block.tick(x, top + 3.0);
            let mark = joint.pieces.get(i).map_or("", |p| p.mark.as_str());
            block.text(
                Text::new(x + TICK + 5.0, y, PLAIN, mark)
                    .bold()
                    .fitted(wide - TICK - 10.0, 10.0),
            );
            x += wide;
        }
        block.height += LINE;
        block.line(0.0, block.height, desk.room, block.height, 0.3);
    }
    block
}

/// The lines of one joint with many short pieces, in two columns.
pub fn double(desk: &Desk, joint: &PlannedJoint, from: usize, to: usize) -> Block {
    let mut block = Block::new(0.0);
    let half = (desk.room - 16.0) / 2.0;
    let to = to.min(joint.pieces.len());
    let per = (to - from).div_ceil(2);
    for (column, x) in [(0, 0.0), (1, half + 16.0)] {
        let start = from + column * per;
        let part = narrow(desk, joint, start, (start + per).min(to), half);
        block.height = block.height.max(part.height);
        block.place(x, 0.0, part);
    }
    block
}

fn narrow(desk: &Desk, joint: &PlannedJoint, from: usize, to: usize, room: f64) -> Block {
    let mut block = Block::new(15.0);
    let [saw, ends] = [0.56, 0.58].map(|f| f * room);
    for (x, words) in [(saw, "saw length"), (room, "running mark")] {
        block.text(Text::new(x, 10.0, 9.0, words).end());
    }
    block.text(Text::new(46.0, 10.0, 9.0, "mark"));
    block.text(Text::new(ends, 10.0, 9.0, "ends"));
    for (i, piece) in joint.pieces.iter().enumerate().take(to).skip(from) {
        let (top, y) = (block.height, block.height + 17.0);
        block.tick(0.0, top + 3.0);
        block.text(Text::new(40.0, y, PLAIN, (i + 1).to_string()).end());
        block.text(
            Text::new(46.0, y, PLAIN, &piece.mark)
                .bold()
                .fitted(saw - 46.0 - 84.0, 9.0),
        );
        block.text(Text::new(saw, y, BIG, desk.length(piece.saw)).bold().end());
        block.text(Text::new(ends, y, PLAIN, desk.ends(piece)).fitted(0.18 * room, 9.0));
        running(&mut block, desk, piece, room, y);
        block.height += LINE;
        block.line(0.0, block.height, room, block.height, 0.3);
    }
    block
}
