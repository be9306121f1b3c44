//! The lines of two or three joints cut alike: each figure once, a tick box and a mark per joint.

use super::lines::{BIG, CLEAR, HEADS, PLAIN, TIGHT, running, throat_words, usual, write_on};
use crate::plan::{PieceCut, PlannedJoint};
use crate::report::draw::{Face, Text, width};
use crate::report::paper::desk::Desk;
use crate::report::paper::{Block, TICK};

/// Right edge of a line's number, points.
const NUMBER: f64 = 18.0;
/// Width of the two lines to write on beside a mark, points.
const WRITING: f64 = 84.0;
/// Height of a second line to write on, points.
const SECOND: f64 = 17.0;
/// Space between columns, points.
const GAP: f64 = 8.0;
/// Head, strip and foot of a block at their highest, points.
const AROUND: f64 = 130.0;

/// Where the figures that are said once stand, as wide as this joint's own: right edges of the saw
/// length, the throat and the running mark, the left edge of the ends.
struct Columns {
    saw: f64,
    throat: f64,
    ends: f64,
    running: f64,
}

impl Columns {
    fn of(desk: &Desk, joint: &PlannedJoint) -> Columns {
        let widest = |face: Face, size: f64, least: f64, words: &dyn Fn(&PieceCut) -> String| {
            let each = joint.pieces.iter().map(|p| width(face, size, &words(p)));
            each.fold(least, f64::max)
        };
        let saw = NUMBER + CLEAR + widest(Face::Bold, BIG, 46.0, &|p| desk.length(p.saw));
        let throat = widest(Face::Regular, PLAIN, 30.0, &|p| throat_words(desk, p));
        let ends = widest(Face::Regular, PLAIN, 30.0, &|p| desk.ends(p));
        let running = widest(Face::Bold, BIG, 60.0, &|p| desk.at_mark(p.end));
        let throat = saw + GAP + throat;
        Columns {
            saw,
            throat,
            ends: throat + GAP,
            // A flag reaches 0.7 of the size past its words.
            running: throat + 2.0 * GAP + ends + running + 0.7 * BIG,
        }
    }
}

/// Whether so many joints like this one share a block: every mark fits its seat at the size that is
/// read at the saw, and the block its page.
pub fn holds(desk: &Desk, joint: &PlannedJoint, joints: usize) -> bool {
    let seats = Seats::of(desk, joint, joints);
    let lines = f64::from(u32::try_from(joint.pieces.len()).unwrap_or(u32::MAX));
    seats.widest <= seats.beside && AROUND + HEADS + lines * (TIGHT + seats.second) <= desk.high
}

/// The lines of joints cut alike: the figures once, then for each joint its tick box and mark and room
/// for what was measured; with three joints, or long marks, that room is on a second line.
pub fn folded(desk: &Desk, run: &[&PlannedJoint]) -> Block {
    let Some(first) = run.first() else {
        return Block::new(0.0);
    };
    let at = Columns::of(desk, first);
    let seats = Seats::of(desk, first, run.len());
    let mut block = heads(&at, &seats, run);
    let lines = f64::from(u32::try_from(first.pieces.len()).unwrap_or(u32::MAX)).max(1.0);
    let line = (desk.high - AROUND - HEADS) / lines - seats.second;
    let line = line.clamp(TIGHT, usual(desk));
    for (i, piece) in first.pieces.iter().enumerate() {
        let (top, y) = (block.height, block.height + 0.5 * line + 5.5);
        block.text(Text::new(NUMBER, y, PLAIN, (i + 1).to_string()).end());
        block.text(
            Text::new(at.saw, y, BIG, desk.length(piece.saw))
                .bold()
                .end(),
        );
        block.text(Text::new(at.throat, y, PLAIN, throat_words(desk, piece)).end());
        block.text(Text::new(at.ends, y, PLAIN, desk.ends(piece)));
        running(&mut block, desk, piece, at.running, y);
        for (joint, x) in run.iter().zip(&seats.at) {
            block.tick(*x, top + (line - TICK) / 2.0);
            let mark = joint.pieces.get(i).map_or("", |p| p.mark.as_str());
            block.text(Text::new(x + TICK + 4.0, y, PLAIN, mark).bold());
            seats.write_in(&mut block, *x, top + line - 2.5);
        }
        block.height += line + seats.second;
        block.line(0.0, block.height, desk.room, block.height, 0.3);
    }
    block
}

fn heads(at: &Columns, seats: &Seats, run: &[&PlannedJoint]) -> Block {
    let mut block = Block::new(HEADS);
    let y = HEADS - 3.0;
    for (x, words) in [
        (at.saw, "saw length"),
        (at.throat, "throat"),
        (at.running, "running mark"),
    ] {
        block.text(Text::new(x, y, 9.0, words).end());
    }
    block.text(Text::new(at.ends, y, 9.0, "ends"));
    for (joint, x) in run.iter().zip(&seats.at) {
        let name = Text::new(*x, HEADS - 2.0, 11.0, format!("joint {}", joint.number)).bold();
        block.text(name);
        if seats.second == 0.0 {
            block.text(Text::new(x + seats.actual, y, 9.0, "actual"));
            block.text(Text::new(x + seats.initials, y, 9.0, "initials"));
        }
    }
    block
}

/// Where each of two or three joints cut alike has its box, its mark and its room to write.
struct Seats {
    /// Left edges, points.
    at: Vec<f64>,
    /// Widest mark, and the room beside a box.
    widest: f64,
    beside: f64,
    /// From the left edge to what was measured, and to the initials.
    actual: f64,
    initials: f64,
    /// Width of one seat.
    wide: f64,
    /// Height of the second line; 0 when there is none.
    second: f64,
}

impl Seats {
    fn of(desk: &Desk, joint: &PlannedJoint, joints: usize) -> Seats {
        let start = Columns::of(desk, joint).running + 12.0;
        let each = f64::from(u32::try_from(joints.max(2)).unwrap_or(2));
        let step = (desk.room - start) / each;
        let at = std::iter::successors(Some(start), |x| Some(x + step)).take(joints);
        let wide = step - 6.0;
        let beside = wide - TICK - 4.0;
        let marks = joint
            .pieces
            .iter()
            .map(|p| width(Face::Bold, PLAIN, &p.mark));
        let widest = marks.fold(0.0, f64::max);
        let narrow = widest > beside - WRITING;
        let (actual, initials) = match narrow {
            true => (34.0, wide - 32.0),
            false => (wide - WRITING + 4.0, wide - 28.0),
        };
        Seats {
            at: at.collect(),
            widest,
            beside,
            actual,
            initials,
            wide,
            second: if narrow { SECOND } else { 0.0 },
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
