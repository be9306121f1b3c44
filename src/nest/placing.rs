//! The cheapest configuration of a group whose lines take many splices: best-first search (A*) that places the
//! splices of both lines in the order in which they stand.
//!
//! A label holds which slots the splices placed so far stand in, what that cost, and a difference-bound matrix
//! of the last two splices of each line: all that the rules ask of the next one. The least cost of what is
//! left is known for each line by itself (`to_go.rs`), so the first label taken whole is the cheapest. Labels
//! of equal promise are taken deepest first. A label that costs no less than another in the same slots, and
//! whose positions are among the other's, leads nowhere new and is dropped: so a search of a group that has no
//! configuration ends. Nor is a splice placed so late that those behind it find no room (`latest.rs`).

mod label;
mod latest;
mod moves;
mod pieces;
mod system;
mod ties;
mod zones;

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};

use super::differences::Differences;
use super::problem::{Group, Line};
use super::to_go::ToGo;
use label::{Label, Met, Move, Next};
use latest::Latest;

/// What a search may take.
pub(super) struct Means<'s> {
    /// Values from here on are not pursued.
    pub enough: i64,
    /// Steps.
    pub work: u64,
    /// Somebody asked to stop.
    pub stop: &'s dyn Fn() -> bool,
}

/// Where a search ended.
pub(super) enum Placed {
    /// The cheapest configuration: its value and the pieces of each line.
    Found(i64, Vec<Vec<i64>>),
    /// Every way was looked at: there is none.
    Nothing,
    /// It gave up: no configuration costs less than this.
    Open(i64),
}

/// One line in all its numbers of splices.
pub(super) struct Choices<'a> {
    pub line: &'a Line,
    pub ways: Vec<ToGo>,
}

struct Search<'a> {
    group: &'a Group,
    mark: i64,
    unit: i64,
    scale: i64,
    /// Lines that are placed in one order because they bind each other.
    together: bool,
    lines: &'a [Choices<'a>],
    /// How late a splice may be cut, by the numbers of splices of lines that bind each other.
    latest: BTreeMap<[usize; 2], Latest>,
    labels: Vec<Label>,
    met: BTreeMap<Met, Vec<(i64, Differences)>>,
    open: BinaryHeap<(Reverse<i64>, u32, Reverse<usize>)>,
    waiting: Vec<Next>,
    work: u64,
}

/// Labels of one kind that are compared at most.
const COMPARED: usize = 40;
/// Steps that a label and a move count.
const A_LABEL: u64 = 300;
/// Labels between two looks at the clock.
const A_LOOK: usize = 64;

/// Places the splices of lines that bind each other, or of one line; (scale of charges, price of a splice).
pub(super) fn place(
    group: &Group,
    (mark, unit): (i64, i64),
    lines: &[Choices<'_>],
    (scale, splice): (i64, i64),
    (means, work): (&Means<'_>, &mut u64),
) -> Placed {
    let mut search = Search {
        group,
        mark,
        unit,
        scale,
        together: lines.len() > 1,
        lines,
        latest: BTreeMap::new(),
        labels: Vec::new(),
        met: BTreeMap::new(),
        open: BinaryHeap::new(),
        waiting: Vec::new(),
        work: 0,
    };
    search.start(splice);
    let found = search.go(means);
    *work += search.work;
    found
}

impl<'a> Search<'a> {
    fn way(&self, line: usize, label: &Label) -> &'a ToGo {
        &self.lines[line].ways[label.ways[line]]
    }

    /// A label for each number of splices of each line.
    fn start(&mut self, splice: i64) {
        let second = self.lines.get(1).map_or(1, |c| c.ways.len());
        for a in 0..self.lines[0].ways.len() {
            for b in 0..second {
                let ways = [a, b];
                let all = self.lines.iter().zip(ways).map(|(c, w)| &c.ways[w]);
                let least: Option<i64> = all.clone().map(|w| w.least).sum();
                let Some(least) = least else { continue };
                if self.together {
                    let latest = self.latest_of(ways);
                    self.latest.insert(ways, latest);
                }
                let splices: i64 = all.map(|w| i64::from(w.splices)).sum();
                self.labels.push(Label {
                    from: usize::MAX,
                    moved: None,
                    ways,
                    placed: [0; 2],
                    place: [0; 2],
                    paid: splices * splice,
                    known: Differences::none(),
                });
                let at = self.labels.len() - 1;
                // A label without a move stands for itself.
                self.waiting.push(Next {
                    from: at,
                    moved: Move {
                        line: usize::MAX,
                        place: 0,
                        longest: 0,
                    },
                    paid: splices * splice,
                });
                let promise = Reverse(splices * splice + least);
                self.open
                    .push((promise, 0, Reverse(self.waiting.len() - 1)));
            }
        }
    }

    fn go(&mut self, means: &Means<'_>) -> Placed {
        let mut looked = 0;
        while let Some((Reverse(promise), depth, Reverse(at))) = self.open.pop() {
            self.work += A_LABEL;
            looked += 1;
            let late = looked % A_LOOK == 0 && (means.stop)();
            if promise >= means.enough || self.work > means.work || late {
                return Placed::Open(promise);
            }
            let Some(label) = self.take(at) else { continue };
            if self.is_whole(&self.labels[label]) {
                return Placed::Found(promise, self.pieces(label));
            }
            self.expand(label, depth);
        }
        Placed::Nothing
    }

    /// A waiting label with its positions worked out; `None` where there are none, or none that are new.
    fn take(&mut self, at: usize) -> Option<usize> {
        let Next { from, moved, paid } = self.waiting[at];
        if moved.line == usize::MAX {
            return Some(from);
        }
        let before = &self.labels[from];
        let known = before.known.place(moved.line, &self.ties(before, moved))?;
        let mut label = Label {
            from,
            moved: Some(moved),
            ways: before.ways,
            placed: before.placed,
            place: before.place,
            paid,
            known,
        };
        label.placed[moved.line] += 1;
        label.place[moved.line] = moved.place;
        let zones = [0, 1].map(|l| self.zones_ahead(&label, l));
        let kind = (label.ways, label.placed, label.place, zones);
        let met = self.met.entry(kind).or_default();
        if met.iter().any(|(p, k)| *p <= paid && known.is_within(k)) {
            return None;
        }
        if met.len() < COMPARED {
            met.push((paid, known));
        }
        self.labels.push(label);
        Some(self.labels.len() - 1)
    }

    /// Whether nothing of a line is left to place.
    fn is_done(&self, label: &Label, line: usize) -> bool {
        let splices = self.way(line, label).splices;
        splices == 0 || label.placed[line] > splices
    }

    fn is_whole(&self, label: &Label) -> bool {
        (0..self.lines.len()).all(|line| self.is_done(label, line))
    }
}

#[cfg(test)]
mod tests;
