//! The comparison's document: everything of every row, for programs.

use serde::Serialize;

use crate::compare::{BreakEven, Comparison, Figures as Made, Outcome, Question, Row, Turn};
use crate::order::Impossible;
use crate::plan::Gap;

use super::super::document::quantity::{Exact, exact, millicents, money, rounded};
use super::super::figures::Figures;
use super::sheet::{notes_of, over, parts, percents};
use super::words::status;
use super::{FORMAT, figures};

/// Version of the document's form.
const VERSION: u32 = 1;

#[derive(Serialize)]
struct Whole<'a> {
    format: &'static str,
    version: u32,
    shop: &'a str,
    currency: &'a str,
    date: Option<&'a str>,
    files: &'a [String],
    reference: &'a str,
    rows: Vec<RowEntry<'a>>,
    break_evens: Vec<TurnEntry>,
    sweep: Vec<SweepEntry>,
}

#[derive(Serialize)]
struct RowEntry<'a> {
    name: &'a str,
    status: String,
    notes: Vec<&'a str>,
    cannot: &'a [Impossible],
    made: Option<MadeEntry<'a>>,
}

#[derive(Serialize)]
struct MadeEntry<'a> {
    plan: &'a str,
    joints: Vec<JointsEntry>,
    from_rack: u32,
    bought: Exact,
    weight: Option<f64>,
    money: Option<f64>,
    dearer: Option<f64>,
    gap: Option<f64>,
    total_millicents: Option<i64>,
    bound_millicents: i64,
    split: Option<SplitEntry>,
    splices: u32,
    taken: Exact,
    all_in_percent: Option<f64>,
    lost_percent: Option<f64>,
    kept_percent: Option<f64>,
    pipes_proved: usize,
    pipes: usize,
    stopped: bool,
    expired_prices: u32,
    minutes: Option<f64>,
    gates: u32,
}

#[derive(Serialize)]
struct JointsEntry {
    length: Exact,
    joints: u32,
}

#[derive(Serialize)]
struct SplitEntry {
    pipe: Option<f64>,
    freight: Option<f64>,
    fees: Option<f64>,
    splice_labour: Option<f64>,
    rack: Option<f64>,
    kept_credit: Option<f64>,
}

/// A break-even figure; values are in cents (freight, splice cost) or millionths (premium).
#[derive(Serialize)]
struct TurnEntry {
    question: &'static str,
    short: Exact,
    long: Exact,
    today: Option<(i64, i64)>,
    value: Option<i64>,
    money: Option<f64>,
    between: Option<(Option<i64>, Option<i64>)>,
    gaps: Option<(f64, f64)>,
    settled: bool,
    plans: u32,
    cheaper_throughout: Option<&'static str>,
    range: Option<(i64, i64)>,
}

#[derive(Serialize)]
struct SweepEntry {
    premium_millionths: i64,
    short: Option<f64>,
    long: Option<f64>,
}

pub(super) fn document(
    comparison: &Comparison,
    date: Option<&str>,
    files: &[String],
) -> Result<String, serde_json::Error> {
    let shop = &comparison.week.shop;
    let rows = comparison.rows.iter();
    let whole = Whole {
        format: FORMAT,
        version: VERSION,
        shop: &shop.name,
        currency: &shop.money.currency,
        date,
        files,
        reference: &comparison.reference().name,
        rows: rows.map(|r| row(comparison, r)).collect(),
        break_evens: comparison
            .break_evens
            .iter()
            .map(|b| turn(figures(comparison), b))
            .collect(),
        sweep: comparison
            .sweep
            .points
            .iter()
            .map(|(x, short, long)| SweepEntry {
                premium_millionths: *x,
                short: millicents(*short, true),
                long: millicents(*long, true),
            })
            .collect(),
    };
    Ok(serde_json::to_string_pretty(&whole)? + "\n")
}

fn row<'a>(comparison: &'a Comparison, row: &'a Row) -> RowEntry<'a> {
    RowEntry {
        name: &row.name,
        status: status(row),
        notes: notes_of(row),
        cannot: match &row.outcome {
            Outcome::Cannot(why) => why,
            _ => &[],
        },
        made: row.figures().map(|m| made(comparison, row, m)),
    }
}

fn made<'a>(comparison: &Comparison, row: &Row, m: &'a Made) -> MadeEntry<'a> {
    let figures = figures(comparison);
    let amount = |a: Option<i64>| a.and_then(|a| millicents(a, true));
    let waste = percents(&m.waste);
    let share = |i: usize| rounded(waste?[i], 2);
    MadeEntry {
        plan: &m.plan,
        joints: m
            .joints
            .iter()
            .map(|(length, joints)| JointsEntry {
                length: exact(figures, *length),
                joints: *joints,
            })
            .collect(),
        from_rack: m.from_rack,
        bought: exact(figures, m.bought),
        weight: rounded(m.weight, 1),
        money: amount(m.total()),
        dearer: amount(over(row, comparison.reference())),
        gap: money(m.gap.map(Gap::money)),
        total_millicents: m.total(),
        bound_millicents: m.bound,
        split: parts(m).map(|cents| {
            let [pipe, freight, fees, splice_labour, rack, kept_credit] =
                cents.map(|c| millicents(c.saturating_mul(1_000), true));
            SplitEntry {
                pipe,
                freight,
                fees,
                splice_labour,
                rack,
                kept_credit,
            }
        }),
        splices: m.splices,
        taken: exact(figures, m.waste.taken),
        all_in_percent: share(0),
        lost_percent: share(1),
        kept_percent: share(2),
        pipes_proved: m.proved.0,
        pipes: m.proved.1,
        stopped: m.stopped,
        expired_prices: m.expired,
        minutes: rounded(m.minutes, 1),
        gates: m.gates,
    }
}

fn turn(figures: Figures<'_>, asked: &BreakEven) -> TurnEntry {
    let mut entry = TurnEntry {
        question: match asked.question {
            Question::Freight => "long_freight_cents",
            Question::Premium => "long_premium_millionths",
            Question::SpliceCost => "splice_cost_cents",
        },
        short: exact(figures, asked.pair.0),
        long: exact(figures, asked.pair.1),
        today: asked.today,
        value: None,
        money: None,
        between: None,
        gaps: None,
        settled: false,
        plans: 0,
        cheaper_throughout: None,
        range: None,
    };
    match &asked.turn {
        Turn::At {
            value,
            money,
            between,
            gaps,
            plans,
            settled,
        } => {
            let amount = |m: i64| millicents(m, true);
            entry.value = Some(*value);
            entry.money = amount(*money);
            entry.between = Some(*between);
            let gap = |g: Gap| crate::report::document::quantity::money(Some(g.money()));
            entry.gaps = gap(gaps.0).zip(gap(gaps.1));
            (entry.plans, entry.settled) = (*plans, *settled);
        }
        Turn::Never { short, range } => {
            entry.cheaper_throughout = Some(if *short { "short" } else { "long" });
            entry.range = Some(*range);
        }
        Turn::Unknown => {}
    }
    entry
}
