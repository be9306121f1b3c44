//! Times the whole travel of a 46 ft and a 61 ft gate, and what share of planning and checking a demo
//! week its gates' envelopes are: `cargo bench --bench statics`.
//!
//! A plain timing loop of the standard library: one number a gate is wanted, against an aim
//! (46 ft under 5 ms, 61 ft under 10 ms, one core), no statistics crate.

#[path = "../tests/world/demo.rs"]
mod demo;
#[path = "../tests/statics/gates.rs"]
#[allow(dead_code)]
mod gates;

use std::hint::black_box;
use std::time::Instant;

use longpoint::check::check;
use longpoint::order::Carrier;
use longpoint::part::take_off;
use longpoint::plan::{PlanOptions, make};
use longpoint::statics::{Model, Section, StaticsFault, envelope, model};

fn main() -> Result<(), StaticsFault> {
    let heavy = Section {
        od: 2.875,
        wall: 0.203,
    };
    let web = Section {
        od: 1.9,
        wall: 0.145,
    };
    let cases = [
        ("46 ft leaf, bottom", gates::gate("G30x6"), 5.0),
        (
            "61 ft leaf, bottom",
            gates::open(480.0, 96.0, heavy, web),
            10.0,
        ),
        (
            "61 ft leaf, both held",
            Model {
                carrier: Carrier::Both,
                ..gates::open(480.0, 96.0, heavy, web)
            },
            10.0,
        ),
        (
            "61 ft leaf, landings moved",
            Model {
                landing: 3.0,
                ..gates::open(480.0, 96.0, heavy, web)
            },
            10.0,
        ),
    ];
    for (name, model, aim) in cases {
        let mut times = Vec::new();
        for _ in 0..200 {
            let start = Instant::now();
            black_box(envelope(black_box(&model))?);
            times.push(start.elapsed().as_secs_f64() * 1e3);
        }
        times.sort_by(f64::total_cmp);
        let positions = envelope(&model)?.positions;
        println!(
            "{name:28} {positions:4} places  median {:.3} ms  least {:.3} ms  aim {aim} ms",
            times[100], times[0]
        );
    }
    for name in ["demo_us", "demo_metric"] {
        share(name)?;
    }
    Ok(())
}

/// The envelopes of every gate of a week, once, beside the whole of planning and checking it.
fn share(name: &str) -> Result<(), StaticsFault> {
    let week = demo::week(name);
    let (taken, left_out) = take_off(&week);
    let start = Instant::now();
    for frame in &taken.frames {
        black_box(envelope(&model(&week, frame))?);
    }
    let once = start.elapsed().as_secs_f64() * 1e3;
    let gates = taken.frames.len();
    let options = PlanOptions {
        left_out,
        ..PlanOptions::default()
    };
    let start = Instant::now();
    let plan = make(&week, &taken, &options);
    let checked = plan.ok().map(|plan| check(week, taken, plan).is_ok());
    let whole = start.elapsed().as_secs_f64() * 1e3;
    println!(
        "{name:28} {gates} gates' envelopes {once:.1} ms, planned and checked {whole:.0} ms ({:.2} %), \
         passed: {}",
        100.0 * once / whole,
        checked.unwrap_or(false)
    );
    Ok(())
}
