//! Every length says one thing: its ticks, its value in the document's unit and its printed form.

use serde_json::Value;

use super::papers::{Papers, wide, within};
use crate::check::Rule;
use crate::check::docket::Docket;

/// 2^40 ticks.
const MOST: i64 = 1 << 40;

/// Judges the document's form and walks all of it for lengths.
pub(super) fn judge(document: &Value, papers: &Papers<'_>, docket: &mut Docket) {
    let plan = papers.plan;
    let known = plan.format == "longpoint plan"
        && plan.version == 1
        && ["in", "mm"].contains(&plan.units.as_str());
    docket.demand(known, Rule::FileForm, "document", || {
        format!(
            "{:?}, version {}, in {:?}",
            plan.format, plan.version, plan.units
        )
    });
    let (mark, kerf) = (plan.saw_mark.ticks, plan.kerf.ticks);
    let pools = papers.problem.pools.iter();
    let sound = mark >= 1 && pools.into_iter().all(|p| (p.mark, p.kerf) == (mark, kerf));
    docket.demand(sound, Rule::FileForm, "document", || {
        format!("a mark of {mark} and a kerf of {kerf} ticks; its problem has others")
    });
    let walk = Walk {
        unit: papers.unit(),
        metric: plan.units == "mm",
        // Lengths print to the saw mark, and to 1/64 in where that is coarser.
        printed_within: wide(i128::from(mark.max(160))) / 2.0 + 1.0,
        // What is left of a joint is rounded down, to the saw mark at most.
        left_within: wide(i128::from(mark.max(127))),
    };
    walk.through(document, "", docket);
}

struct Walk {
    unit: f64,
    metric: bool,
    printed_within: f64,
    left_within: f64,
}

/// Fields that hold what is left of a joint, where they are exact (a frame's `drop` is geometry).
const LEFT: [&str; 3] = ["drop", "floor", "credited"];

impl Walk {
    fn through(&self, value: &Value, at: &str, docket: &mut Docket) {
        match value {
            Value::Object(fields) => {
                if fields.contains_key("value") && fields.contains_key("print") {
                    self.length(value, at, docket);
                    return;
                }
                for (name, inner) in fields {
                    self.through(inner, &format!("{at}/{name}"), docket);
                }
            }
            Value::Array(list) => {
                for (i, inner) in list.iter().enumerate() {
                    self.through(inner, &format!("{at}/{i}"), docket);
                }
            }
            _ => {}
        }
    }

    fn length(&self, length: &Value, at: &str, docket: &mut Docket) {
        let value = length["value"].as_f64().map(|v| v * self.unit);
        let print = length["print"].as_str().and_then(|p| self.printed(p));
        let exact = match length.get("ticks") {
            Some(ticks) => ticks
                .as_i64()
                .filter(|t| (-MOST..=MOST).contains(t))
                .map(|t| wide(i128::from(t))),
            None => value,
        };
        // Values are rounded to a millionth of an inch or 1/10,000 mm: under 1/50 of a tick.
        let agrees = match (exact, value, print) {
            (Some(exact), Some(value), Some(print)) => {
                within(exact, value, 0.02)
                    && match length.get("ticks").filter(|_| of_what_is_left(at)) {
                        Some(_) => (-0.02..self.left_within).contains(&(exact - print)),
                        None => within(exact, print, self.printed_within),
                    }
            }
            _ => false,
        };
        docket.demand(agrees, Rule::FileLength, at, || {
            format!("{length} is not one length three times")
        });
    }

    /// Ticks of `-12'-3 5/16"` or of millimetres.
    fn printed(&self, text: &str) -> Option<f64> {
        let (sign, text) = match text.strip_prefix('-') {
            Some(rest) => (-1.0, rest),
            None => (1.0, text),
        };
        if self.metric {
            return Some(sign * millimetres(text)? * self.unit);
        }
        let (feet, inches) = text.strip_suffix('"')?.split_once("'-")?;
        let (inches, fraction) = inches.split_once(' ').unwrap_or((inches, "0/1"));
        let (over, under) = fraction.split_once('/')?;
        let part = whole(over)? / whole(under).filter(|n| *n > 0.0)?;
        Some(sign * (12.0 * whole(feet)? + whole(inches)? + part) * self.unit)
    }
}

/// Whether a field holds what is left of a joint, which never prints longer than it is.
fn of_what_is_left(at: &str) -> bool {
    LEFT.contains(&at.rsplit('/').next().unwrap_or_default())
}

/// `5644` or `5644.5`.
fn millimetres(text: &str) -> Option<f64> {
    let plain = text.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    let (whole_part, decimals) = text.split_once('.').unwrap_or((text, "0"));
    whole(whole_part)?;
    whole(decimals)?;
    text.parse().ok().filter(|_| plain)
}

fn whole(digits: &str) -> Option<f64> {
    let n: u32 = digits.parse().ok()?;
    Some(f64::from(n))
}
