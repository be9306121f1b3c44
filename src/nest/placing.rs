//! The cheapest configuration of a group whose lines take many splices: best-first search (A*) that places the
//! splices of both lines in the order in which they stand.
//!
//! A label holds which slots the splices placed so far stand in, what that cost, and a difference-bound matrix
//! of the last two splices of each line: all that the rules ask of the next one. The least cost of what is
//! left is known for each line by itself (`to_go.rs`), so the first label taken whole is the cheapest. Labels
//! of equal promise are taken deepest first. A label that costs no less than another in the same slots, and
//! whose positions are among the other's, leads nowhere new and is dropped: so a search of a group that has no
//! configuration ends.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};

use super::differences::{Behind, Differences, START, last, last_but_one};
use super::lattice::{Stretch, centre};
use super::problem::{Group, Line};
use super::to_go::ToGo;

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

/// A move: the next splice of a line (or its end) into a place, the piece before it at most one step long.
#[derive(Clone, Copy, Debug)]
struct Move {
    line: usize,
    place: usize,
    longest: i64,
}

/// A label taken: what was placed last, and what is known then.
struct Label {
    from: usize,
    moved: Option<Move>,
    /// Which number of splices each line has: index into its ways.
    ways: [usize; 2],
    placed: [u32; 2],
    /// Slots of the last splices.
    place: [usize; 2],
    paid: i64,
    known: Differences,
}

/// A label not looked at yet.
struct Next {
    from: usize,
    moved: Move,
    paid: i64,
}

struct Search<'a> {
    group: &'a Group,
    mark: i64,
    unit: i64,
    scale: i64,
    /// Lines that are placed in one order because they bind each other.
    together: bool,
    lines: &'a [Choices<'a>],
    labels: Vec<Label>,
    met: BTreeMap<Met, Vec<(i64, Differences)>>,
    open: BinaryHeap<(Reverse<i64>, u32, Reverse<usize>)>,
    waiting: Vec<Next>,
    work: u64,
}

/// Labels of one kind: slots, counts and the zones of either line that the other may still meet.
type Met = ([usize; 2], [u32; 2], [usize; 2], [Vec<u32>; 2]);

/// Labels of one kind that are compared at most.
const COMPARED: usize = 40;
/// Steps that a label and a move count.
const A_LABEL: u64 = 300;
const A_MOVE: u64 = 40;
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

    /// The place a move leads to.
    fn target(&self, label: &Label, moved: Move) -> &'a Stretch {
        &self.way(moved.line, label).places[label.placed[moved.line] as usize][moved.place]
    }

    /// What a move asks of the new position.
    fn ties(&self, before: &Label, moved: Move) -> Vec<Behind> {
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
    fn behind_other(&self, before: &Label, line: usize, j: u32) -> Option<i64> {
        let other = self.together.then_some(1 - line)?;
        let (way, theirs) = (self.way(line, before), self.way(other, before));
        let last = before.placed[other].min(theirs.splices);
        if last == 0 {
            return None;
        }
        let shift = |l: usize, m, j| centre(self.lines[l].line, self.mark, self.unit, m, j, 0);
        let apart = self.unit * self.group.apart;
        Some(self.up(apart - shift(line, way.splices, j) + shift(other, theirs.splices, last)))
    }

    /// A distance of centres as one of cuts, up to the mark.
    fn up(&self, centres: i64) -> i64 {
        -(-up_to(centres, self.unit)).div_euclid(self.mark) * self.mark
    }

    /// What a line costs from its last splice on, at least.
    fn to_go(&self, label: &Label, line: usize, range: (i64, i64)) -> Option<i64> {
        let way = self.way(line, label);
        match label.placed[line] {
            0 => way.least,
            j if j > way.splices => Some(0),
            j => way.behind(j, range),
        }
    }

    /// Whether nothing of a line is left to place.
    fn is_done(&self, label: &Label, line: usize) -> bool {
        let splices = self.way(line, label).splices;
        splices == 0 || label.placed[line] > splices
    }

    fn is_whole(&self, label: &Label) -> bool {
        (0..self.lines.len()).all(|line| self.is_done(label, line))
    }

    /// Every next move of a label.
    fn expand(&mut self, at: usize, depth: u32) {
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
                let end = place.to.min(hi + step);
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

    /// Zones in which a line is spliced, where they bar the other line.
    fn zones(&self, label: &Label, line: usize) -> Vec<u32> {
        let mut zones = Vec::new();
        if !self.together || !self.group.zones_exclusive {
            return zones;
        }
        let mut here = label;
        while let Some(moved) = here.moved {
            let before = &self.labels[here.from];
            let splice = before.placed[line] < self.way(line, before).splices;
            if moved.line == line && splice {
                zones.push(self.target(before, moved).zone);
            }
            here = before;
        }
        zones
    }

    /// The same, only zones that the other line may still meet.
    fn zones_ahead(&self, label: &Label, line: usize) -> Vec<u32> {
        let mut zones = self.zones(label, line);
        let Some(other) = self.lines.get(1 - line).filter(|_| !zones.is_empty()) else {
            return zones;
        };
        let front = (0..2)
            .map(|l| label.known.range(last(l)).0)
            .min()
            .unwrap_or(0);
        let ahead = |zone: &u32| {
            let mut slots = other.line.slots.iter();
            slots.any(|s| s.zone == *zone && s.hi >= front)
        };
        zones.retain(ahead);
        zones.sort_unstable();
        zones
    }

    /// Piece lengths of a whole label: of the positions that cost the same, middle ones.
    fn pieces(&self, at: usize) -> Vec<Vec<i64>> {
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

/// ⌈a / b⌉.
fn up_to(a: i64, b: i64) -> i64 {
    -(-a).div_euclid(b)
}

/// Positions tied by differences, of one whole configuration.
#[derive(Default)]
struct System {
    range: Vec<(i64, i64)>,
    /// (earlier, later, least difference, most).
    ties: Vec<(usize, usize, Option<i64>, Option<i64>)>,
}

impl System {
    fn add(&mut self, range: (i64, i64)) -> usize {
        self.range.push(range);
        self.range.len() - 1
    }

    fn tie(&mut self, one: usize, other: usize, (least, most): (Option<i64>, Option<i64>)) {
        self.ties.push((one, other, least, most));
    }

    /// Tightens ranges until nothing moves (Bellman and Ford).
    fn settle(&mut self) {
        for _ in 0..=self.range.len() {
            let before = self.range.clone();
            for &(a, b, least, most) in &self.ties {
                if let Some(least) = least {
                    self.range[b].0 = self.range[b].0.max(self.range[a].0 + least);
                    self.range[a].1 = self.range[a].1.min(self.range[b].1 - least);
                }
                if let Some(most) = most {
                    self.range[a].0 = self.range[a].0.max(self.range[b].0 - most);
                    self.range[b].1 = self.range[b].1.min(self.range[a].1 + most);
                }
            }
            if before == self.range {
                return;
            }
        }
    }

    /// A solution far from both ends of what is possible: the lengths it asks for halve what rounding to the
    /// rows still hides.
    fn middle(mut self, mark: i64) -> Vec<i64> {
        self.settle();
        for at in 0..self.range.len() {
            let (lo, hi) = self.range[at];
            let middle = lo + (hi - lo) / 2 / mark * mark;
            self.range[at] = (middle, middle);
            self.settle();
        }
        self.range.iter().map(|r| r.0).collect()
    }
}

#[cfg(test)]
#[path = "placing/tests.rs"]
mod tests;
