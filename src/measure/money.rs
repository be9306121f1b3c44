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

    /// The price of one as a reader can multiply it: rounded half away from zero to the fewest
    /// decimals, two or more, from which `count` of it come to the cents of `count` exact ones.
    pub fn to_multiply(self, count: u32) -> Money {
        let exact = self.times(count).map(Money::cents);
        let rounded = |places| {
            let strategy = RoundingStrategy::MidpointAwayFromZero;
            Money(self.0.round_dp_with_strategy(places, strategy))
        };
        (2..=Decimal::MAX_SCALE)
            .map(rounded)
            .find(|each| each.times(count).map(Money::cents) == exact)
            .unwrap_or(self)
    }

    fn times(self, count: u32) -> Option<Money> {
        self.0.checked_mul(Decimal::from(count)).map(Money)
    }

    /// As printed with two decimals, or with all it has where it has more: `87.5222`.
    pub fn every_decimal(self) -> String {
        let exact = self.0.normalize();
        grouped(exact, exact.scale().max(2))
    }
}

/// So many decimals and thousands commas.
fn grouped(amount: Decimal, places: u32) -> String {
    let mut amount = amount;
    amount.rescale(places);
    let text = amount.abs().to_string();
    let (whole, decimals) = text.split_once('.').unwrap_or((&text, ""));
    let mut out = String::new();
    for (i, digit) in whole.chars().enumerate() {
        if i > 0 && (whole.len() - i) % 3 == 0 {
            out.push(',');
        }
        out.push(digit);
    }
    let sign = if amount < Decimal::ZERO { "-" } else { "" };
    format!("{sign}{out}.{decimals}")
}

impl fmt::Display for Money {
    /// Two decimals with thousands commas, e.g. `1,204.50`; no currency sign.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&grouped(self.cents().0, 2))
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

    #[test]
    fn a_price_to_multiply_has_the_decimals_it_needs_and_no_more() {
        let each = |digits, scale, count| {
            let price = Money(Decimal::new(digits, scale));
            price.to_multiply(count).every_decimal()
        };
        // 9 x 87.52 is 787.68, 9 x 87.522 is 787.70: what 9 x 87.52224 comes to.
        assert_eq!(each(8_752_224, 5, 9), "87.522");
        assert_eq!(each(8_752_224, 5, 1), "87.52");
        assert_eq!(each(7_308, 2, 400), "73.08");
        assert_eq!(each(1_234_500, 3, 3), "1,234.50");
        // Half a cent over: 2 x 0.0025 is 0.01, and so is 2 x 0.003.
        assert_eq!(each(25, 4, 2), "0.003");
        let third = Money(Decimal::ONE / Decimal::from(3));
        assert_eq!(third.to_multiply(300).every_decimal(), "0.33333");
        assert_eq!(
            Money(Decimal::MAX).to_multiply(u32::MAX),
            Money(Decimal::MAX)
        );
    }
}
