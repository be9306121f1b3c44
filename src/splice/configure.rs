//! Find one way of splicing a set: positions that meet every rule at once, on whole saw marks.
//!
//! Depth-first over the choice of window for each splice; with the windows chosen the rest is a
//! system of difference constraints on whole marks, whose least (or greatest) solution follows by
//! relaxation (Bellman and Ford). Exact integers throughout: centres are compared × 2m.

use super::{SpliceLine, Window};
use crate::measure::Length;

/// Figures that hold for every line of a set.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Terms {
    /// Root gap g.
    pub gap: Length,
    /// Saw mark.
    pub mark: Length,
    /// Longest piece: what the longest joint holds.
    pub longest: Length,
    /// Splices of the two lines stay this far apart.
    pub apart: Length,
    /// The two lines share no bay.
    pub exclusive: bool,
    /// Of three consecutive splices the first and third are over this apart.
    pub three_over: Length,
}

/// Which of the ways to prefer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Prefer {
    /// Splices toward the latch end.
    Latch,
    /// Splices toward the tail: the first joints are used to the full.
    Tail,
}

/// Choices looked at before a search is given up: far above any gate's need.
const MOST_CHOICES: u32 = 2_000_000;

/// Fewest splices of a line that needs one: m with floor(long − m·g) ≤ (m + 1)·floor(U), both
/// floored to the mark. `None` when no number up to 1,000 will do.
pub(crate) fn fewest(long: Length, terms: &Terms) -> Option<u32> {
    let most = terms.longest.down_to(terms.mark);
    (1..1_000u32).find(|m| {
        let metal = (long - terms.gap * i64::from(*m)).down_to(terms.mark);
        metal <= most * (i64::from(*m) + 1)
    })
}

/// Piece lengths of a line with splices at `cuts` whole marks of metal from its start.
fn pieces(line: &Laid, at: &[i64], mark: Length) -> Vec<Length> {
    let mut out = Vec::with_capacity(at.len() + 1);
    let mut before = 0;
    for s in at.iter().chain([&line.metal]) {
        out.push(mark * (s - before));
        before = *s;
    }
    out
}

/// A line with its number of splices settled; metal lengths in marks.
struct Laid<'a> {
    windows: &'a [Window],
    splices: i64,
    /// P in marks.
    metal: i64,
    /// long − P in ticks: what the gaps take up together.
    slack: i64,
    least: i64,
    most: i64,
}

impl<'a> Laid<'a> {
    fn new(line: &'a SpliceLine, splices: u32, terms: &Terms) -> Option<Laid<'a>> {
        let m = i64::from(splices);
        let mark = terms.mark.ticks().max(1);
        let metal = (line.long - terms.gap * m).down_to(terms.mark);
        (metal > Length::ZERO).then(|| Laid {
            windows: &line.windows,
            splices: m,
            metal: metal.ticks() / mark,
            slack: (line.long - metal).ticks(),
            least: line.least_piece.up_to(terms.mark).ticks() / mark,
            most: terms.longest.down_to(terms.mark).ticks() / mark,
        })
    }

    /// 2m × (centre of splice j − metal before it): (2j − 1)(long − P).
    fn offset(&self, j: i64) -> i64 {
        (2 * j - 1) * self.slack
    }

    /// Whole marks of metal before splice j that put its centre inside a window.
    fn range(&self, j: i64, window: &Window, mark: i64) -> (i64, i64) {
        let over = 2 * self.splices;
        let lo = window.lo.ticks() * over - self.offset(j);
        let hi = window.hi.ticks() * over - self.offset(j);
        (ceil_div(lo, over * mark), hi.div_euclid(over * mark))
    }
}

fn ceil_div(a: i64, b: i64) -> i64 {
    -(-a).div_euclid(b)
}

/// One splice placed in a window: its bounds and what ties it to those before it.
#[derive(Clone)]
struct Placed {
    line: usize,
    j: i64,
    bay: u32,
    window_lo: Length,
    lo: i64,
    hi: i64,
}

/// s[hi] − s[lo] ≥ by.
#[derive(Clone, Copy)]
struct Tie {
    lo: usize,
    hi: usize,
    by: i64,
}

struct Search<'a> {
    lines: Vec<Laid<'a>>,
    terms: &'a Terms,
    prefer: Prefer,
    choices: u32,
    placed: Vec<Placed>,
    ties: Vec<Tie>,
}

/// One way of splicing lines with exactly `splices[i]` splices in line i, as piece lengths per line;
/// `None` when there is none (or none was found within a large fixed number of choices). A line
/// with no splice gives no pieces.
pub(crate) fn configure(
    lines: &[SpliceLine],
    splices: &[u32],
    terms: &Terms,
    prefer: Prefer,
) -> Option<Vec<Vec<Length>>> {
    let laid = lines
        .iter()
        .zip(splices)
        .map(|(line, m)| Laid::new(line, *m, terms))
        .collect::<Option<Vec<_>>>()?;
    let mut search = Search {
        lines: laid,
        terms,
        prefer,
        choices: 0,
        placed: Vec::new(),
        ties: Vec::new(),
    };
    let solution = search.place(0, 1)?;
    let mut out = Vec::new();
    for (index, line) in search.lines.iter().enumerate() {
        let at: Vec<i64> = solution
            .iter()
            .filter(|(l, _)| *l == index)
            .map(|(_, s)| *s)
            .collect();
        out.push(if at.is_empty() {
            Vec::new()
        } else {
            pieces(line, &at, terms.mark)
        });
    }
    Some(out)
}

impl Search<'_> {
    /// Place splice j of a line and all after it.
    fn place(&mut self, line: usize, j: i64) -> Option<Vec<(usize, i64)>> {
        let Some(laid) = self.lines.get(line) else {
            return self.settled();
        };
        if j > laid.splices {
            return self.place(line + 1, 1);
        }
        let mut order: Vec<usize> = (0..laid.windows.len()).collect();
        if self.prefer == Prefer::Tail {
            order.reverse();
        }
        for w in order {
            if self.choices >= MOST_CHOICES {
                return None;
            }
            let (placed, ties) = (self.placed.len(), self.ties.len());
            for flip in [false, true] {
                self.choices += 1;
                if self.put(line, j, w, flip)
                    && self.bounds().is_some()
                    && let Some(found) = self.place(line, j + 1)
                {
                    return Some(found);
                }
                let same_bay_partner = self.placed[..placed]
                    .iter()
                    .any(|p| p.line != line && p.bay == self.lines[line].windows[w].bay);
                self.placed.truncate(placed);
                self.ties.truncate(ties);
                if !same_bay_partner {
                    break;
                }
            }
        }
        None
    }

    /// Put splice j in window w; false when the window is out of the question at once. `flip` puts
    /// it on the latch side of the other line's splice in the same bay.
    fn put(&mut self, line: usize, j: i64, w: usize, flip: bool) -> bool {
        let laid = &self.lines[line];
        let window = &laid.windows[w];
        let mark = self.terms.mark.ticks().max(1);
        let (lo, hi) = laid.range(j, window, mark);
        let ahead = laid.splices + 1 - j;
        let lo = lo.max(laid.metal - ahead * laid.most).max(j * laid.least);
        let hi = hi.min(laid.metal - ahead * laid.least).min(j * laid.most);
        if lo > hi {
            return false;
        }
        let me = self.placed.len();
        let new = Placed {
            line,
            j,
            bay: window.bay,
            window_lo: window.lo,
            lo,
            hi,
        };
        let Some(ties) = self.ties(me, &new, flip) else {
            return false;
        };
        self.placed.push(new);
        self.ties.extend(ties);
        true
    }

    /// What ties a new splice (numbered `me`) to those already placed; `None` when its bay is taken.
    fn ties(&self, me: usize, new: &Placed, flip: bool) -> Option<Vec<Tie>> {
        let laid = &self.lines[new.line];
        let tie = |lo: usize, hi: usize, by: i64| Tie { lo, hi, by };
        let mut ties = Vec::new();
        for (other, p) in self.placed.iter().enumerate() {
            let same_bay = p.bay == new.bay;
            if p.line == new.line {
                if same_bay {
                    return None;
                }
                if p.j + 1 == new.j {
                    ties.push(tie(other, me, laid.least));
                    ties.push(tie(me, other, -laid.most));
                } else if p.j + 2 == new.j {
                    ties.push(tie(other, me, self.third(laid)));
                }
            } else {
                if same_bay && self.terms.exclusive {
                    return None;
                }
                let after = (p.bay, p.window_lo) <= (new.bay, new.window_lo);
                ties.push(if after != (flip && same_bay) {
                    tie(other, me, self.apart((p, new)))
                } else {
                    tie(me, other, self.apart((new, p)))
                });
            }
        }
        Some(ties)
    }

    /// Least whole marks between splices j and j + 2 of a line.
    fn third(&self, laid: &Laid) -> i64 {
        let m = laid.splices;
        let over = self.terms.three_over.ticks() * m - 2 * laid.slack;
        over.div_euclid(m * self.terms.mark.ticks().max(1)) + 1
    }

    /// Least whole marks by which the metal before the second exceeds that before the first.
    fn apart(&self, (first, second): (&Placed, &Placed)) -> i64 {
        let (a, b) = (&self.lines[first.line], &self.lines[second.line]);
        let need = self.terms.apart.ticks() * 2 * a.splices * b.splices
            + a.offset(first.j) * b.splices
            - b.offset(second.j) * a.splices;
        let over = 2 * a.splices * b.splices * self.terms.mark.ticks().max(1);
        ceil_div(need, over)
    }

    /// Tight bounds of every splice placed so far; `None` when they contradict.
    fn bounds(&self) -> Option<(Vec<i64>, Vec<i64>)> {
        let mut lo: Vec<i64> = self.placed.iter().map(|p| p.lo).collect();
        let mut hi: Vec<i64> = self.placed.iter().map(|p| p.hi).collect();
        for _ in 0..=self.placed.len() {
            let mut moved = false;
            for t in &self.ties {
                if lo[t.lo] + t.by > lo[t.hi] {
                    lo[t.hi] = lo[t.lo] + t.by;
                    moved = true;
                }
                if hi[t.hi] - t.by < hi[t.lo] {
                    hi[t.lo] = hi[t.hi] - t.by;
                    moved = true;
                }
            }
            if lo.iter().zip(&hi).any(|(l, h)| l > h) {
                return None;
            }
            if !moved {
                return Some((lo, hi));
            }
        }
        None
    }

    /// The least or the greatest solution, as (line, metal before the splice in marks).
    fn settled(&self) -> Option<Vec<(usize, i64)>> {
        let (lo, hi) = self.bounds()?;
        let at = if self.prefer == Prefer::Latch { lo } else { hi };
        Some(
            self.placed
                .iter()
                .zip(at)
                .map(|(p, s)| (p.line, s))
                .collect(),
        )
    }
}
