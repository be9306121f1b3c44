//! A small reproducible sequence of numbers, for random weeks that are the same on every run.
#![allow(dead_code)]

use longpoint::measure::Length;

/// Linear congruence with Knuth's MMIX figures (*The Art of Computer Programming*, vol. 2, 3.3.4).
pub struct Dice(pub u64);

impl Dice {
    /// A number from 0 up to, not including, `n`.
    pub fn below(&mut self, n: u64) -> u64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % n
    }

    /// True once in so many throws.
    pub fn whether(&mut self, one_in: u64) -> bool {
        self.below(one_in) == 0
    }

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
