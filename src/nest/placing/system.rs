//! Positions tied by differences, of one whole configuration, and a solution in the middle of what they allow.

/// Positions tied by differences, of one whole configuration.
#[derive(Default)]
pub(super) struct System {
    range: Vec<(i64, i64)>,
    /// (earlier, later, least difference, most).
    ties: Vec<(usize, usize, Option<i64>, Option<i64>)>,
}

impl System {
    pub fn add(&mut self, range: (i64, i64)) -> usize {
        self.range.push(range);
        self.range.len() - 1
    }

    pub fn tie(&mut self, one: usize, other: usize, (least, most): (Option<i64>, Option<i64>)) {
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
    pub fn middle(mut self, mark: i64) -> Vec<i64> {
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
