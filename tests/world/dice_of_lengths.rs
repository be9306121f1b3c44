//! Dice that throw lengths too, for random weeks.
#![allow(dead_code, reason = "a binary may use only some of it")]

use crate::dice::Dice;
use longpoint::measure::Length;

impl Dice {
    /// Whole inches, both ends among them.
    pub fn inches(&mut self, from: u64, to: u64) -> Length {
        self.parts(1, from, to)
    }

    /// Sixteenths of an inch, both ends, in inches, among them.
    pub fn sixteenths(&mut self, from: u64, to: u64) -> Length {
        self.parts(16, from, to)
    }

    fn parts(&mut self, an_inch: u64, from: u64, to: u64) -> Length {
        let n = an_inch * from + self.below(an_inch * (to - from) + 1);
        Length::from_64ths(i64::try_from(64 / an_inch * n).expect("small"))
    }
}
