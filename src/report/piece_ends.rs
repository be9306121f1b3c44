//! The two ends and the throat of one piece as it leaves the saw.

use crate::measure::Length;
use crate::part::{CopeEnd, Part};
use crate::plan::PieceCut;

use super::cope_kind::CopeKinds;
use super::job::Job;
use super::wrap::HARD_SPACE;

/// One piece's ends in words and its throat.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct PieceEnds {
    /// `[start, end]`: `cope 4` or `square`.
    pub words: [String; 2],
    /// Throat to the nearest saw mark.
    pub throat: Length,
}

impl PieceEnds {
    /// `cope 4 / square`.
    pub fn joined(&self) -> String {
        both(&self.words[0], &self.words[1])
    }
}

/// Two ends as one cell of words, broken at the stroke alone: `cope 4 / square`.
pub(super) fn both(start: &str, far: &str) -> String {
    let whole = |end: &str| end.replace(' ', HARD_SPACE);
    format!("{} / {}", whole(start), whole(far))
}

/// Ends of a piece: a splice end is square, so a piece of a spliced line keeps only the cope of the
/// line's end it holds, and its throat is its saw length less that cope's cutback.
pub(super) fn piece_ends(job: Job<'_>, kinds: &CopeKinds, piece: &PieceCut) -> PieceEnds {
    let part = &job.take_off.parts[piece.part];
    let last = job.line_of(piece).map(|l| l.pieces.len());
    let own = match (piece.piece.map(usize_of), last) {
        (Some(n), Some(last)) => [n == 1, n == last],
        _ => [true, true],
    };
    let words = [0, 1].map(|end| {
        if own[end] {
            end_word(kinds, piece.part, end)
        } else {
            "square".to_owned()
        }
    });
    let throat = if own == [true, true] {
        part.throat
    } else {
        let off: f64 = (0..2).filter(|e| own[*e]).map(|e| cutback(part, e)).sum();
        Length::nearest_mark(piece.saw.geometric() - off, job.mark())
    };
    PieceEnds { words, throat }
}

/// `cope 4` or `square`.
pub(super) fn end_word(kinds: &CopeKinds, part: usize, end: usize) -> String {
    match kinds.at(part, end) {
        Some(kind) => format!("cope {}", kind.number),
        None => "square".to_owned(),
    }
}

fn cutback(part: &Part, end: usize) -> f64 {
    match &part.ends[end] {
        CopeEnd::Square { .. } => 0.0,
        CopeEnd::Coped(cope) => cope.cut.cutback,
    }
}

fn usize_of(n: u32) -> usize {
    usize::try_from(n).unwrap_or(usize::MAX)
}
