//! What a wide opening asks for: a sway brace, an engineer's review, or both. Never at equality.

use super::{GateOrder, Shop};

/// One thing that is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WideOpening {
    /// A sway brace is expected (common practice) and none is ordered.
    NoBrace,
    /// An engineer is to review the gate.
    Review,
}

impl GateOrder {
    /// All that this opening asks for; the two limits are judged each by itself.
    pub fn wide_opening(&self, shop: &Shop) -> Vec<WideOpening> {
        let mut out = Vec::new();
        if self.opening > shop.sway.expected_over && !self.sway {
            out.push(WideOpening::NoBrace);
        }
        if self.opening > shop.sway.review_over {
            out.push(WideOpening::Review);
        }
        out
    }
}
