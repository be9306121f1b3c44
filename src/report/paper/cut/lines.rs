//! What the lines under a strip are made of, whichever way they are set.

use crate::plan::PieceCut;
use crate::report::draw::{Face, Text, width};
use crate::report::paper::Block;
use crate::report::paper::desk::Desk;
use crate::report::paper::wrap::wrap;

/// Height of a line at most, points: a tick box and air.
const LINE: f64 = 20.5;
/// What a line may be squeezed to so that a joint of many pieces stays on one page, points.
pub(super) const TIGHT: f64 = 18.0;
/// Figures read at the saw, points.
pub(super) const BIG: f64 = 16.0;
/// The rest of what is read there, points: never under 14.
pub(super) const PLAIN: f64 = 14.0;
/// Height of the column titles, points.
pub(super) const HEADS: f64 = 12.0;
/// Between a line's number and the figure after it, points: together they would read as one.
pub(super) const CLEAR: f64 = 12.0;
/// What each further line of a long mark takes, points.
const FURTHER: f64 = 16.0;

/// Throat of a piece; a dash where both its ends are square.
pub fn throat_words(desk: &Desk, piece: &PieceCut) -> String {
    desk.throat_words(desk.throat(piece), piece.saw)
}

/// Whether a piece's running mark lies past the shop's tape.
pub fn beyond_tape(desk: &Desk, piece: &PieceCut) -> bool {
    desk.shop().saw.tape.is_some_and(|tape| piece.end > tape)
}

/// A running mark; one past the shop's tape is flagged.
pub(super) fn running(block: &mut Block, desk: &Desk, piece: &PieceCut, right: f64, y: f64) {
    let words = desk.at_mark(piece.end);
    if beyond_tape(desk, piece) {
        let w = Text::new(0.0, 0.0, BIG, &words).bold().width() + 0.7 * BIG;
        block.flag(right - w + 4.0, y, BIG, &words);
    } else {
        block.text(Text::new(right, y, BIG, words).bold().end());
    }
}

/// Height of a line where two blocks of six lines share a page.
pub(super) fn usual(desk: &Desk) -> f64 {
    ((desk.high / 2.0 - 129.0) / 6.0).clamp(TIGHT, LINE)
}

/// A line to write on.
pub(super) fn write_on(block: &mut Block, x: f64, wide: f64, y: f64) {
    block.line(x, y, x + wide, y, 0.6);
}

/// A mark as large as it fits a width, never under what is read at the saw: a longer one breaks.
pub(super) fn mark(words: &str, room: f64) -> (f64, Vec<String>) {
    match width(Face::Bold, BIG, words) <= room {
        true => (BIG, vec![words.to_owned()]),
        false => (PLAIN, wrap(Face::Bold, PLAIN, room, words)),
    }
}

/// Draws a mark's lines from a baseline down.
pub(super) fn write_mark(block: &mut Block, x: f64, y: f64, (size, lines): &(f64, Vec<String>)) {
    let mut y = y;
    for line in lines {
        block.text(Text::new(x, y, *size, line).bold());
        y += FURTHER;
    }
}

/// What a mark's further lines take, points.
pub(super) fn further(lines: &[String]) -> f64 {
    FURTHER * f64::from(u32::try_from(lines.len().saturating_sub(1)).unwrap_or(u32::MAX))
}
