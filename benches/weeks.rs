//! Times take-off, plan and check of the demo weeks and of seeded weeks:
//! `cargo bench --bench weeks [-- GATES...]` (default 5, 20 and 100 gates).
//!
//! A plain timing loop of the standard library, one line a week: gates, joints, status and gap of
//! the week's money beside the milliseconds, bad rows included.

#[path = "../tests/demo/mod.rs"]
mod demo;
mod made_week;

use std::time::Instant;

use longpoint::check::check;
use longpoint::nest::{Limits, NoWatch};
use longpoint::order::Week;
use longpoint::part::take_off;
use longpoint::plan::{Plan, PlanOptions, make};

fn main() {
    for demo in ["demo_us", "demo_metric"] {
        time(demo, &demo::week(demo), 5);
    }
    let mut asked: Vec<u32> = std::env::args().filter_map(|a| a.parse().ok()).collect();
    if asked.is_empty() {
        asked = vec![5, 20, 100];
    }
    for gates in asked {
        let weeks = if gates > 20 { 1 } else { 5 };
        for seed in 1..=weeks {
            let week = made_week::week(gates, gates / 2, seed);
            time(&format!("{gates} gates, seed {seed}"), &week, 1);
        }
    }
}

/// Runs one week `runs` times and prints the least milliseconds of each room.
fn time(name: &str, week: &Week, runs: u32) {
    let (mut off, mut planning, mut judging) = (f64::MAX, f64::MAX, f64::MAX);
    let mut last = None;
    for _ in 0..runs {
        let start = Instant::now();
        let (taken, impossible) = take_off(week);
        off = off.min(ms(start));
        let options = PlanOptions {
            partial: true,
            date: None,
            revision: 0,
            limits: Limits::default(),
            watch: &NoWatch,
            left_out: impossible,
        };
        let start = Instant::now();
        let Ok(plan) = make(week, &taken, &options) else {
            println!("{name:22} cannot be planned");
            return;
        };
        planning = planning.min(ms(start));
        let start = Instant::now();
        match check(week.clone(), taken, plan) {
            Ok(checked) => last = Some(checked),
            Err(violations) => println!("{name:22} REFUSED: {:?}", violations.first()),
        }
        judging = judging.min(ms(start));
    }
    if let Some(checked) = last {
        println!(
            "{name:22} take-off {off:7.2} ms  plan {planning:9.1} ms  check {judging:8.1} ms  {}",
            tell(checked.plan())
        );
    }
}

fn ms(start: Instant) -> f64 {
    start.elapsed().as_secs_f64() * 1e3
}

/// Joints, left-out gates, pipes proved, and the gap of the week in percent of pipe money.
fn tell(plan: &Plan) -> String {
    let proved = plan.pipes.iter().filter(|p| p.cost == p.bound).count();
    let (gap, money) = plan
        .pipes
        .iter()
        .fold((0, 0), |(g, m), p| (g + p.cost - p.bound, m + p.pipe_money));
    format!(
        "{} joints, {} left out, {proved}/{} pipes proved, gap {:.3} %",
        plan.joints.len(),
        plan.left_out.len(),
        plan.pipes.len(),
        100.0 * gap as f64 / money.max(1) as f64
    )
}
