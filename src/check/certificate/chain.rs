//! `Chain`: one line with its number of splices settled, in whole saw marks of metal before each
//! splice. Centres are compared exactly: centre j = c·mark + (2j − 1)·slack/2m, times 2m.

use std::rc::Rc;

use crate::nest::{Group, Line};

/// A line with m ≥ 1 splices.
#[derive(Clone, Debug)]
pub(super) struct Chain<'a> {
    pub(super) line: &'a Line,
    /// Splices.
    pub(super) m: i64,
    /// Saw mark, ticks.
    pub(super) mark: i64,
    /// All pieces together, marks.
    pub(super) metal: i64,
    /// What the gaps take up together, ticks.
    slack: i64,
    /// Least and longest piece, marks.
    pub(super) least: i64,
    pub(super) longest: i64,
    /// Marks of metal before splice j that put its centre inside a slot, all slots of splice 1 first.
    ranges: Rc<[(i64, i64)]>,
}

/// ⌈a / b⌉ for b > 0.
fn ceil(a: i128, b: i128) -> i128 {
    -(-a).div_euclid(b)
}

/// Back to the width of positions; sizes are judged first, so this never saturates in earnest.
fn narrow(n: i128) -> i64 {
    i64::try_from(n).unwrap_or(if n < 0 { i64::MIN / 8 } else { i64::MAX / 8 })
}

/// Choices of slots of one line that are held at once: some hundred megabytes at most. A group with more is
/// given up as too large to verify.
const MOST_CHOICES: usize = 2_000_000;

/// A slot as it counts: an end that another slot holds cheaper (or as cheap, and earlier) belongs to that
/// one.
struct Extent {
    lo: i64,
    hi: i64,
    with_lo: bool,
    with_hi: bool,
}

impl Extent {
    fn of(line: &Line, index: usize) -> Extent {
        let slot = &line.slots[index];
        let mine = |end: i64| {
            let slots = line.slots.iter().enumerate();
            let mut holding = slots.filter(|(_, s)| s.lo <= end && end <= s.hi);
            holding.all(|(i, s)| (slot.charge, index) <= (s.charge, i))
        };
        Extent {
            lo: slot.lo,
            hi: slot.hi,
            with_lo: mine(slot.lo),
            with_hi: mine(slot.hi),
        }
    }
}

/// A slot that a splice can stand in, with the marks of metal before it.
#[derive(Clone, Copy)]
struct Candidate {
    slot: usize,
    zone: u32,
    lo: i64,
    hi: i64,
}

impl<'a> Chain<'a> {
    /// A line with m splices whose pieces fit `longest` ticks; `None` when no metal is left.
    pub(super) fn new(line: &'a Line, m: u32, mark: i64, longest: i64) -> Option<Chain<'a>> {
        let m = i64::from(m);
        let metal = (line.length - m * line.gap).div_euclid(mark);
        let mut chain = Chain {
            line,
            m,
            mark,
            metal,
            slack: line.length - metal * mark,
            least: narrow(ceil(line.least_piece.into(), mark.into())).max(1),
            longest: longest.div_euclid(mark),
            ranges: Rc::from([]),
        };
        let slots = 0..line.slots.len();
        let extents: Vec<Extent> = slots.map(|slot| Extent::of(line, slot)).collect();
        let all = (1..=m).flat_map(|j| extents.iter().map(move |extent| (j, extent)));
        let ranges: Vec<(i64, i64)> = all.map(|(j, e)| chain.marks_before(j, e)).collect();
        chain.ranges = ranges.into();
        (metal > 0).then_some(chain)
    }

    /// (2j − 1)·slack: what lies before centre j besides metal, times 2m.
    fn gaps(&self, j: i64) -> i128 {
        i128::from(2 * j - 1) * i128::from(self.slack)
    }

    /// Marks of metal before splice j that put its centre inside a slot.
    pub(super) fn range(&self, j: i64, index: usize) -> (i64, i64) {
        let splices_before = usize::try_from(j - 1).unwrap_or(usize::MAX);
        let at = splices_before.saturating_mul(self.line.slots.len()) + index;
        self.ranges.get(at).copied().unwrap_or((0, -1))
    }

    /// Least and most marks before splice j that put its centre inside an extent.
    fn marks_before(&self, j: i64, extent: &Extent) -> (i64, i64) {
        let twice = i128::from(2 * self.m);
        let by = twice * i128::from(self.mark);
        let least = twice * i128::from(extent.lo) - self.gaps(j) + i128::from(!extent.with_lo);
        let most = twice * i128::from(extent.hi) - self.gaps(j) - i128::from(!extent.with_hi);
        (narrow(ceil(least, by)), narrow(most.div_euclid(by)))
    }

    /// Least marks between splices j and j + 2: their centres are over `three_over` apart.
    pub(super) fn third(&self) -> i64 {
        let m = i128::from(self.m);
        let over = i128::from(self.line.three_over) * m - 2 * i128::from(self.slack);
        narrow(over.div_euclid(m * i128::from(self.mark)) + 1)
    }

    /// Every choice of slots, one zone each, ascending, that plain ranges do not rule out; `steps` falls to
    /// 0 where there are more than can be held.
    pub(super) fn choices(&self, steps: &mut u64) -> Vec<Vec<usize>> {
        let levels: Vec<Vec<Candidate>> = (1..=self.m).map(|j| self.candidates(j)).collect();
        let mut out = Vec::new();
        self.choose(&levels, &mut Vec::new(), (0, 0), steps, &mut out);
        out
    }

    /// The slots that splice j can stand in, whatever the others do: what lies behind it must come out of
    /// the pieces that are left.
    fn candidates(&self, j: i64) -> Vec<Candidate> {
        let behind = self.m + 1 - j;
        let all = self.line.slots.iter().enumerate();
        let ranges = all.map(|(slot, s)| {
            let (lo, hi) = self.range(j, slot);
            Candidate {
                slot,
                zone: s.zone,
                lo: lo.max(self.metal - behind * self.longest),
                hi: hi.min(self.metal - behind * self.least),
            }
        });
        ranges.filter(|c| c.lo <= c.hi).collect()
    }

    fn choose(
        &self,
        levels: &[Vec<Candidate>],
        taken: &mut Vec<Candidate>,
        (lo, hi): (i64, i64),
        steps: &mut u64,
        out: &mut Vec<Vec<usize>>,
    ) {
        *steps = steps.saturating_sub(1);
        let Some((level, behind)) = levels.split_first() else {
            out.push(taken.iter().map(|c| c.slot).collect());
            if out.len() > MOST_CHOICES {
                *steps = 0;
            }
            return;
        };
        let from = taken.last().map_or(0, |c| c.slot + 1);
        for candidate in level.iter().filter(|c| c.slot >= from) {
            if *steps == 0 {
                return;
            }
            if taken.iter().any(|c| c.zone == candidate.zone) {
                continue;
            }
            let a = candidate.lo.max(lo + self.least);
            let b = candidate.hi.min(hi + self.longest);
            if a <= b {
                taken.push(*candidate);
                self.choose(behind, taken, (a, b), steps, out);
                taken.pop();
            }
        }
    }
}

/// Least marks by which the metal before splice `jb` of `b` exceeds that before splice `ja` of `a`
/// so that the first centre lies `apart` behind the second.
pub(super) fn apart(group: &Group, (b, jb): (&Chain<'_>, i64), (a, ja): (&Chain<'_>, i64)) -> i64 {
    let (ma, mb) = (i128::from(a.m), i128::from(b.m));
    let need = i128::from(group.apart) * 2 * ma * mb - b.gaps(jb) * ma + a.gaps(ja) * mb;
    narrow(ceil(need, 2 * ma * mb * i128::from(a.mark)))
}
