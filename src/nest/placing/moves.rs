//! The next moves of a label: each place for the next splice of a line, each step of the price in front of it.

use std::cmp::Reverse;

use super::super::differences::{last, last_but_one};
use super::Search;
use super::label::{Label, Move, Next};

/// Steps that a move counts.
const A_MOVE: u64 = 40;

impl Search<'_> {
    /// What a line costs from its last splice on, at least.
    fn to_go(&self, label: &Label, line: usize, range: (i64, i64)) -> Option<i64> {
        let way = self.way(line, label);
        match label.placed[line] {
            0 => way.least,
            j if j > way.splices => Some(0),
            j => way.behind(j, range),
        }
    }

    /// Every next move of a label.
    pub(super) fn expand(&mut self, at: usize, depth: u32) {
        let label = &self.labels[at];
        let left: Vec<usize> = (0..self.lines.len())
            .filter(|&line| !self.is_done(label, line))
            .collect();
        let at_end = |line: &&usize| label.placed[**line] == self.way(**line, label).splices;
        // Its end binds nothing else: it is taken at once.
        let lines = match left.iter().find(at_end) {
            Some(line) => vec![*line],
            None => left,
        };
        for line in lines {
            self.moves(at, line, depth);
        }
    }

    /// Every place for the next splice of a line.
    fn moves(&mut self, at: usize, line: usize, depth: u32) {
        let label = &self.labels[at];
        let (way, other) = (self.way(line, label), 1 - line);
        let rest = if self.lines.len() > 1 {
            self.to_go(label, other, label.known.range(last(other)))
        } else {
            Some(0)
        };
        let Some(rest) = rest else { return };
        let j = label.placed[line] + 1;
        let (lo, hi) = label.known.range(last(line));
        let zone = (j > 1).then(|| way.places[j as usize - 2][label.place[line]].zone);
        let taken = self.zones(label, other);
        let front = self.behind_other(label, line, j).map_or(i64::MIN, |least| {
            let ended = label.placed[other] > self.way(other, label).splices;
            let theirs = if ended { last_but_one } else { last };
            label.known.range(theirs(other)).0 + least
        });
        let latest = self.latest(label, line, j);
        let (paid, places) = (label.paid, &way.places[j as usize - 1]);
        let longest = way.steps.last().map_or(0, |s| s.0);
        let from = places.partition_point(|p| p.to < lo + way.least_piece);
        for (index, place) in places.iter().enumerate().skip(from) {
            if place.from > hi + longest {
                break;
            }
            self.work += A_MOVE;
            if zone == Some(place.zone) || (j <= way.splices && taken.contains(&place.zone)) {
                continue;
            }
            let first = place.from.max(lo + way.least_piece);
            let first = if j <= way.splices {
                first.max(front)
            } else {
                first
            };
            let mut shorter = i64::MIN;
            for &(step, value) in &way.steps {
                let end = place.to.min(hi + step).min(latest);
                // A longer step frees nothing where a shorter one allows every piece already.
                if end < first || place.to - lo <= shorter {
                    continue;
                }
                shorter = step;
                self.work += A_MOVE;
                let Some(behind) = way.behind(j, (first, end)) else {
                    continue;
                };
                let paid = paid + value + place.charge * self.scale;
                let moved = Move {
                    line,
                    place: index,
                    longest: step,
                };
                self.waiting.push(Next {
                    from: at,
                    moved,
                    paid,
                });
                let promise = Reverse(paid + behind + rest);
                let order = Reverse(self.waiting.len() - 1);
                self.open.push((promise, depth + 1, order));
            }
        }
    }
}
