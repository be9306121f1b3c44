//! Charges over sets of stocks: what a shipment, a lift, a price break or a minimum order costs.
//!
//! A charge is a function of one number of the whole answer: how many joints of its set are taken, or what
//! they cost by price. Inside an interval `[lo, hi]` of that number w any slope b gives a valid bound:
//! `f(w) ≥ min over [lo, hi] of (f(v) − b·v) + b·w`, so b moves into the cost of each joint of the set and
//! the constant stays outside. That is all a certificate needs to carry (DESIGN §9).

use serde::{Deserialize, Serialize};

use super::problem::Problem;

/// One stock of one pool.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StockOf {
    /// Index into `Problem::pools`.
    pub pool: usize,
    /// Index into `Pool::stocks`.
    pub stock: usize,
}

/// A charge over a set of stocks, of one pool or of several.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Charge {
    /// For messages; unique in the problem.
    pub name: String,
    /// The set, ascending, no stock twice.
    pub over: Vec<StockOf>,
    /// What is charged.
    pub kind: ChargeKind,
}

/// What is charged, as a function of the joints n taken of the set, or of the sum m of their prices
/// (`Stock::price`, before credits, fees and tax).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum ChargeKind {
    /// `amount` when n ≥ 1, but nothing when m reaches `free_over`.
    Fixed {
        /// Money.
        amount: i64,
        /// Sum of prices from which it is waived.
        #[serde(default)]
        free_over: Option<i64>,
    },
    /// `fee × ⌈n / lift⌉`, and `part_fee` more when `lift` does not divide n.
    Lift {
        /// Joints in a lift, ≥ 1.
        lift: u32,
        /// Money per started lift.
        fee: i64,
        /// Money for a lift that is not whole.
        part_fee: i64,
    },
    /// `max(0, least − m)` when n ≥ 1.
    Minimum {
        /// Least sum of prices billed.
        least: i64,
    },
    /// No money: n is 0, or `least ≤ n ≤ most`. A price break is a stock of its own with such a range; all
    /// the stocks of one quote share a range for what is to be had.
    Range {
        /// Fewest joints when any is taken.
        least: u32,
        /// Most joints.
        #[serde(default)]
        most: Option<u32>,
    },
}

impl ChargeKind {
    /// Whether the charge is a function of the sum of prices m (else of the joints n). Every price of its
    /// set is then at least 1, so m = 0 says that none is taken.
    pub fn counts_prices(&self) -> bool {
        match self {
            ChargeKind::Fixed { free_over, .. } => free_over.is_some(),
            ChargeKind::Minimum { .. } => true,
            ChargeKind::Lift { .. } | ChargeKind::Range { .. } => false,
        }
    }

    /// The money of n joints whose prices sum to m; `None` where a range forbids n.
    pub fn of(&self, n: u64, m: i128) -> Option<i128> {
        if n == 0 {
            return Some(0);
        }
        match *self {
            ChargeKind::Fixed { amount, free_over } => {
                let free = free_over.is_some_and(|over| m >= i128::from(over));
                Some(if free { 0 } else { i128::from(amount) })
            }
            ChargeKind::Lift {
                lift,
                fee,
                part_fee,
            } => {
                let lift = u64::from(lift.max(1));
                let part = if n.is_multiple_of(lift) { 0 } else { part_fee };
                Some(i128::from(fee) * i128::from(n.div_ceil(lift)) + i128::from(part))
            }
            ChargeKind::Minimum { least } => Some((i128::from(least) - m).max(0)),
            ChargeKind::Range { least, most } => {
                (n >= u64::from(least) && most.is_none_or(|most| n <= u64::from(most))).then_some(0)
            }
        }
    }
}

impl Charge {
    /// The charge's money when so many joints of each stock are taken (`taken[pool][stock]`); `None` where
    /// a range forbids it.
    pub fn money(&self, problem: &Problem, taken: &[Vec<u64>]) -> Option<i128> {
        let (mut n, mut m) = (0u64, 0i128);
        for at in &self.over {
            let count = taken[at.pool][at.stock];
            n += count;
            m += i128::from(count) * i128::from(problem.pools[at.pool].stocks[at.stock].price());
        }
        self.kind.of(n, m)
    }
}

#[cfg(test)]
mod tests {
    use super::ChargeKind;

    #[test]
    fn charges_step_where_they_are_said_to() {
        let lift = ChargeKind::Lift {
            lift: 5,
            fee: 100,
            part_fee: 30,
        };
        let of = |n| lift.of(n, 0);
        assert_eq!(of(0), Some(0));
        assert_eq!(of(1), Some(130));
        assert_eq!(of(5), Some(100));
        assert_eq!(of(6), Some(230));
        let fixed = ChargeKind::Fixed {
            amount: 70,
            free_over: Some(1000),
        };
        assert_eq!(fixed.of(0, 0), Some(0));
        assert_eq!(fixed.of(1, 999), Some(70));
        assert_eq!(fixed.of(1, 1000), Some(0));
        let minimum = ChargeKind::Minimum { least: 500 };
        assert_eq!(minimum.of(0, 0), Some(0));
        assert_eq!(minimum.of(2, 420), Some(80));
        assert_eq!(minimum.of(3, 630), Some(0));
        let range = ChargeKind::Range {
            least: 4,
            most: Some(6),
        };
        assert_eq!(range.of(0, 0), Some(0));
        assert_eq!(range.of(3, 0), None);
        assert_eq!(range.of(4, 0), Some(0));
        assert_eq!(range.of(7, 0), None);
    }
}
