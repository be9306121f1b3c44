//! From a whole label to piece lengths.

use super::super::differences::{START, last, last_but_one};
use super::Search;
use super::label::Move;
use super::system::System;

impl Search<'_> {
    /// Moves from the start to a label, each with the label in front of it.
    fn way_to(&self, mut at: usize) -> Vec<(usize, Move)> {
        let mut moves = Vec::new();
        while let Some(moved) = self.labels[at].moved {
            moves.push((self.labels[at].from, moved));
            at = self.labels[at].from;
        }
        moves.reverse();
        moves
    }

    /// Piece lengths of a whole label: of the positions that cost the same, middle ones.
    pub(super) fn pieces(&self, at: usize) -> Vec<Vec<i64>> {
        let (mut system, mut stands) = (System::default(), [Vec::new(), Vec::new()]);
        // Which position of the system each one of the matrix is; the start is the first.
        let mut now = [0usize; 5];
        system.add((0, 0));
        for (before, moved) in self.way_to(at) {
            let before = &self.labels[before];
            let place = self.target(before, moved);
            let new = system.add((place.from, place.to));
            for tie in self.ties(before, moved).iter().filter(|t| t.other != START) {
                let other = now[tie.other];
                system.tie(other, new, (tie.least, tie.most));
            }
            let (newest, older) = (last(moved.line), last_but_one(moved.line));
            (now[older], now[newest]) = (now[newest], new);
            stands[moved.line].push(new);
        }
        let laid = system.middle(self.mark);
        let mut out = Vec::new();
        for (choices, stands) in self.lines.iter().zip(&stands) {
            let mut from = 0;
            let cuts = stands
                .iter()
                .map(|&s| laid[s] - std::mem::replace(&mut from, laid[s]));
            let pieces: Vec<i64> = cuts.collect();
            out.push(if pieces.is_empty() {
                vec![choices.line.whole]
            } else {
                pieces
            });
        }
        out
    }
}
