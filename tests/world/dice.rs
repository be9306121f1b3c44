//! A small reproducible sequence of numbers, the same on every run; of the tests here and inside the crate.
#![allow(dead_code, reason = "a binary may use only some of it")]

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

    /// The same for lengths and money.
    pub fn roll(&mut self, n: u64) -> i64 {
        i64::try_from(self.below(n)).expect("under 2^31")
    }

    /// The same for counts.
    pub fn count(&mut self, n: u64) -> u32 {
        u32::try_from(self.below(n)).expect("under 2^31")
    }

    /// True once in so many throws.
    pub fn whether(&mut self, one_in: u64) -> bool {
        self.below(one_in) == 0
    }
}
