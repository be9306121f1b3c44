//! The lines of one joint over the whole width.

use super::lines::{
    BIG, CLEAR, HEADS, PLAIN, TIGHT, further, mark, running, throat_words, usual, write_mark,
    write_on,
};
use crate::plan::{PieceCut, PlannedJoint};
use crate::report::draw::{Face, Text, width};
use crate::report::paper::desk::Desk;
use crate::report::paper::{Block, TICK};

/// Where the columns stand, parts of the room's width: number (its right edge), mark, gate, saw length
/// and throat (right edges), ends, running mark (right edge), actual, initials. Each has room for the
/// longest figure at its size on either paper.
struct Columns {
    number: f64,
    mark: f64,
    gate: f64,
    saw: f64,
    throat: f64,
    ends: f64,
    running: f64,
    actual: f64,
    initials: f64,
}

impl Columns {
    fn of(room: f64) -> Columns {
        Columns {
            number: 0.0635 * room - CLEAR,
            mark: 0.0635 * room,
            gate: 0.196 * room,
            saw: 0.402 * room,
            throat: 0.5304 * room,
            ends: 0.5415 * room,
            running: 0.8177 * room,
            actual: 0.833 * room,
            initials: 0.9254 * room,
        }
    }
}

/// One line: its piece, its mark broken as it must be, and whether the gate fits beside it.
struct Line<'a> {
    piece: &'a PieceCut,
    mark: (f64, Vec<String>),
    gate: Option<String>,
}

impl<'a> Line<'a> {
    /// A mark too long for its column takes the gate's as well: it begins with the gate's name.
    fn of(desk: &Desk, at: &Columns, piece: &'a PieceCut) -> Line<'a> {
        let saw = width(Face::Bold, BIG, &desk.length(piece.saw));
        let free = at.saw - saw - CLEAR;
        let gate = desk.gate_of(piece);
        let beside = at.gate + width(Face::Regular, PLAIN, &gate) <= free;
        let room = at.gate - at.mark - 7.0;
        if beside && width(Face::Bold, PLAIN, &piece.mark) <= room {
            return Line {
                piece,
                mark: mark(&piece.mark, room),
                gate: Some(gate),
            };
        }
        Line {
            piece,
            mark: mark(&piece.mark, free - at.mark),
            gate: None,
        }
    }
}

/// The lines of a joint in at most `air` points; `None` when it has too many.
pub fn full(desk: &Desk, joint: &PlannedJoint, air: f64) -> Option<Block> {
    let at = Columns::of(desk.room);
    let lines: Vec<Line> = joint
        .pieces
        .iter()
        .map(|p| Line::of(desk, &at, p))
        .collect();
    let count = f64::from(u32::try_from(lines.len()).unwrap_or(u32::MAX)).max(1.0);
    let more: f64 = lines.iter().map(|l| further(&l.mark.1)).sum();
    let each = (air - HEADS - more) / count;
    if each < TIGHT {
        return None;
    }
    let mut block = heads(&at);
    for (i, line) in lines.iter().enumerate() {
        draw(&mut block, desk, &at, i + 1, line, each.min(usual(desk)));
    }
    Some(block)
}

fn heads(at: &Columns) -> Block {
    let mut block = Block::new(HEADS);
    let y = HEADS - 3.0;
    for (x, words) in [
        (at.mark, "mark"),
        (at.gate, "gate"),
        (at.ends, "ends"),
        (at.actual, "actual"),
        (at.initials, "initials"),
    ] {
        block.text(Text::new(x, y, 9.0, words));
    }
    for (x, words) in [
        (at.saw, "saw length"),
        (at.throat, "throat"),
        (at.running, "running mark"),
    ] {
        block.text(Text::new(x, y, 9.0, words).end());
    }
    block
}

fn draw(block: &mut Block, desk: &Desk, at: &Columns, number: usize, line: &Line, high: f64) {
    let piece = line.piece;
    let (top, y) = (block.height, block.height + 0.5 * high + 5.5);
    block.tick(0.0, top + (high - TICK) / 2.0);
    block.text(Text::new(at.number, y, PLAIN, number.to_string()).end());
    write_mark(block, at.mark, y, &line.mark);
    if let Some(gate) = &line.gate {
        block.text(Text::new(at.gate, y, PLAIN, gate));
    }
    block.text(
        Text::new(at.saw, y, BIG, desk.length(piece.saw))
            .bold()
            .end(),
    );
    block.text(Text::new(at.throat, y, PLAIN, throat_words(desk, piece)).end());
    block.text(Text::new(at.ends, y, PLAIN, desk.ends(piece)));
    running(block, desk, piece, at.running, y);
    let under = top + high - 2.5;
    write_on(block, at.actual, at.initials - at.actual - 6.0, under);
    write_on(block, at.initials, desk.room - at.initials, under);
    block.height += high + further(&line.mark.1);
    block.line(0.0, block.height, at.running + 6.0, block.height, 0.3);
}
