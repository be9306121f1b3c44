//! Times take-off, plan and check of the demo weeks and of seeded weeks, and states what joint nesting is worth
//! beside simpler ways: `cargo bench --bench weeks [-- --full] [-- ROW...]`.
//!
//! Rows: `demo`, `5` and `20` (seeded weeks of so many gates, by the default work and by 5 and 20 s: plan time, gap), `100` (one week: take-off, plan and
//! check, then as `500`), `500` (nest alone, first plan, memory), `parts` (a list of 10,000 parts: take-off, plan and
//! check, then stopped after a second), `ways5` and `ways20` (gate by gate, longest first, those splices nested, all
//! together). Without `--full` the seeded rows take 5 weeks instead of 30 and `500` and `ways20` are left out.
//! A plain timing loop of the standard library; bad rows are printed like the others.

#[path = "../tests/world/demo.rs"]
mod demo;
mod made_week;
mod spread;
mod ways;

use std::time::{Duration, Instant};

use longpoint::check::check;
use longpoint::nest::{Limits, NoWatch, Status, longest_first, solve};
use longpoint::order::Week;
use longpoint::part::take_off;
use longpoint::plan::{Plan, PlanOptions, make};
use spread::{Spread, percent};

fn main() {
    let arguments: Vec<String> = std::env::args()
        .skip(1)
        .filter(|a| a != "--bench")
        .collect();
    let full = arguments.iter().any(|a| a == "--full");
    let named: Vec<&str> = arguments
        .iter()
        .filter(|a| !a.starts_with("--"))
        .map(String::as_str)
        .collect();
    let usual: &[&str] = if full {
        &["demo", "5", "20", "100", "500", "parts", "ways5", "ways20"]
    } else {
        &["demo", "5", "20", "100", "parts", "ways5"]
    };
    let weeks = if full { 30 } else { 5 };
    for row in if named.is_empty() { usual } else { &named } {
        match *row {
            "demo" => ["demo_us", "demo_metric"]
                .into_iter()
                .for_each(|name| whole(name, &demo::week(name), 5)),
            "5" => seeded(5, weeks, 5),
            "20" => seeded(20, weeks, 20),
            "100" => {
                whole("100 gates", &made_week::week(100, 50, 1), 1);
                large(100, Duration::from_secs(30));
            }
            "500" => large(500, Duration::from_secs(90)),
            "parts" => parts(10_000),
            "ways5" => ways::compare(5, weeks),
            "ways20" => ways::compare(20, weeks),
            other => println!("{other}: no such row"),
        }
    }
}

/// A plan of everything that can be made, within these limits.
fn planned(week: &Week, limits: Limits) -> Option<Plan> {
    let (taken, impossible) = take_off(week);
    let options = PlanOptions {
        partial: true,
        limits,
        left_out: impossible,
        ..PlanOptions::default()
    };
    make(week, &taken, &options).ok()
}

/// Least seconds of each room over some runs of a week, planned within the default work.
fn whole(name: &str, week: &Week, runs: u32) {
    let (mut off, mut planning, mut judging) = (f64::MAX, f64::MAX, f64::MAX);
    let mut told = String::from("cannot be planned");
    for _ in 0..runs {
        let start = Instant::now();
        let (taken, _) = take_off(week);
        off = off.min(seconds(start));
        let start = Instant::now();
        let Some(plan) = planned(week, Limits::default()) else {
            break;
        };
        planning = planning.min(seconds(start));
        let start = Instant::now();
        told = match check(week.clone(), taken, plan) {
            Ok(checked) => format!(
                "{} joints, gap {:.3} %",
                checked.plan().joints.len(),
                gap(checked.plan())
            ),
            Err(violations) => format!("REFUSED: {:?}", violations.first()),
        };
        judging = judging.min(seconds(start));
    }
    println!("{name:12} take-off {off:.4} s  plan {planning:.3} s  check {judging:.3} s  {told}");
}

/// Whole plans of seeded weeks, by the default work and by the seconds allowed.
fn seeded(gates: u32, weeks: u64, allowed: u64) {
    row(gates, weeks, ("default work", Limits::default()));
    let limits = Limits {
        work: u64::MAX / 4,
        time: Some(Duration::from_secs(allowed)),
    };
    row(gates, weeks, (&format!("{allowed} s allowed"), limits));
}

/// Seconds, gap and money of such plans: median and worst.
fn row(gates: u32, weeks: u64, (told, limits): (&str, Limits)) {
    let (mut times, mut gaps, mut open) = <(Spread, Spread, Spread)>::default();
    let (mut proved, mut closed, mut money) = (0, 0, 0);
    for seed in 1..=weeks {
        let week = made_week::week(gates, gates / 2, seed);
        let start = Instant::now();
        let Some(plan) = planned(&week, limits) else {
            println!("{gates} gates, seed {seed}: cannot be planned");
            continue;
        };
        times.add(seconds(start));
        gaps.add(gap(&plan));
        let left = left_open(&plan);
        open.add(left);
        proved += u32::from(plan.pipes.iter().all(|p| p.cost == p.bound));
        closed += u32::from(left <= 0.0);
        money += plan.pipes.iter().map(|p| p.cost).sum::<i64>();
    }
    println!(
        "{gates} gates, {} weeks, {told}: {:.2} in all; plan {times} s; {proved} proved, {closed} counting proofs by search; certified \
         gap {gaps} %, {} within 0.5 %; left open by search {open} %, {} within 0.5 %",
        times.count(),
        money as f64 / 1e5,
        gaps.within(0.5),
        open.within(0.5)
    );
}

/// The nest of one large week: first plan, answer, gap, memory.
fn large(gates: u32, limit: Duration) {
    let week = made_week::week(gates, gates / 2, 1);
    let quick = Limits {
        work: 1,
        time: None,
    };
    let Some(plan) = planned(&week, quick) else {
        println!("{gates} gates: cannot be planned");
        return;
    };
    let problem = plan.nest.problem;
    let start = Instant::now();
    let found = problem.pools.iter().all(|p| longest_first(p).is_some());
    let first = seconds(start);
    let limits = Limits {
        work: u64::MAX / 4,
        time: Some(limit),
    };
    let start = Instant::now();
    let Ok(answer) = solve(&problem, &limits, &NoWatch) else {
        println!("{gates} gates: not admitted");
        return;
    };
    let took = seconds(start);
    let proved = answer
        .pools
        .iter()
        .filter(|p| p.status == Status::Proved)
        .count();
    let (cost, bound) = answer
        .pools
        .iter()
        .fold((0, 0), |(c, b), p| (c + p.cost, b + p.bound));
    println!(
        "{gates} gates, nest alone: first plan {} {first:.3} s; {took:.1} s of {} allowed; \
         {proved}/{} pipes proved; gap {:.3} %; peak memory {}",
        if found { "in" } else { "NOT found in" },
        limit.as_secs(),
        answer.pools.len(),
        percent(cost - bound, cost),
        memory()
    );
}

/// A list of parts: each room by the counted steps, then the plan alone, stopped after a second.
fn parts(pieces: u32) {
    let week = made_week::parts(pieces, 1);
    whole(&format!("{pieces} parts"), &week, 1);
    let limits = Limits {
        time: Some(Duration::from_secs(1)),
        ..Limits::default()
    };
    let start = Instant::now();
    if let Some(plan) = planned(&week, limits) {
        let took = seconds(start);
        println!(
            "the same stopped after 1 s: plan {took:.3} s  gap {:.3} %",
            gap(&plan)
        );
    }
}

/// Peak resident memory of this process, where the system tells it.
fn memory() -> String {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|l| l.strip_prefix("VmHWM:"));
    line.map_or("–".to_owned(), |kilobytes| kilobytes.trim().to_owned())
}

fn seconds(start: Instant) -> f64 {
    start.elapsed().as_secs_f64()
}

/// The same of the pipes that no search closed.
fn left_open(plan: &Plan) -> f64 {
    let closed = |status: Status| matches!(status, Status::Proved | Status::ProvedBySearch);
    let open = plan.pipes.iter().filter(|p| !closed(p.status));
    let gap = open.map(|p| p.cost - p.bound).sum();
    percent(gap, plan.pipes.iter().map(|p| p.pipe_money).sum())
}

/// The gap of a week's money in percent of its pipe money.
fn gap(plan: &Plan) -> f64 {
    let sums = plan.pipes.iter().map(|p| (p.cost - p.bound, p.pipe_money));
    let (gap, money) = sums.fold((0, 0), |(g, m), p| (g + p.0, m + p.1));
    percent(gap, money)
}
