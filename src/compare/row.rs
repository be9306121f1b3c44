//! One row: the changed week through take-off, plan and check.

use super::{Figures, Variant};
use crate::check::{CheckedPlan, Violation, check};
use crate::nest::{Limits, NoWatch, Watch};
use crate::order::{Impossible, Week};
use crate::part::take_off;
use crate::plan::{Offered, PlanOptions, make};

/// How rows are planned: each with the whole of these limits, as `plan` would.
#[derive(Clone, Copy)]
pub struct How<'a> {
    /// When a search stops.
    pub limits: Limits,
    /// Who looks on.
    pub watch: &'a dyn Watch,
    /// Told the name of each plan that is made, from several threads.
    pub told: &'a (dyn Fn(&str) + Sync),
}

impl How<'static> {
    /// Within these limits, nobody looking on.
    pub const fn unwatched(limits: Limits) -> How<'static> {
        How {
            limits,
            watch: &NoWatch,
            told: &|_| (),
        }
    }
}

/// What became of a variant.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// A plan that the checker passed.
    Made(Box<Figures>),
    /// The week cannot be made so: every reason, by gate.
    Cannot(Vec<Impossible>),
    /// The checker refused the plan: a fault of this program.
    Refused(Vec<Violation>),
}

/// A variant and what became of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Name of the variant.
    pub name: String,
    /// The lengths or the supplier it is alone with, in words: of one choice the rows of several weeks add up, whether
    /// every pipe is sold so (`21 ft alone`) or not (`21 ft (else as it stands)`).
    pub choice: Option<String>,
    /// What must be said beside it.
    pub notes: Vec<String>,
    /// Its outcome.
    pub outcome: Outcome,
}

impl Row {
    /// The row's figures; `None` when the week cannot be made so.
    pub fn figures(&self) -> Option<&Figures> {
        match &self.outcome {
            Outcome::Made(figures) => Some(figures),
            _ => None,
        }
    }

    /// Landed money, 1/1000 cent.
    pub fn total(&self) -> Option<i64> {
        self.figures()?.total()
    }
}

/// Why no plan of a changed week counts.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum NoPlan {
    Cannot(Vec<Impossible>),
    Refused(Vec<Violation>),
}

/// A week planned and checked.
pub(super) fn planned(
    week: Week,
    how: How<'_>,
    offers: &[Offered<'_>],
) -> Result<CheckedPlan, NoPlan> {
    let (take_off, left_out) = take_off(&week);
    let options = PlanOptions {
        partial: false,
        date: None,
        revision: 0,
        limits: how.limits,
        watch: how.watch,
        left_out,
        offers,
        tail: &[],
    };
    let plan = make(&week, &take_off, &options).map_err(NoPlan::Cannot)?;
    check(week, take_off, plan).map_err(NoPlan::Refused)
}

/// Runs one variant of a week; the plan itself comes with its row.
pub fn run(week: &Week, variant: &Variant, how: How<'_>) -> (Row, Option<CheckedPlan>) {
    run_offered(week, variant, how, &[])
}

/// Runs one variant, offered the plans of others: no row is dearer than one of them that would do.
pub(super) fn run_offered(
    week: &Week,
    variant: &Variant,
    how: How<'_>,
    offers: &[Offered<'_>],
) -> (Row, Option<CheckedPlan>) {
    let (changed, notes) = variant.of(week);
    let (outcome, checked) = match planned(changed, how, offers) {
        Ok(checked) => {
            let figures = Figures::of(&checked);
            (Outcome::Made(Box::new(figures)), Some(checked))
        }
        Err(NoPlan::Cannot(why)) => (Outcome::Cannot(why), None),
        Err(NoPlan::Refused(why)) => (Outcome::Refused(why), None),
    };
    let row = Row {
        name: variant.name.clone(),
        choice: variant.choice(week.shop.units),
        notes,
        outcome,
    };
    (how.told)(&row.name);
    (row, checked)
}
