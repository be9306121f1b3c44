//! Difference-bound matrix (D. Dill 1989): what is known of a few positions, as the most by which each exceeds
//! each other. Closed by shortest ways, so every entry is exact and an empty set shows at once.

/// No bound.
const FREE: i64 = i64::MAX / 4;
/// The start and, per line, its last splice and the one before that.
const POSITIONS: usize = 5;

/// The start of both lines.
pub(super) const START: usize = 0;

/// The last splice placed of a line (0 or 1).
pub(super) fn last(line: usize) -> usize {
    1 + 2 * line
}

/// The one before it.
pub(super) fn last_but_one(line: usize) -> usize {
    2 + 2 * line
}

/// `most[x][y]`: the most of x − y. Positions that are not placed yet stand at the start.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Differences {
    most: [[i64; POSITIONS]; POSITIONS],
}

/// A new position is this much or more, and no more than that, behind another.
#[derive(Clone, Copy, Debug)]
pub(super) struct Behind {
    pub other: usize,
    pub least: Option<i64>,
    pub most: Option<i64>,
}

impl Differences {
    /// Nothing placed.
    pub fn none() -> Differences {
        Differences {
            most: [[0; POSITIONS]; POSITIONS],
        }
    }

    /// Least and greatest of a position.
    pub fn range(&self, of: usize) -> (i64, i64) {
        (-self.most[START][of], self.most[of][START])
    }

    /// Places the next splice of a line; `None` where nothing is left.
    pub fn place(&self, line: usize, ties: &[Behind]) -> Option<Differences> {
        let (mut up, mut down) = ([FREE; POSITIONS], [FREE; POSITIONS]);
        for tie in ties {
            let most = tie.most.unwrap_or(FREE);
            up[tie.other] = up[tie.other].min(most);
            down[tie.other] = down[tie.other].min(tie.least.map_or(FREE, |l| -l));
        }
        let (mut over, mut under) = (up, down);
        for v in 0..POSITIONS {
            for w in 0..POSITIONS {
                over[v] = over[v].min(up[w].saturating_add(self.most[w][v]));
                under[v] = under[v].min(down[w].saturating_add(self.most[v][w]));
            }
        }
        if (0..POSITIONS).any(|v| over[v].saturating_add(under[v]) < 0) {
            return None;
        }
        let mut next = *self;
        for (row, under) in next.most.iter_mut().zip(&under) {
            for (most, over) in row.iter_mut().zip(&over) {
                *most = (*most).min(under.saturating_add(*over));
            }
        }
        let (new, old) = (last(line), last_but_one(line));
        for v in 0..POSITIONS {
            next.most[old][v] = next.most[new][v];
            next.most[v][old] = next.most[v][new];
        }
        next.most[old][old] = 0;
        for v in (0..POSITIONS).filter(|v| *v != new) {
            let (over, under) = if v == old {
                (over[new], under[new])
            } else {
                (over[v], under[v])
            };
            next.most[new][v] = over;
            next.most[v][new] = under;
        }
        Some(next)
    }

    /// Whether every position here is one of the other's, too.
    pub fn is_within(&self, other: &Differences) -> bool {
        let mut both = self.most.iter().flatten().zip(other.most.iter().flatten());
        both.all(|(mine, theirs)| mine <= theirs)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tie(other: usize, least: i64, most: i64) -> Behind {
        Behind {
            other,
            least: Some(least),
            most: Some(most),
        }
    }

    #[test]
    fn a_later_splice_narrows_an_earlier_one() {
        let one = Differences::none().place(0, &[tie(START, 10, 50)]);
        let one = one.expect("there is room");
        assert_eq!(one.range(last(0)), (10, 50));
        let two = one.place(0, &[tie(START, 70, 80), tie(last(0), 0, 30)]);
        let two = two.expect("there is room");
        assert_eq!(two.range(last(0)), (70, 80));
        assert_eq!(two.range(last_but_one(0)), (40, 50));
        let other = two.place(1, &[tie(last(0), 5, 9)]).expect("there is room");
        assert_eq!(other.range(last(1)), (75, 89));
        assert!(
            two.place(1, &[tie(last_but_one(0), 0, 9), tie(START, 60, 99)])
                .is_none()
        );
        assert!(two.is_within(&two) && !one.is_within(&two));
    }
}
