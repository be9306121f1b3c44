//! Times plans with everything suppliers charge beyond joints: `cargo bench --bench landed`.
//!
//! The demo of buying as it stands; the US demo week and a seeded week of 20 gates bought from three invented
//! suppliers with three lengths of every pipe each: freight by length, free over an amount, lifts, a break, a least
//! order, tax. One line a week, bad ones like the others.

#[path = "../tests/world/demo.rs"]
mod demo;
mod landed_week;
mod made_week;

use std::time::Instant;

use longpoint::check::check;
use longpoint::order::Week;
use longpoint::part::take_off;
use longpoint::plan::{Plan, PlanOptions, make};

fn main() {
    time("demo_buying", &demo::week("demo_buying"));
    let landed = landed_week::landed(demo::files("demo_us"));
    time("demo_us, landed", &landed);
    let landed = landed_week::landed(made_week::files(20, 10, 1));
    time("20 gates, landed", &landed);
}

/// Plans and checks a week once, and prints how long and how well.
fn time(name: &str, week: &Week) {
    let (taken, left_out) = take_off(week);
    let options = PlanOptions {
        partial: true,
        left_out,
        ..PlanOptions::default()
    };
    let start = Instant::now();
    let Ok(plan) = make(week, &taken, &options) else {
        println!("{name:18} cannot be planned");
        return;
    };
    let planning = start.elapsed().as_secs_f64();
    let start = Instant::now();
    match check(week.clone(), taken, plan) {
        Ok(checked) => println!(
            "{name:18} plan {planning:7.2} s  check {:6.2} s  {}",
            start.elapsed().as_secs_f64(),
            tell(checked.plan())
        ),
        Err(violations) => println!("{name:18} REFUSED: {:?}", violations.first()),
    }
}

/// Gates and joints, landed money, and the gap of the whole.
fn tell(plan: &Plan) -> String {
    let quotes = plan.buy.len();
    let money = plan.total.map_or("-".to_owned(), |m| m.to_string());
    let whole = plan.nest.whole.as_ref();
    let gap = whole.map_or(0, |w| w.cost - w.bound) as f64;
    let pipe: i64 = plan.pipes.iter().map(|p| p.pipe_money).sum();
    format!(
        "{} joints of {quotes} quotes, {} left out, {money}, {:?}, gap {:.2} = {:.2} % of pipe money",
        plan.joints.len(),
        plan.left_out.len(),
        whole.map(|w| w.status),
        gap / 1e5,
        100.0 * gap / pipe.max(1) as f64
    )
}
