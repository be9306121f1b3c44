//! What the rules ask of the next splice: how far behind those before it, of its own line and of the other.

use super::super::differences::{Behind, START, last, last_but_one};
use super::super::lattice::{Stretch, centre};
use super::super::to_go::ToGo;
use super::Search;
use super::label::{Label, Move};

impl<'a> Search<'a> {
    /// The place a move leads to.
    pub(super) fn target(&self, label: &Label, moved: Move) -> &'a Stretch {
        &self.way(moved.line, label).places[label.placed[moved.line] as usize][moved.place]
    }

    /// What a move asks of the new position.
    pub(super) fn ties(&self, before: &Label, moved: Move) -> Vec<Behind> {
        let (line, way) = (moved.line, self.way(moved.line, before));
        let place = self.target(before, moved);
        let tie = |other, least, most| Behind { other, least, most };
        let mut ties = vec![
            tie(START, Some(place.from), Some(place.to)),
            tie(last(line), Some(way.least_piece), Some(moved.longest)),
        ];
        let j = before.placed[line] + 1;
        if j > way.splices {
            return ties;
        }
        if j > 2 {
            let third = self.third(line, way, j);
            ties.push(tie(last_but_one(line), Some(third), None));
        }
        if let Some(least) = self.behind_other(before, line, j) {
            // Of a line at its end the matrix has the end last.
            let ended = before.placed[1 - line] > self.way(1 - line, before).splices;
            let theirs = if ended { last_but_one } else { last };
            ties.push(tie(theirs(1 - line), Some(least), None));
        }
        ties
    }

    /// Least by which splice j is cut behind splice j − 2.
    fn third(&self, line: usize, way: &ToGo, j: u32) -> i64 {
        let (own, m) = (self.lines[line].line, way.splices);
        let shift = |j| centre(own, self.mark, self.unit, m, j, 0);
        let over = self.unit * own.three_over + 1 - (shift(j) - shift(j - 2));
        self.up(over)
    }

    /// Least by which splice j of a line is cut behind the other line's last one; `None`: that has none yet.
    pub(super) fn behind_other(&self, before: &Label, line: usize, j: u32) -> Option<i64> {
        let other = self.together.then_some(1 - line)?;
        let last = before.placed[other].min(self.way(other, before).splices);
        (last > 0).then(|| self.behind(before.ways, (line, j), last))
    }

    /// Least by which splice j of a line is cut behind splice `last` of the other one, by either's number of
    /// splices.
    pub(super) fn behind(&self, ways: [usize; 2], (line, j): (usize, u32), last: u32) -> i64 {
        let shift = |l: usize, j| {
            let choices = &self.lines[l];
            let m = choices.ways[ways[l]].splices;
            centre(choices.line, self.mark, self.unit, m, j, 0)
        };
        let apart = self.unit * self.group.apart;
        self.up(apart - shift(line, j) + shift(1 - line, last))
    }

    /// A distance of centres as one of cuts, up to the mark.
    fn up(&self, centres: i64) -> i64 {
        -(-up_to(centres, self.unit)).div_euclid(self.mark) * self.mark
    }
}

/// ⌈a / b⌉.
fn up_to(a: i64, b: i64) -> i64 {
    -(-a).div_euclid(b)
}
