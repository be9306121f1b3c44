//! `Chain`: one line with its number of splices settled, in whole saw marks of metal before each
//! splice. Centres are compared exactly: centre j = c·mark + (2j − 1)·slack/2m, times 2m.

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
}

/// ⌈a / b⌉ for b > 0.
fn ceil(a: i128, b: i128) -> i128 {
    -(-a).div_euclid(b)
}

/// Back to the width of positions; sizes are judged first, so this never saturates in earnest.
fn narrow(n: i128) -> i64 {
    i64::try_from(n).unwrap_or(if n < 0 { i64::MIN / 8 } else { i64::MAX / 8 })
}

impl<'a> Chain<'a> {
    /// A line with m splices whose pieces fit `longest` ticks; `None` when no metal is left.
    pub(super) fn new(line: &'a Line, m: u32, mark: i64, longest: i64) -> Option<Chain<'a>> {
        let m = i64::from(m);
        let metal = (line.length - m * line.gap).div_euclid(mark);
        (metal > 0).then(|| Chain {
            line,
            m,
            mark,
            metal,
            slack: line.length - metal * mark,
            least: narrow(ceil(line.least_piece.into(), mark.into())).max(1),
            longest: longest.div_euclid(mark),
        })
    }

    /// (2j − 1)·slack: what lies before centre j besides metal, times 2m.
    fn gaps(&self, j: i64) -> i128 {
        i128::from(2 * j - 1) * i128::from(self.slack)
    }

    /// Marks of metal before splice j that put its centre inside a slot. An end that another slot holds
    /// cheaper (or as cheap, and earlier) belongs to that one.
    pub(super) fn range(&self, j: i64, index: usize) -> (i64, i64) {
        let slot = &self.line.slots[index];
        let mine = |end: i64| {
            let slots = self.line.slots.iter().enumerate();
            let mut holding = slots.filter(|(_, s)| s.lo <= end && end <= s.hi);
            holding.all(|(i, s)| (slot.charge, index) <= (s.charge, i))
        };
        let twice = i128::from(2 * self.m);
        let by = twice * i128::from(self.mark);
        let least = twice * i128::from(slot.lo) - self.gaps(j) + i128::from(!mine(slot.lo));
        let most = twice * i128::from(slot.hi) - self.gaps(j) - i128::from(!mine(slot.hi));
        (narrow(ceil(least, by)), narrow(most.div_euclid(by)))
    }

    /// Least marks between splices j and j + 2: their centres are over `three_over` apart.
    pub(super) fn third(&self) -> i64 {
        let m = i128::from(self.m);
        let over = i128::from(self.line.three_over) * m - 2 * i128::from(self.slack);
        narrow(over.div_euclid(m * i128::from(self.mark)) + 1)
    }

    /// Every choice of slots, one zone each, ascending, that plain ranges do not rule out.
    pub(super) fn choices(&self, steps: &mut u64) -> Vec<Vec<usize>> {
        let mut out = Vec::new();
        self.choose(&mut Vec::new(), (0, 0), steps, &mut out);
        out
    }

    fn choose(
        &self,
        taken: &mut Vec<usize>,
        (lo, hi): (i64, i64),
        steps: &mut u64,
        out: &mut Vec<Vec<usize>>,
    ) {
        *steps = steps.saturating_sub(1);
        let j = i64::try_from(taken.len()).unwrap_or(i64::MAX) + 1;
        if j > self.m {
            out.push(taken.clone());
            return;
        }
        let from = taken.last().map_or(0, |s| s + 1);
        let behind = self.m + 1 - j;
        for slot in from..self.line.slots.len() {
            if *steps == 0 {
                return;
            }
            let zone = self.line.slots[slot].zone;
            if taken.iter().any(|s| self.line.slots[*s].zone == zone) {
                continue;
            }
            let (a, b) = self.range(j, slot);
            let a = a
                .max(lo + self.least)
                .max(self.metal - behind * self.longest);
            let b = b
                .min(hi + self.longest)
                .min(self.metal - behind * self.least);
            if a <= b {
                taken.push(slot);
                self.choose(taken, (a, b), steps, out);
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
