//! The least cost to complete a line from each of its splices on: a label program over runs of positions.
//!
//! With m splices, v_j(x) is the least that the splices behind splice j and all pieces behind it cost when
//! splice j is cut at x: v_j(x) = min over y of f(y − x) + charge(y) + v_{j+1}(y), f the step price. Where x
//! lies in a run and f on a step, the value is one number, so labels hold runs of positions and the work
//! follows the number of runs, however fine the mark is. As f never falls, a step may be read as "at most so
//! long": a shorter piece only costs less, by an earlier step. Runs are laid cheapest first and each keeps what
//! it covers first: the lower envelope.
//!
//! The three-splice rule and the other line are left out here, so values are lower bounds (see `placing.rs`).

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};

use super::lattice::{Stretch, least_piece, pieces_sum, stretches};
use super::price::Price;
use super::problem::Line;

/// Positions of one stretch from which completing the line costs the same.
#[derive(Clone, Copy, Debug)]
struct Run {
    from: i64,
    to: i64,
    stretch: usize,
    value: i64,
}

/// One line with its number of splices settled.
#[derive(Clone, Debug)]
pub(super) struct ToGo {
    /// Splices.
    pub splices: u32,
    /// What the pieces sum to.
    pub total: i64,
    /// Least piece of a spliced line, on the mark.
    pub least_piece: i64,
    /// (longest piece, value) by rising length and value, on the mark.
    pub steps: Vec<(i64, i64)>,
    /// Where splice j may stand: index j − 1. One more for the line's end.
    pub places: Vec<Vec<Stretch>>,
    runs: Vec<Vec<Run>>,
    /// The least cost of the whole line, money per splice aside; `None`: it has no way.
    pub least: Option<i64>,
}

/// Steps of a budget that a label counts.
const A_LABEL: u64 = 30;

impl ToGo {
    /// A line with m splices under a price of pieces; charges count `scale` times. Steps are added to `work`.
    pub fn new(
        line: &Line,
        (mark, unit): (i64, i64),
        price: &Price,
        (m, scale): (u32, i64),
        work: &mut u64,
    ) -> ToGo {
        let down = |at: i64| at.div_euclid(mark) * mark;
        let least_piece = -down(-least_piece(line, mark));
        let steps = price.steps.iter().map(|s| (down(s.hi), s.value));
        let mut out = ToGo {
            splices: m,
            total: pieces_sum(line, mark, m.max(1)),
            least_piece,
            steps: steps.filter(|s| s.0 >= least_piece).collect(),
            places: Vec::new(),
            runs: Vec::new(),
            least: None,
        };
        *work += A_LABEL;
        if m == 0 {
            out.least = price.of(line.whole);
            return out;
        }
        let Some(&(longest, _)) = out.steps.last() else {
            return out;
        };
        for j in 1..=m {
            let reach = out.reach((m, j), longest);
            let all = stretches(line, mark, unit, (m, j), &[]);
            *work += all.len() as u64 * 4;
            let cut = |s: &Stretch| Stretch {
                from: s.from.max(reach.0),
                to: s.to.min(reach.1),
                ..*s
            };
            let places: Vec<Stretch> = all.iter().map(cut).filter(|s| s.from <= s.to).collect();
            out.places.push(places);
        }
        out.places.push(vec![Stretch {
            from: out.total,
            to: out.total,
            zone: u32::MAX,
            charge: 0,
        }]);
        out.fill((mark, scale), work);
        out
    }

    /// Where splice j of m may stand for the pieces on either side to be neither too short nor too long.
    fn reach(&self, (m, j): (u32, u32), longest: i64) -> (i64, i64) {
        let (before, after) = (i64::from(j), i64::from(m + 1 - j));
        let far = self.total.saturating_sub(longest.saturating_mul(after));
        let near = self.total - after * self.least_piece;
        (
            far.max(before * self.least_piece),
            near.min(longest.saturating_mul(before)),
        )
    }

    /// Labels from the end to the start.
    fn fill(&mut self, (mark, scale): (i64, i64), work: &mut u64) {
        let end = Run {
            from: self.total,
            to: self.total,
            stretch: 0,
            value: 0,
        };
        let mut layers = vec![vec![end]];
        for j in (1..self.places.len()).rev() {
            let next = layers.last().expect("the end is there");
            let here = self.before(next, j, (mark, scale), work);
            layers.push(here);
        }
        layers.reverse();
        let first = &self.places[0];
        self.least = (layers[0].iter())
            .filter_map(|r| {
                let (_, piece) = self.steps.iter().find(|s| s.0 >= r.from)?;
                Some(piece + first[r.stretch].charge * scale + r.value)
            })
            .min();
        self.runs = layers;
    }

    /// Runs of splice j from those of what follows it.
    fn before(
        &self,
        next: &[Run],
        j: usize,
        (mark, scale): (i64, i64),
        work: &mut u64,
    ) -> Vec<Run> {
        let (places, after) = (&self.places[j - 1], &self.places[j]);
        let mut gaps: BTreeMap<i64, (i64, usize)> = BTreeMap::new();
        let mut zones: BTreeMap<u32, i64> = BTreeMap::new();
        for (s, place) in places.iter().enumerate() {
            gaps.insert(place.from, (place.to, s));
            zones.entry(place.zone).or_insert(place.from);
        }
        // Zones follow each other, so what stands in another zone in front of a splice ends before its zone.
        let latest = |run: &Run| {
            let zone = zones.get(&after[run.stretch].zone).map(|z| z - mark);
            (run.to - self.least_piece).min(zone.unwrap_or(i64::MAX))
        };
        let mut open: BinaryHeap<Reverse<(i64, usize, usize)>> = BinaryHeap::new();
        let arrival = |r: usize, k: usize| {
            let run = &next[r];
            run.value + after[run.stretch].charge * scale + self.steps[k].1
        };
        open.extend((0..next.len()).map(|r| Reverse((arrival(r, 0), r, 0))));
        let mut out: Vec<Run> = Vec::new();
        while let Some(Reverse((value, r, k))) = open.pop() {
            *work += A_LABEL;
            if gaps.is_empty() {
                break;
            }
            let (lo, hi) = (next[r].from - self.steps[k].0, latest(&next[r]));
            cover(&mut gaps, (lo, hi, mark), value, &mut out);
            if k + 1 < self.steps.len() {
                open.push(Reverse((arrival(r, k + 1), r, k + 1)));
            }
        }
        out.sort_unstable_by_key(|r| r.from);
        out
    }

    /// The least cost behind splice j (1-based; behind the end: nothing) cut in `from..=to` of one stretch.
    pub fn behind(&self, j: u32, (from, to): (i64, i64)) -> Option<i64> {
        let runs = &self.runs[j as usize - 1];
        let at = runs.partition_point(|r| r.to < from);
        let here = runs[at..].iter().take_while(|r| r.from <= to);
        here.map(|r| r.value).min()
    }
}

/// Gives what is still open of a span to a run of this value.
fn cover(
    gaps: &mut BTreeMap<i64, (i64, usize)>,
    (lo, hi, mark): (i64, i64, i64),
    value: i64,
    out: &mut Vec<Run>,
) {
    if lo > hi {
        return;
    }
    let touched: Vec<(i64, (i64, usize))> = gaps
        .range(..=hi)
        .rev()
        .take_while(|(_, gap)| gap.0 >= lo)
        .map(|(from, gap)| (*from, *gap))
        .collect();
    for (from, (to, stretch)) in touched {
        gaps.remove(&from);
        let (first, last) = (from.max(lo), to.min(hi));
        if from < first {
            gaps.insert(from, (first - mark, stretch));
        }
        if last < to {
            gaps.insert(last + mark, (to, stretch));
        }
        out.push(Run {
            from: first,
            to: last,
            stretch,
            value,
        });
    }
}
