//! From the orders up: re-derives the nest problem and every rule; → [`CheckedPlan`] or the list of
//! violations. Uses measure, order, gate, cope, part and statics only; never the arithmetic of
//! splice, stock, nest or plan (their data types are what is being judged).

mod buying;
mod case;
pub mod certificate;
mod checked;
mod copes;
mod coverage;
mod delivery;
mod docket;
pub mod document;
mod gate_cost;
mod index;
mod joint;
mod kit;
mod lane;
mod ledger;
mod members;
mod minutes;
mod open;
mod outcome;
mod outline;
mod pane;
mod parts;
mod piece;
mod problem;
mod reference;
mod rule;
mod seat;
mod sequence;
mod splice;
mod splice_claim;
mod splice_set;
mod supply;
mod tariff;
mod terms;
mod waste;

pub use checked::{CheckedPlan, Violation};
pub use rule::Rule;

use case::Case;
use docket::Docket;
use tariff::Tariff;

use crate::order::Week;
use crate::part::TakeOff;
use crate::plan::Plan;

/// Judges a plan against the week it answers: every rule, all violations at once.
///
/// Only when the plan speaks of things that do not exist (an index past its list, a number past
/// 2^40) are the other rules not tried.
pub fn check(week: Week, take_off: TakeOff, plan: Plan) -> Result<CheckedPlan, Vec<Violation>> {
    let found = violations(&week, &take_off, &plan);
    if found.is_empty() {
        Ok(CheckedPlan::seal(week, take_off, plan))
    } else {
        Err(found)
    }
}

/// The violations of a plan; empty when it may be printed.
pub fn violations(week: &Week, take_off: &TakeOff, plan: &Plan) -> Vec<Violation> {
    let case = Case {
        week,
        take_off,
        plan,
    };
    let mut docket = Docket::default();
    index::judge(&case, &mut docket);
    terms::sound(&case, &mut docket);
    if !docket.is_clean() {
        return docket.into_violations();
    }
    let tariff = Tariff::of(week);
    parts::judge(&case, &mut docket);
    coverage::judge(&case, &mut docket);
    supply::judge(&case, &mut docket);
    delivery::judge(&case, &mut docket);
    joint::judge(&case, &tariff, &mut docket);
    let cost = buying::judge(&case, &tariff, &mut docket);
    waste::judge(&case, &mut docket);
    gate_cost::judge(&case, &tariff, &mut docket);
    sequence::judge(&case, &mut docket);
    let sets = splice_set::judge(&case, &mut docket);
    splice::judge(&case, &sets, &mut docket);
    kit::judge(&case, &mut docket);
    problem::judge(&case, &tariff, &sets, &mut docket);
    terms::judge(&case, &tariff, &mut docket);
    outcome::judge(&case, &mut docket);
    minutes::judge(&case, &mut docket);
    reference::judge(&case, cost, &mut docket);
    docket.into_violations()
}
