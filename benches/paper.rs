//! Times what leaves the office: the PDF set, the page, the elevations and the whole results folder
//! (workbook, text, CSV and document with them) of the demo weeks and of a seeded week of 20 gates:
//! `cargo bench --bench paper`.
//!
//! Least of so many runs, one row a week; pages and bytes beside the milliseconds.

#[path = "../tests/demo/mod.rs"]
mod demo;
mod made_week;

use std::hint::black_box;
use std::time::Instant;

use longpoint::check::{CheckedPlan, check};
use longpoint::nest::{Limits, NoWatch};
use longpoint::order::{Week, read_week};
use longpoint::part::take_off;
use longpoint::plan::{PlanOptions, make};
use longpoint::report::page::page;
use longpoint::report::paper::{Paper, elevations, pages, set};
use longpoint::report::results;

const RUNS: u32 = 15;

fn main() {
    for name in ["demo_us", "demo_metric"] {
        let week = read_week(&demo::files(name)).expect("the demo weeks have no faults");
        time(name, week);
    }
    time("20 gates, seed 1", made_week::week(20, 10, 1));
}

fn checked(week: Week) -> CheckedPlan {
    let (taken, left_out) = take_off(&week);
    let options = PlanOptions {
        partial: true,
        date: None,
        revision: 0,
        limits: Limits::default(),
        watch: &NoWatch,
        left_out,
    };
    let plan = make(&week, &taken, &options).expect("it can be planned");
    check(week, taken, plan).expect("the plan holds")
}

fn time(name: &str, week: Week) {
    let plan = checked(week);
    let sheets = pages(&plan, Paper::Letter).len();
    let bytes = set(&plan, Paper::Letter).len();
    println!(
        "{name:17} {sheets:3} pages, {:5} kB  set {:6.1} ms  page {:6.1} ms  elevations {:5.1} ms  all results {:6.1} ms",
        bytes / 1024,
        least(|| set(&plan, Paper::Letter)),
        least(|| page(&plan)),
        least(|| elevations(&plan)),
        least(|| results(&plan, Paper::Letter)),
    );
}

/// Least milliseconds of [`RUNS`].
fn least<T>(mut work: impl FnMut() -> T) -> f64 {
    let once = |_| {
        let start = Instant::now();
        black_box(work());
        start.elapsed().as_secs_f64() * 1e3
    };
    (0..RUNS).map(once).fold(f64::INFINITY, f64::min)
}
