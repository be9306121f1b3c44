//! Counts of several kinds packed into one number: contents are added and compared in a step.
//!
//! Each kind has as many bits as its most needs and one over, so a sum of two contents never runs into the
//! next kind and one subtraction tells whether any count is past its most.

/// Packed counts.
pub(super) type Content = u128;

/// Where each kind lies, and its most.
#[derive(Clone, Debug)]
pub(super) struct Kinds {
    shift: Vec<u32>,
    most: Vec<u32>,
    all: Content,
    guards: Content,
}

impl Kinds {
    /// Kinds by their most; `None` where they do not fit one number.
    pub fn new(most: &[u32]) -> Option<Kinds> {
        let mut kinds = Kinds {
            shift: Vec::new(),
            most: most.to_vec(),
            all: 0,
            guards: 0,
        };
        let mut at = 0;
        for &most in most {
            let bits = 32 - most.leading_zeros();
            if at + bits + 1 > Content::BITS {
                return None;
            }
            kinds.shift.push(at);
            kinds.all |= Content::from(most) << at;
            kinds.guards |= 1 << (at + bits);
            at += bits + 1;
        }
        Some(kinds)
    }

    /// One of a kind.
    pub fn one(&self, kind: usize) -> Content {
        1 << self.shift[kind]
    }

    /// How many of a kind; no more than twice its most.
    pub fn count(&self, content: Content, kind: usize) -> u32 {
        let bits = 33 - self.most[kind].leading_zeros();
        let field = content >> self.shift[kind] & ((1 << bits) - 1);
        u32::try_from(field).unwrap_or(u32::MAX)
    }

    /// No count of a sum of two contents is past its most.
    pub fn holds(&self, sum: Content) -> bool {
        (self.all | self.guards).wrapping_sub(sum) & self.guards == self.guards
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sums_are_told_from_what_is_past_the_most() {
        let most = [3, 0, 4, 1];
        let kinds = Kinds::new(&most).expect("few bits");
        let pack = |counts: [u32; 4]| -> Content {
            let each = counts.iter().enumerate();
            each.map(|(k, n)| Content::from(*n) * kinds.one(k)).sum()
        };
        for a in [[3, 0, 4, 1], [1, 0, 2, 0], [2, 0, 0, 1], [0, 0, 3, 0]] {
            for b in [[0, 0, 0, 0], [3, 0, 4, 1], [1, 0, 2, 1], [2, 0, 1, 0]] {
                let sum = pack(a) + pack(b);
                let counts: Vec<u32> = (0..4).map(|k| kinds.count(sum, k)).collect();
                let plain: Vec<u32> = a.iter().zip(b).map(|(a, b)| a + b).collect();
                assert_eq!(counts, plain);
                let within = plain.iter().zip(most).all(|(n, m)| *n <= m);
                assert_eq!(kinds.holds(sum), within, "{plain:?}");
            }
        }
        assert!(Kinds::new(&[u32::MAX; 4]).is_none());
    }
}
