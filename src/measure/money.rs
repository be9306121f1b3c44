//! `Money`: an exact decimal; one rounding to cents, half away from zero, per printed line.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, Sub};

use rust_decimal::prelude::ToPrimitive;
use rust_decimal::{Decimal, RoundingStrategy};
use serde::{Deserialize, Serialize};

/// An amount in the shop's currency.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Money(pub Decimal);

impl Money {
    /// Integer units of the optimisation in one unit of currency: 1/1000 cent.
    pub const MILLICENTS_PER_UNIT: i64 = 100_000;
    /// Zero.
    pub const ZERO: Money = Money(Decimal::ZERO);

    /// From the optimisation's integers (1/1000 cent); exact.
    pub fn from_millicents(n: i64) -> Money {
        Money(Decimal::new(n, 5).normalize())
    }

    /// To the optimisation's integers (1/1000 cent), rounded half away from zero.
    /// `None` when the amount does not fit.
    pub fn millicents(self) -> Option<i64> {
        let scaled = self
            .0
            .checked_mul(Decimal::from(Money::MILLICENTS_PER_UNIT))?;
        scaled
            .round_dp_with_strategy(0, RoundingStrategy::MidpointAwayFromZero)
            .to_i64()
    }

    /// Rounded once to cents, half away from zero: the rounding of a printed line.
    pub fn cents(self) -> Money {
        Money(
            self.0
                .round_dp_with_strategy(2, RoundingStrategy::MidpointAwayFromZero),
        )
    }
}

impl fmt::Display for Money {
    /// Two decimals with thousands commas, e.g. `1,204.50`; no currency sign.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = format!("{:.2}", self.cents().0.abs());
        let (whole, cents) = text.split_once('.').unwrap_or((&text, "00"));
        let mut out = String::new();
        for (i, digit) in whole.chars().enumerate() {
            if i > 0 && (whole.len() - i) % 3 == 0 {
                out.push(',');
            }
            out.push(digit);
        }
        let sign = if self.cents().0 < Decimal::ZERO {
            "-"
        } else {
            ""
        };
        f.pad(&format!("{sign}{out}.{cents}"))
    }
}

impl Add for Money {
    type Output = Money;
    fn add(self, o: Money) -> Money {
        Money(self.0 + o.0)
    }
}
impl Sub for Money {
    type Output = Money;
    fn sub(self, o: Money) -> Money {
        Money(self.0 - o.0)
    }
}
impl Sum for Money {
    fn sum<I: Iterator<Item = Money>>(iter: I) -> Money {
        Money(iter.map(|m| m.0).sum())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn prints_with_commas_and_rounds_half_away_from_zero() {
        assert_eq!(
            Money::from_millicents(120_450_000_000).to_string(),
            "1,204,500.00"
        );
        assert_eq!(Money::from_millicents(-500).to_string(), "-0.01");
        assert_eq!(Money::from_millicents(499).to_string(), "0.00");
        assert_eq!(Money(Decimal::new(4250, 2)).millicents(), Some(4_250_000));
    }
}
