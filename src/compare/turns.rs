//! The three break-even questions of a week, and the sweep of the price premium between them.

use super::break_even::{BreakEven, Question, Side, Turn, premium_today, splice_cost, turn};
use super::figures::bound;
use super::{Change, How};
use crate::check::CheckedPlan;
use crate::measure::{Length, Money};
use crate::order::Week;
use crate::plan::Gap;

/// Premiums asked about, millionths: half the price to twice the price.
const PREMIUMS: (i64, i64) = (-500_000, 1_000_000);
/// Splice costs asked about: up to so many times today's, and at least this many cents.
const SPLICE_TIMES: i64 = 25;
const SPLICE_CENTS: i64 = 50_000;
/// The sweep: so far on each side of the turn, millionths, in so many steps.
const SWEEP: i64 = 150_000;
const STEPS: i64 = 30;

/// The price premium swept: what each side costs, by the best plan found for it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sweep {
    /// Premium in millionths, money of the short joints alone and of the long ones alone, 1/1000 cent.
    pub points: Vec<(i64, i64, i64)>,
}

/// Answers all questions for a pair of lengths from the plans of their rows (short, long).
pub(super) fn turns(
    week: &Week,
    pair: (Length, Length),
    (names, rows): ((&str, &str), (&CheckedPlan, &CheckedPlan)),
    how: How<'_>,
) -> (Vec<BreakEven>, Sweep) {
    let side = |length, row| Side::new(week, length, row);
    let new = || (side(pair.0, rows.0), side(pair.1, rows.1));
    let premium_at = |millionths| Change::Premium {
        short: pair.0,
        long: pair.1,
        millionths,
    };
    let freight = freight(week, pair, &new());
    let (premium, splice) = rayon::join(
        || {
            let (mut short, mut long) = new();
            let turn = turn(&mut short, &mut long, PREMIUMS, premium_at, how);
            let today = premium_today(week, pair);
            let sweep = sweep((&mut short, &mut long), &turn, today, premium_at, how);
            (turn, sweep)
        },
        || {
            let (mut short, mut long) = new();
            let today = cents(week.shop.splice.cost);
            let most = today.saturating_mul(SPLICE_TIMES).max(SPLICE_CENTS);
            turn(&mut short, &mut long, (0, most), splice_cost, how)
        },
    );
    let today = cents(week.shop.splice.cost);
    let answer = |question, today, turn| BreakEven {
        question,
        pair,
        names: (names.0.to_owned(), names.1.to_owned()),
        today,
        turn,
    };
    let out = vec![
        answer(Question::Freight, None, freight),
        answer(Question::Premium, premium_today(week, pair), premium.0),
        answer(Question::SpliceCost, Some((today, today)), splice),
    ];
    (out, premium.1)
}

fn cents(money: Money) -> i64 {
    money.millicents().unwrap_or(0).div_euclid(1_000)
}

fn buys(checked: &CheckedPlan, length: Length) -> bool {
    let lines = checked.plan().buy.iter();
    lines
        .map(|b| checked.week().quotes[b.quote].nominal)
        .any(|l| l == length)
}

/// Freight is paid once whatever is cut, so what the long joints may bear is what they save.
fn freight(week: &Week, pair: (Length, Length), (short, long): &(Side<'_>, Side<'_>)) -> Turn {
    let as_it_stands = Change::SpliceCost(week.shop.splice.cost);
    let costs = (short.cost(&as_it_stands), long.cost(&as_it_stands));
    let (Some(dear), Some(cheap)) = costs else {
        return Turn::Unknown;
    };
    let buys_long = |s: &Side<'_>| s.found.iter().any(|c| buys(c, pair.1));
    if buys_long(short) {
        return Turn::Unknown;
    }
    if cheap >= dear || !buys_long(long) {
        return Turn::Never {
            short: cheap >= dear,
            range: (0, 0),
        };
    }
    let gap = |s: &Side<'_>, cost: i64| {
        let bounds = s.found.iter().map(|c| bound(c.plan()));
        Gap::between(cost, bounds.max().unwrap_or(0))
    };
    let gaps = (gap(short, dear), gap(long, cheap));
    let to_cents = |m: i64| m.div_euclid(1_000);
    Turn::At {
        value: to_cents(dear - cheap),
        money: dear,
        between: (
            Some(to_cents(dear - gaps.0.millicents() - cheap)),
            Some(to_cents(dear - cheap + gaps.1.millicents())),
        ),
        gaps,
        plans: 0,
        settled: true,
    }
}

/// The sweep about the turn, today's prices in it, its ends planned for themselves.
fn sweep(
    (short, long): (&mut Side<'_>, &mut Side<'_>),
    turn: &Turn,
    today: Option<(i64, i64)>,
    change: impl Fn(i64) -> Change,
    how: How<'_>,
) -> Sweep {
    let middle = match turn {
        Turn::At { value, .. } => *value,
        Turn::Never { .. } => 0,
        Turn::Unknown => return Sweep::default(),
    };
    let (least, most) = today.unwrap_or((middle, middle));
    let (lo, hi) = (least.min(middle - SWEEP), most.max(middle + SWEEP));
    for end in [lo, hi] {
        let _ = long.plan(&change(end), how);
        let _ = short.plan(&change(end), how);
    }
    let at = |i: i64| {
        let x = lo + (hi - lo) * i / STEPS;
        Some((x, short.cost(&change(x))?, long.cost(&change(x))?))
    };
    Sweep {
        points: (0..=STEPS).filter_map(at).collect(),
    }
}
