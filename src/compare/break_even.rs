//! Break-even figures: where the ranking of short joints against long ones turns, solved, not read off.
//!
//! With one price as parameter the cost of each plan is a straight line (kinked where the credit of drops
//! changes hands), so the least cost over plans is a concave piecewise linear function. Both sides
//! keep the plans found so far and their least cost at any price; the two curves are crossed by
//! bisection on a whole-numbered parameter, both sides are planned again at the crossing, and that
//! repeats until neither finds a plan cheaper by over a cent there.

use super::figures::bound;
use super::reprice::Prices;
use super::row::{How, planned};
use super::{Change, Variant};
use crate::check::CheckedPlan;
use crate::measure::{Length, Money};
use crate::order::Week;
use crate::plan::Gap;

/// A cent in 1/1000 cent: both sides must agree to it.
const CENT: i64 = 1_000;
/// Crossings tried before the answer is given as not settled.
const ROUNDS: u32 = 10;

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Question {
    /// Freight of one shipment of long joints beyond what is quoted, cents.
    Freight,
    /// Long joints' price per foot over short ones', millionths.
    Premium,
    /// Cost of a splice, cents.
    SpliceCost,
}

/// Where a ranking turns.
#[derive(Clone, Debug, PartialEq)]
pub enum Turn {
    /// It turns here.
    At {
        /// The parameter, in the question's unit.
        value: i64,
        /// Money of either side there, 1/1000 cent.
        money: i64,
        /// Where it would turn if one side's plan, then the other's, were as cheap as its bound: by the
        /// curves' slopes there. `None`: past the range asked.
        between: (Option<i64>, Option<i64>),
        /// How much cheaper a plan of either side might yet be there.
        gaps: (Gap, Gap),
        /// Plans made to find it.
        plans: u32,
        /// Neither side found a cheaper plan there in the last round.
        settled: bool,
    },
    /// Not within the range asked: one side is cheaper at both ends.
    Never {
        /// The short joints are the cheaper ones.
        short: bool,
        /// The range asked.
        range: (i64, i64),
    },
    /// A side cannot be made or has no price.
    Unknown,
}

/// One answered question.
#[derive(Clone, Debug, PartialEq)]
pub struct BreakEven {
    /// What was asked.
    pub question: Question,
    /// The lengths compared, shorter first.
    pub pair: (Length, Length),
    /// Names of the two rows.
    pub names: (String, String),
    /// The parameter as it stands, least and greatest over the pipes, where it has a value.
    pub today: Option<(i64, i64)>,
    /// The answer.
    pub turn: Turn,
}

/// One side of the comparison: its week, and the plans found for it.
pub(super) struct Side<'a> {
    base: &'a Week,
    lengths: Vec<Length>,
    pub(super) found: Vec<CheckedPlan>,
    /// Weeks planned already, as text, with the certified bound of each, 1/1000 cent: a parameter that does
    /// not reach this side is planned for once.
    bounds: Vec<(String, i64)>,
    planned: u32,
}

impl<'a> Side<'a> {
    /// The side of one joint length with the plan of its row.
    pub fn new(base: &'a Week, length: Length, row: &CheckedPlan) -> Side<'a> {
        Side {
            base,
            lengths: vec![length],
            found: vec![row.clone()],
            bounds: vec![(as_text(row.week()), bound(row.plan()))],
            planned: 0,
        }
    }

    /// The side's week at one value of the parameter.
    fn week(&self, change: &Change) -> Week {
        let variant = Variant {
            name: String::new(),
            changes: vec![change.clone(), Change::Lengths(self.lengths.clone())],
        };
        variant.of(self.base).0
    }

    /// Least cost over the plans found, 1/1000 cent.
    pub fn cost(&self, change: &Change) -> Option<i64> {
        let week = self.week(change);
        let prices = Prices::of(&week, self.found.first()?)?;
        self.found.iter().filter_map(|p| prices.cost(p)).min()
    }

    /// Plans at this value; gives the gap to the certified bound there and whether the
    /// plan is cheaper than those found before by over a cent.
    pub fn plan(&mut self, change: &Change, how: How<'_>) -> Option<(Gap, bool)> {
        let before = self.cost(change)?;
        let week = self.week(change);
        let text = as_text(&week);
        if let Some((_, bound)) = self.bounds.iter().find(|(seen, _)| *seen == text) {
            return Some((Gap::between(before, *bound), false));
        }
        let checked = planned(week, how, &[]).ok()?;
        (how.told)("what would change which is cheaper");
        self.planned += 1;
        let bound = bound(checked.plan());
        self.bounds.push((text, bound));
        let own = Prices::of(checked.week(), &checked)?.cost(&checked)?;
        if own < before {
            self.found.push(checked);
        }
        Some((Gap::between(own.min(before), bound), before - own > CENT))
    }
}

/// A week's data as text: two weeks of one text have one plan.
pub(super) fn as_text(week: &Week) -> String {
    serde_json::to_string(&(&week.shop, &week.quotes, &week.suppliers, &week.gates))
        .unwrap_or_default()
}

/// Crosses two sides over a range of the parameter.
pub(super) fn turn(
    short: &mut Side<'_>,
    long: &mut Side<'_>,
    (lo, hi): (i64, i64),
    change: impl Fn(i64) -> Change + Sync,
    how: How<'_>,
) -> Turn {
    let mut last = None;
    for _ in 0..ROUNDS {
        let ahead = |x: i64| Some(short.cost(&change(x))? - long.cost(&change(x))?);
        let (Some(at_lo), Some(at_hi)) = (ahead(lo), ahead(hi)) else {
            return Turn::Unknown;
        };
        let Some(x) = cross(lo, hi, ahead) else {
            // Before one side is called cheaper throughout, it must be so by plans made for the ends.
            let ends = [lo, hi].map(|x| both(short, long, &change(x), how));
            let [Some(a), Some(b)] = ends else {
                return Turn::Unknown;
            };
            if a.1 || b.1 {
                continue;
            }
            return Turn::Never {
                short: at_lo.saturating_add(at_hi) < 0,
                range: (lo, hi),
            };
        };
        let Some((gaps, cheaper)) = both(short, long, &change(x), how) else {
            return Turn::Unknown;
        };
        last = Some((x, gaps));
        if !cheaper {
            return at(short, long, (lo, hi), (x, gaps), &change, true);
        }
    }
    match last {
        Some(found) => at(short, long, (lo, hi), found, &change, false),
        None => Turn::Unknown,
    }
}

/// Plans both sides; their gaps, and whether either found something cheaper.
fn both(
    short: &mut Side<'_>,
    long: &mut Side<'_>,
    change: &Change,
    how: How<'_>,
) -> Option<((Gap, Gap), bool)> {
    let (a, b) = rayon::join(|| short.plan(change, how), || long.plan(change, how));
    let (a, b) = (a?, b?);
    Some(((a.0, b.0), a.1 || b.1))
}

fn at(
    short: &Side<'_>,
    long: &Side<'_>,
    (lo, hi): (i64, i64),
    (value, gaps): (i64, (Gap, Gap)),
    change: &impl Fn(i64) -> Change,
    settled: bool,
) -> Turn {
    let shifted = |by: i64| {
        cross(lo, hi, |x| {
            Some(short.cost(&change(x))? - long.cost(&change(x))? + by)
        })
    };
    let (a, b) = (shifted(-gaps.0.millicents()), shifted(gaps.1.millicents()));
    Turn::At {
        value,
        money: long.cost(&change(value)).unwrap_or(0),
        between: if a <= b { (a, b) } else { (b, a) },
        gaps,
        plans: short.planned + long.planned,
        settled,
    }
}

/// The first whole number at which the sign of a function has turned from that at `lo`, by bisection;
/// `None` when both ends have one sign.
fn cross(lo: i64, hi: i64, ahead: impl Fn(i64) -> Option<i64>) -> Option<i64> {
    let start = ahead(lo)?.signum();
    if start == 0 {
        return Some(lo);
    }
    if ahead(hi)?.signum() == start {
        return None;
    }
    let (mut same, mut turned) = (lo, hi);
    while turned - same > 1 {
        let middle = same + (turned - same) / 2;
        if ahead(middle)?.signum() == start {
            same = middle;
        } else {
            turned = middle;
        }
    }
    Some(turned)
}

/// Today's premium of the long joints over the short ones, millionths, least and greatest over the
/// pipes sold in both.
pub(super) fn premium_today(week: &Week, (short, long): (Length, Length)) -> Option<(i64, i64)> {
    use rust_decimal::prelude::ToPrimitive;
    let per_tick = |pipe: usize, length: Length| {
        let quotes = week.quotes.iter();
        let mine = quotes.filter(|q| q.pipe.0 == pipe && q.nominal == length);
        mine.filter_map(|q| {
            let ticks = rust_decimal::Decimal::from(length.ticks());
            q.price?.0.checked_div(ticks)
        })
        .min()
    };
    let premiums: Vec<i64> = (0..week.pipes.len())
        .filter_map(|p| {
            let ratio = per_tick(p, long)?.checked_div(per_tick(p, short)?)?;
            let over =
                (ratio - rust_decimal::Decimal::ONE) * rust_decimal::Decimal::from(1_000_000);
            over.round().to_i64()
        })
        .collect();
    Some((*premiums.iter().min()?, *premiums.iter().max()?))
}

/// A splice cost of so many cents.
pub(super) fn splice_cost(cents: i64) -> Change {
    Change::SpliceCost(Money::from_millicents(cents.saturating_mul(CENT)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_number_past_the_turn_is_found() {
        assert_eq!(cross(0, 100, |x| Some(37 - x)), Some(37));
        assert_eq!(cross(0, 100, |x| Some(2 * x - 75)), Some(38));
        assert_eq!(cross(0, 100, |x| Some(x + 1)), None);
        assert_eq!(cross(5, 100, |x| Some(x - 5)), Some(5));
        assert_eq!(cross(0, 100, |_| None), None);
    }
}
