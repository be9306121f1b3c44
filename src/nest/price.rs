//! What a piece of a spliced line costs by its length: a step function that never falls, as the duals
//! of the cumulative length rows give it (a longer piece serves a shorter need).

/// A step [lo, hi] of piece lengths at one value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Step {
    /// Shortest length of the step.
    pub lo: i64,
    /// Longest length of the step.
    pub hi: i64,
    /// Value of every length in it.
    pub value: i64,
}

/// Steps ascending without holes from length 1 to the longest piece that fits any stock.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Price {
    /// The steps; empty when nothing fits.
    pub steps: Vec<Step>,
}

impl Price {
    /// From jumps (length from which on, amount ≥ 0), ascending by length, and the longest piece.
    pub fn new(jumps: &[(i64, i64)], longest: i64) -> Price {
        let mut steps: Vec<Step> = Vec::new();
        if longest >= 1 {
            steps.push(Step {
                lo: 1,
                hi: longest,
                value: 0,
            });
        }
        for &(at, amount) in jumps.iter().filter(|j| j.1 > 0 && j.0 <= longest) {
            let at = at.max(1);
            match steps.last_mut() {
                Some(last) if last.lo == at => last.value += amount,
                Some(last) => {
                    let value = last.value + amount;
                    last.hi = at - 1;
                    steps.push(Step {
                        lo: at,
                        hi: longest,
                        value,
                    });
                }
                None => {}
            }
        }
        Price { steps }
    }

    /// Value of a piece; `None` when it fits no stock.
    pub fn of(&self, length: i64) -> Option<i64> {
        self.step(length).map(|s| s.value)
    }

    /// From `at` to the end of its step a piece costs what the next step costs; false when it is the start
    /// of its step or in the last one.
    pub fn raise(&mut self, at: i64) -> bool {
        let after = self.steps.partition_point(|s| s.lo <= at);
        let (Some(here), Some(&next)) = (after.checked_sub(1), self.steps.get(after)) else {
            return false;
        };
        if self.steps[here].lo == at {
            return false;
        }
        self.steps[here].hi = at - 1;
        self.steps[after].lo = at;
        next.value > self.steps[here].value
    }

    /// The step a length lies in.
    pub fn step(&self, length: i64) -> Option<&Step> {
        let after = self.steps.partition_point(|s| s.lo <= length);
        self.steps
            .get(after.checked_sub(1)?)
            .filter(|s| length <= s.hi)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_add_up_and_end() {
        let price = Price::new(&[(10, 3), (20, 0), (20, 4), (50, 9)], 40);
        let values: Vec<_> = [1, 9, 10, 19, 20, 40, 41].map(|l| price.of(l)).to_vec();
        let wanted = [Some(0), Some(0), Some(3), Some(3), Some(7), Some(7), None];
        assert_eq!(values, wanted);
    }
}
