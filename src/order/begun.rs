//! `Begun`: what of a week is made already, and how the lines are spliced of which a piece is made.

use std::collections::BTreeSet;

use serde::Serialize;

use super::PieceId;
use crate::measure::Length;

/// Empty for a week of which nothing is cut.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Begun {
    /// Pieces that are there and count as theirs: they are cut no more.
    pub made: BTreeSet<PieceId>,
    /// Lines that stay as they were handed out: every line that may be spliced of a gate copy of which one such
    /// line has a piece made.
    pub lines: Vec<BegunLine>,
}

/// A line that may be spliced, as it was handed out.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BegunLine {
    /// The part's mark.
    pub mark: String,
    /// Copy of the gate, 1...
    pub copy: u32,
    /// Saw lengths of its pieces from the latch end; one: it is not spliced.
    pub pieces: Vec<Length>,
}

impl BegunLine {
    /// The name of a piece, 1.. from the latch end.
    pub fn piece(&self, number: u32) -> PieceId {
        PieceId {
            mark: self.mark.clone(),
            copy: self.copy,
            serial: 1,
            piece: (self.pieces.len() > 1).then_some(number),
        }
    }
}

impl Begun {
    /// Nothing is made.
    pub fn none(&self) -> bool {
        self.made.is_empty() && self.lines.is_empty()
    }

    /// How the line of a part is made for one copy, where that is settled.
    pub fn line(&self, mark: &str, copy: u32) -> Option<&BegunLine> {
        let mut lines = self.lines.iter();
        lines.find(|l| l.copy == copy && l.mark == mark)
    }
}
