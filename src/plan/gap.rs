//! `Gap`: how much cheaper some plan might yet be; one figure on every sheet.
//!
//! It is the exact cost less the certified bound, both in 1/1000 cent. The total in print is another number: each of
//! its lines is rounded to a cent, so that total less the bound may be a cent off, and is never printed.

use rust_decimal::{Decimal, RoundingStrategy};

use super::{PipeOutcome, Plan};
use crate::measure::Money;
use crate::nest::{Status, Whole};

/// Cost less bound, 1/1000 cent, never under 0.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Gap(i64);

/// 1/1000 cent in a cent.
const CENT: i64 = 1_000;

impl Gap {
    /// Between a cost and a bound on it, 1/1000 cent.
    pub fn between(cost: i64, bound: i64) -> Gap {
        Gap(cost.saturating_sub(bound).max(0))
    }

    /// Nothing is open.
    pub fn closed(self) -> bool {
        self.0 == 0
    }

    /// 1/1000 cent.
    pub fn millicents(self) -> i64 {
        self.0
    }

    /// As printed: whole cents, rounded up, for no plan may be cheaper by more than is said.
    pub fn money(self) -> Money {
        let begun = i64::from(self.0.rem_euclid(CENT) > 0);
        Money(Decimal::new(self.0.div_euclid(CENT) + begun, 2))
    }

    /// In percent of `base` (1/1000 cent), two decimals; `None` where there is no base.
    pub fn percent_of(self, base: i64) -> Option<Decimal> {
        let share = Decimal::from(self.0)
            .checked_mul(Decimal::ONE_HUNDRED)?
            .checked_div(Decimal::from(base))?;
        let rounded = share.round_dp_with_strategy(2, RoundingStrategy::MidpointAwayFromZero);
        (base > 0).then_some(rounded)
    }
}

impl PipeOutcome {
    /// Of this pipe's money.
    pub fn gap(&self) -> Gap {
        Gap::between(self.cost, self.bound)
    }
}

/// Of all pipes together with their charges.
pub fn gap_of_whole(whole: &Whole) -> Gap {
    Gap::between(whole.cost, whole.bound)
}

impl Plan {
    /// Of the week: of the whole where charges couple the pipes, else the open pipes' gaps added up. What is
    /// proved, by certificate or by search, leaves nothing open.
    pub fn gap(&self) -> Gap {
        let open = |status: Status, gap: Gap| match status {
            Status::Proved | Status::ProvedBySearch => Gap::default(),
            Status::Within | Status::Short | Status::NoneFound => gap,
        };
        match &self.nest.whole {
            Some(whole) => open(whole.status, gap_of_whole(whole)),
            None => {
                let gaps = self.pipes.iter().map(|p| open(p.status, p.gap()).0);
                Gap(gaps.fold(0, i64::saturating_add))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gap_is_never_printed_smaller_than_it_is() {
        let printed = |cost, bound| Gap::between(cost, bound).money().to_string();
        assert_eq!(printed(1_084_001, 0), "10.85");
        assert_eq!(printed(1_084_000, 0), "10.84");
        assert_eq!(printed(1, 0), "0.01");
        assert_eq!(printed(0, 5), "0.00");
        assert_eq!(printed(i64::MAX, i64::MIN + 1), "92,233,720,368,547.76");
    }

    #[test]
    fn percent_is_of_the_base_and_none_without_one() {
        let gap = Gap::between(231_500, 0);
        assert_eq!(
            gap.percent_of(100_000_000).map(|p| p.to_string()),
            Some("0.23".into())
        );
        assert_eq!(
            Gap::between(5, 0)
                .percent_of(100_000)
                .map(|p| p.to_string()),
            Some("0.01".into())
        );
        assert_eq!(gap.percent_of(0), None);
        assert_eq!(gap.percent_of(-1), None);
    }
}
