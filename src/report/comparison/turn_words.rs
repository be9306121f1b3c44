//! Break-even figures in words.

use crate::compare::{BreakEven, Comparison, Question, Turn, joint_words};
use crate::measure::{Money, Units};
use crate::plan::Gap;

use super::super::figures::Figures;
use super::figures;

/// One paragraph a question.
pub(super) fn turns(comparison: &Comparison) -> Vec<String> {
    let asked = comparison.break_evens.iter();
    asked.map(|b| turn(comparison, b)).collect()
}

fn turn(comparison: &Comparison, asked: &BreakEven) -> String {
    let figures = figures(comparison);
    let units = comparison.week.shop.units;
    let short = joint_words(asked.pair.0, units);
    let long = joint_words(asked.pair.1, units);
    let what = match asked.question {
        Question::Freight => format!("Freight of the {long} joints, beyond what is quoted"),
        Question::Premium => {
            let unit = unit_word(units);
            format!("Price of a {unit} of {long} joint over a {unit} of {short} joint")
        }
        Question::SpliceCost => "Cost of a splice".to_owned(),
    };
    let say = |x: i64| value(figures, asked.question, x);
    let today = match asked.today {
        Some((a, b)) if a == b => format!(" (as it stands {})", say(a)),
        Some((a, b)) => format!(" (as it stands {} to {})", say(a), say(b)),
        None => String::new(),
    };
    let answer = match &asked.turn {
        Turn::At {
            value,
            money,
            between,
            gaps,
            settled,
            ..
        } => {
            let both = figures.spoken_money(Some(Money::from_millicents(*money)));
            let open = if gaps.0.closed() && gaps.1.closed() {
                "both plans proved there".to_owned()
            } else {
                let end = |x: &Option<i64>| x.map_or("past the range".to_owned(), say);
                let gap = |g: Gap| figures.spoken_money(Some(g.money()));
                format!(
                    "unproved by {} and {} there, so about {} to {} at the widest",
                    gap(gaps.0),
                    gap(gaps.1),
                    end(&between.0),
                    end(&between.1)
                )
            };
            let unsettled = if *settled {
                ""
            } else {
                "; not settled to a cent"
            };
            format!(
                "{} and {} cost the same, {both}, at {}; {open}{unsettled}.",
                asked.names.0,
                asked.names.1,
                say(*value)
            )
        }
        Turn::Never {
            short: cheaper,
            range,
        } => {
            let name = if *cheaper {
                &asked.names.0
            } else {
                &asked.names.1
            };
            if range.0 == range.1 {
                format!("none: {name} is the cheaper as it stands.")
            } else {
                format!(
                    "{name} is the cheaper from {} to {}.",
                    say(range.0),
                    say(range.1)
                )
            }
        }
        Turn::Unknown => {
            "not known: a side cannot be made, has no price, or mixes both lengths.".to_owned()
        }
    };
    format!("{what}{today}: {answer}")
}

/// The unit by which pipe is priced.
pub(super) fn unit_word(units: Units) -> &'static str {
    match units {
        Units::Inch => "foot",
        Units::Metric => "metre",
    }
}

/// A parameter in the question's unit.
pub(super) fn value(figures: Figures<'_>, question: Question, x: i64) -> String {
    match question {
        Question::Premium => percent(x),
        Question::Freight | Question::SpliceCost => {
            figures.spoken_money(Some(Money::from_millicents(x.saturating_mul(1_000))))
        }
    }
}

/// Millionths as a percentage of two decimals with its sign.
pub(super) fn percent(millionths: i64) -> String {
    let sign = if millionths < 0 { "-" } else { "+" };
    let hundredths = (millionths.unsigned_abs() + 50) / 100;
    format!("{sign}{}.{:02} %", hundredths / 100, hundredths % 100)
}
