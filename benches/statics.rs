//! Times the whole travel of a 46 ft and a 61 ft gate: `cargo bench --bench statics`.
//!
//! A plain timing loop of the standard library: one number a gate is wanted, against an aim
//! (46 ft under 5 ms, 61 ft under 10 ms, one core), no statistics crate.

#[path = "../tests/statics/gates.rs"]
#[allow(dead_code)]
mod gates;

use std::hint::black_box;
use std::time::Instant;

use longpoint::order::Carrier;
use longpoint::statics::{Model, Section, StaticsFault, envelope};

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
    Ok(())
}
