//! The lines under a strip: what the saw man reads, ticks and writes.

use crate::plan::{PieceCut, PlannedJoint};
use crate::report::draw::{Face, Text, width};
use crate::report::paper::desk::Desk;
use crate::report::paper::{Block, TICK};

/// Height of a line at most, points: a tick box and air.
const LINE: f64 = 20.5;
/// What a line may be squeezed to so that a joint of many pieces stays on one page, points.
const TIGHT: f64 = 18.0;
/// Head, strip, column titles and foot of a block at their highest, points.
const AROUND: f64 = 142.0;

/// Figures read at the saw, points.
const BIG: f64 = 16.0;
/// The rest of what is read there, points: never under 14.
const PLAIN: f64 = 14.0;

/// Width of the two lines to write on beside a folded mark, points.
const WRITING: f64 = 84.0;

/// Height of the column titles, points.
const HEADS: f64 = 12.0;

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

/// How many lines a page holds beside a block's head and foot.
pub fn most(desk: &Desk) -> usize {
    // A page holds some twenty lines: the quotient is small and over 0.
    ((desk.high - AROUND) / TIGHT).max(1.0) as usize
}

/// Height of a line where two blocks of six lines share a page.
fn usual(desk: &Desk) -> f64 {
    ((desk.high / 2.0 - 129.0) / 6.0).clamp(TIGHT, LINE)
}

/// Height of each of so many lines.
fn high(desk: &Desk, lines: usize) -> f64 {
    let lines = f64::from(u32::try_from(lines).unwrap_or(u32::MAX)).max(1.0);
    ((desk.high - AROUND) / lines).clamp(TIGHT, usual(desk))
}

/// A line to write on.
fn write_on(block: &mut Block, x: f64, wide: f64, y: f64) {
    block.line(x, y, x + wide, y, 0.6);
}

/// The lines of one joint over the whole width.
pub fn full(desk: &Desk, joint: &PlannedJoint, from: usize, to: usize) -> Block {
    let at = FULL.map(|f| f * desk.room);
    let mut block = Block::new(HEADS);
    let ends = at[6] - 72.0;
    for (x, words) in [
        (at[2], "mark"),
        (at[3], "gate"),
        (ends, "ends"),
        (at[7] + 6.0, "actual"),
        (at[8] + 2.0, "initials"),
    ] {
        block.text(Text::new(x, HEADS - 3.0, 9.0, words));
    }
    for (x, words) in [
        (at[4], "saw length"),
        (at[5], "throat"),
        (at[7] - 12.0, "running mark"),
    ] {
        block.text(Text::new(x, HEADS - 3.0, 9.0, words).end());
    }
    let line = high(desk, to.saturating_sub(from));
    for (i, piece) in joint.pieces.iter().enumerate().take(to).skip(from) {
        let (top, y) = (block.height, block.height + 0.5 * line + 5.5);
        block.tick(at[0], top + (line - TICK) / 2.0);
        block.text(Text::new(at[1] + 16.0, y, PLAIN, (i + 1).to_string()).end());
        let mark = Text::new(at[2], y, BIG, &piece.mark).bold();
        block.text(mark.fitted(at[3] - at[2] - 4.0, PLAIN));
        block.text(Text::new(at[3], y, PLAIN, desk.gate_of(piece)).fitted(62.0, 9.0));
        let saw = Text::new(at[4], y, BIG, desk.length(piece.saw)).bold();
        block.text(saw.end());
        block.text(Text::new(at[5], y, PLAIN, throat_words(desk, piece)).end());
        block.text(Text::new(ends, y, PLAIN, desk.ends(piece)).fitted(86.0, 9.0));
        running(&mut block, desk, piece, at[7] - 12.0, y);
        block.height += line;
        write_on(
            &mut block,
            at[7] + 6.0,
            at[8] - at[7] - 12.0,
            top + line - 2.5,
        );
        write_on(
            &mut block,
            at[8] + 2.0,
            desk.room - at[8] - 2.0,
            top + line - 2.5,
        );
        block.line(0.0, block.height, at[7], block.height, 0.3);
    }
    block
}

/// The lines of two or three joints cut alike: the figures once, then for each joint its tick box and
/// mark and room for what was measured; with three joints, or long marks, that room is on a second
/// line.
pub fn folded(desk: &Desk, run: &[&PlannedJoint]) -> Block {
    let mut block = Block::new(HEADS);
    let Some(first) = run.first() else {
        return block;
    };
    // No., saw length, throat, ends, running mark; then a column per joint.
    let [saw, throat, ends, mark] = [0.155, 0.27, 0.282, 0.525].map(|f| f * desk.room);
    for (x, words) in [
        (saw, "saw length"),
        (throat, "throat"),
        (mark, "running mark"),
    ] {
        block.text(Text::new(x, HEADS - 3.0, 9.0, words).end());
    }
    block.text(Text::new(ends, HEADS - 3.0, 9.0, "ends"));
    let seats = Seats::of(desk, run);
    for (joint, x) in run.iter().zip(&seats.at) {
        let name = Text::new(*x, HEADS - 2.0, 11.0, format!("joint {}", joint.number)).bold();
        block.text(name);
        if seats.second == 0.0 {
            block.text(Text::new(x + seats.actual, HEADS - 3.0, 9.0, "actual"));
            block.text(Text::new(x + seats.initials, HEADS - 3.0, 9.0, "initials"));
        }
    }
    let line = usual(desk);
    for (i, piece) in first.pieces.iter().enumerate() {
        let (top, y) = (block.height, block.height + 0.5 * line + 5.5);
        block.text(Text::new(18.0, y, PLAIN, (i + 1).to_string()).end());
        block.text(Text::new(saw, y, BIG, desk.length(piece.saw)).bold().end());
        block.text(Text::new(throat, y, PLAIN, throat_words(desk, piece)).end());
        block.text(Text::new(ends, y, PLAIN, desk.ends(piece)).fitted(58.0, 9.0));
        running(&mut block, desk, piece, mark, y);
        for (joint, x) in run.iter().zip(&seats.at) {
            block.tick(*x, top + (line - TICK) / 2.0);
            let mark = joint.pieces.get(i).map_or("", |p| p.mark.as_str());
            let mark = Text::new(x + TICK + 4.0, y, PLAIN, mark).bold();
            block.text(mark.fitted(seats.mark, 9.0));
            seats.write_in(&mut block, *x, top + line - 2.5);
        }
        block.height += line + seats.second;
        block.line(0.0, block.height, desk.room, block.height, 0.3);
    }
    block
}

/// Where each of two or three joints cut alike has its box, its mark and its room to write.
struct Seats {
    /// Left edges, points.
    at: Vec<f64>,
    /// Width of a mark.
    mark: f64,
    /// From the left edge to what was measured, and to the initials.
    actual: f64,
    initials: f64,
    /// Width of one seat.
    wide: f64,
    /// Height of the second line; 0 when there is none.
    second: f64,
}

impl Seats {
    fn of(desk: &Desk, run: &[&PlannedJoint]) -> Seats {
        let start = 0.545 * desk.room;
        let each = f64::from(u32::try_from(run.len().max(2)).unwrap_or(2));
        let step = (desk.room - start) / each;
        let at = std::iter::successors(Some(start), |x| Some(x + step)).take(run.len());
        let wide = step - 6.0;
        let beside = wide - TICK - 4.0;
        let pieces = run.iter().flat_map(|j| &j.pieces);
        let widest = pieces
            .map(|p| width(Face::Bold, PLAIN, &p.mark))
            .fold(0.0, f64::max);
        let narrow = widest > beside - WRITING;
        let (mark, actual, initials) = match narrow {
            true => (beside, 34.0, wide - 32.0),
            false => (beside - WRITING, wide - WRITING + 4.0, wide - 28.0),
        };
        Seats {
            at: at.collect(),
            mark,
            actual,
            initials,
            wide,
            second: if narrow { 17.0 } else { 0.0 },
        }
    }

    /// The lines to write on; on a second line they say what goes there.
    fn write_in(&self, block: &mut Block, x: f64, y: f64) {
        let y = y + self.second;
        if self.second > 0.0 {
            block.text(Text::new(x, y, 9.0, "actual"));
        }
        write_on(block, x + self.actual, self.initials - self.actual - 6.0, y);
        write_on(block, x + self.initials, self.wide - self.initials, y);
    }
}
