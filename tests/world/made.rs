//! A week's folder made into a checked plan, as the program makes it.

pub use crate::demo::files as demo;

use longpoint::check::{CheckedPlan, check};
use longpoint::order::{Week, WeekFiles, print_faults, read_week};
use longpoint::part::take_off;
use longpoint::plan::{PlanOptions, make};

/// A week in data/, read.
pub fn demo_week(folder: &str) -> Week {
    crate::demo::week(folder)
}

/// A week made and checked.
pub fn checked(files: &WeekFiles) -> CheckedPlan {
    let week = read_week(files).unwrap_or_else(|faults| panic!("{}", print_faults(&faults)));
    checked_week(week)
}

/// The same of a week already read (and changed).
pub fn checked_week(week: Week) -> CheckedPlan {
    let (taken, impossible) = take_off(&week);
    assert!(impossible.is_empty(), "{impossible:?}");
    let options = PlanOptions {
        date: Some(String::from("2026-03-02")),
        ..PlanOptions::default()
    };
    let plan = make(&week, &taken, &options).unwrap_or_else(|why| panic!("{why:?}"));
    check(week, taken, plan).unwrap_or_else(|v| panic!("{v:#?}"))
}
