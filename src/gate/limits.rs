//! Strict limits: compared after rounding both sides to a millionth of an inch, equal counts as over.

use crate::measure::INCH;

/// Whether `x` is strictly under `limit` (both in ticks) after rounding both to 1e-6 in.
/// Not-a-number is never under anything.
pub fn strictly_under(x: f64, limit: f64) -> bool {
    millionths(x) < millionths(limit)
}

/// Whole millionths of an inch, as a float.
pub(super) fn millionths(x: f64) -> f64 {
    (x / INCH * 1e6).round()
}

/// The two limits of a bay.
#[derive(Clone, Copy, Debug)]
pub(super) struct BayLimits {
    /// The shop's bay limit, ticks.
    pub limit: f64,
    /// Distance between the horizontals' axes: the diagonal stays under 45° from the vertical.
    pub axis_height: f64,
}

impl BayLimits {
    /// Most bays ever laid out; more means the height or the limit is a slip of the pen.
    pub const MOST_BAYS: u32 = 500;

    /// Whether a bay keeps both limits.
    pub fn allow(self, bay: f64) -> bool {
        strictly_under(bay, self.limit) && strictly_under(bay, self.axis_height)
    }

    /// The least number of equal bays over `span` that keeps both limits.
    pub fn least_bays(self, span: f64) -> Option<u32> {
        let bound = self.limit.min(self.axis_height);
        if !(bound > 0.0 && span > 0.0) {
            return None;
        }
        (1..=BayLimits::MOST_BAYS).find(|n| self.allow(span / f64::from(*n)))
    }
}

#[cfg(test)]
mod tests {
    use super::{BayLimits, strictly_under};
    use crate::measure::INCH;

    #[test]
    fn equal_counts_as_over_after_rounding() {
        assert!(!strictly_under(60.0 * INCH, 60.0 * INCH));
        assert!(!strictly_under(59.999_999_9 * INCH, 60.0 * INCH));
        assert!(strictly_under(59.999_998 * INCH, 60.0 * INCH));
        assert!(!strictly_under(f64::NAN, 60.0 * INCH));
    }

    #[test]
    fn least_bays_keeps_both_limits() {
        let limits = |height: f64| BayLimits {
            limit: 60.0 * INCH,
            axis_height: height * INCH,
        };
        assert_eq!(limits(69.625).least_bays(225.625 * INCH), Some(4));
        assert_eq!(limits(69.625).least_bays(240.0 * INCH), Some(5));
        assert_eq!(limits(45.0).least_bays(180.0 * INCH), Some(5));
        assert_eq!(limits(0.0).least_bays(180.0 * INCH), None);
    }
}
