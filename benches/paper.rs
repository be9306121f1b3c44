//! Times what leaves the office: the PDF set, the page, the elevations and the whole results folder
//! (workbook, text, CSV and document with them) of the demo weeks and of a seeded week of 20 gates:
//! `cargo bench --bench paper`.
//!
//! Least wall milliseconds of so many runs and, in brackets, mean milliseconds of processor time of all
//! threads (which other work on the machine disturbs less), one row a week; pages and bytes beside.

#[path = "../tests/world/demo.rs"]
mod demo;
mod made_week;

use std::hint::black_box;
use std::time::Instant;

use longpoint::check::{CheckedPlan, check};
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
        left_out,
        ..PlanOptions::default()
    };
    let plan = make(&week, &taken, &options).expect("it can be planned");
    check(week, taken, plan).expect("the plan holds")
}

fn time(name: &str, week: Week) {
    let plan = checked(week);
    let sheets = pages(&plan, Paper::Letter).len();
    let bytes = set(&plan, Paper::Letter).len();
    println!(
        "{name:17} {sheets:3} pages, {:5} kB  set {}  page {}  elevations {}  all results {}",
        bytes / 1024,
        timed(|| set(&plan, Paper::Letter)),
        timed(|| page(&plan)),
        timed(|| elevations(&plan)),
        timed(|| results(&plan, Paper::Letter)),
    );
}

/// Least wall milliseconds of [`RUNS`] and mean processor milliseconds.
fn timed<T>(mut work: impl FnMut() -> T) -> String {
    let before = processor_ms();
    let once = |_| {
        let start = Instant::now();
        black_box(work());
        start.elapsed().as_secs_f64() * 1e3
    };
    let least = (0..RUNS).map(once).fold(f64::INFINITY, f64::min);
    match before.zip(processor_ms()) {
        Some((a, b)) => format!("{least:.1} ms ({:.1})", (b - a) / f64::from(RUNS)),
        None => format!("{least:.1} ms"),
    }
}

/// Processor time of this process so far, where the system tells it (Linux, in 1/100 s).
fn processor_ms() -> Option<f64> {
    let stat = std::fs::read_to_string("/proc/self/stat").ok()?;
    let fields: Vec<&str> = stat.rsplit(')').next()?.split_whitespace().collect();
    let ticks = |at: usize| fields.get(at)?.parse::<f64>().ok();
    Some((ticks(11)? + ticks(12)?) * 10.0)
}
