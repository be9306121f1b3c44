//! `Worth`: what the duals pay for a piece of a spliced line by its length and class: the sum of
//! the rows at or under its length. Never falls with length, since no dual is negative.

/// Rows of one class, ascending by length.
#[derive(Clone, Debug, Default)]
pub(super) struct Worth {
    /// (length from which on, worth of a piece of at least that length).
    steps: Vec<(i64, i128)>,
}

impl Worth {
    /// The rows of one class.
    pub(super) fn of_class(rows: &[(i64, u8, i64)], class: u8) -> Worth {
        let mut rows: Vec<(i64, i64)> = rows
            .iter()
            .filter(|(_, c, _)| *c == class)
            .map(|(length, _, dual)| (*length, *dual))
            .collect();
        rows.sort_unstable();
        let mut steps: Vec<(i64, i128)> = Vec::new();
        let mut sum = 0i128;
        for (length, dual) in rows {
            sum += i128::from(dual);
            match steps.last_mut() {
                Some(last) if last.0 == length => last.1 = sum,
                _ => steps.push((length, sum)),
            }
        }
        Worth { steps }
    }

    /// What a piece of this length is paid.
    pub(super) fn of(&self, length: i64) -> i128 {
        let under = self.steps.partition_point(|(l, _)| *l <= length);
        under.checked_sub(1).map_or(0, |i| self.steps[i].1)
    }

    /// The least length over `length` that is paid more.
    pub(super) fn next_rise(&self, length: i64) -> Option<i64> {
        let now = self.of(length);
        let over = self.steps.partition_point(|(l, _)| *l <= length);
        self.steps[over..].iter().find(|s| s.1 > now).map(|s| s.0)
    }

    /// Lengths at which the worth rises.
    pub(super) fn rises(&self) -> impl Iterator<Item = i64> + '_ {
        self.steps.iter().map(|s| s.0)
    }
}
