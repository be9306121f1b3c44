//! `CheckedPlan`: the only thing that prints. Its one constructor is the checker.

use serde::Serialize;

use super::rule::Rule;
use crate::order::Week;
use crate::part::TakeOff;
use crate::plan::Plan;

/// A rule the plan breaks, with the numbers.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Violation {
    /// Short fixed name of the rule (`splice-clear-of-toes`), for tests and people.
    pub rule: Rule,
    /// What it concerns (`A3.1-HB splice 2`, `joint 7`).
    pub subject: String,
    /// The numbers.
    pub detail: String,
}

/// A plan that the checker has passed, with the week it answers.
#[derive(Clone, Debug, Serialize)]
pub struct CheckedPlan {
    week: Week,
    take_off: TakeOff,
    plan: Plan,
}

impl CheckedPlan {
    /// The checker's seal; nothing outside `check` can build one.
    #[allow(dead_code)]
    pub(super) fn seal(week: Week, take_off: TakeOff, plan: Plan) -> CheckedPlan {
        CheckedPlan {
            week,
            take_off,
            plan,
        }
    }

    /// The week.
    pub fn week(&self) -> &Week {
        &self.week
    }

    /// The take-off (the checker's own parts and plan's agree).
    pub fn take_off(&self) -> &TakeOff {
        &self.take_off
    }

    /// The plan.
    pub fn plan(&self) -> &Plan {
        &self.plan
    }
}
