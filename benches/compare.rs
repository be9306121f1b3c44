//! Times a comparison against one plan of the same week: `cargo bench --bench compare`.
//!
//! The aim: twelve variants under ten times one plan, on two cores. Break-even figures are timed apart.

#[path = "../tests/world/demo.rs"]
mod demo;

use std::time::Instant;

use longpoint::compare::{How, Offer, Shelf, Variant, Wishes, compare, run, variants};
use longpoint::nest::{Limits, NoWatch};
use longpoint::part::take_off;
use rayon::prelude::*;

const HOW: How<'static> = How::unwatched(Limits {
    work: 200_000_000,
    time: None,
});

fn main() {
    for name in ["demo_us", "demo_metric", "demo_small"] {
        let week = demo::week(name);
        let offer = Offer::of(&week, &take_off(&week).0, None).expect("no pair is asked for");
        let mut rows: Vec<Variant> = variants(&week, &offer, &Wishes::default());
        rows.truncate(12);
        let mut plan = f64::MAX;
        for _ in 0..3 {
            plan = plan.min(seconds(|| {
                run(&week, &rows[0], HOW);
            }));
        }
        let twelve = seconds(|| {
            // As a comparison does: one shelf of answers for all rows.
            let shelf = Shelf::new(&NoWatch);
            let how = How {
                watch: &shelf,
                ..HOW
            };
            let done: Vec<_> = rows.par_iter().map(|v| run(&week, v, how)).collect();
            assert_eq!(done.len(), rows.len());
        });
        let all = seconds(|| {
            let found = compare(&week, &Wishes::default(), HOW);
            assert!(found.is_ok_and(|c| c.rows.len() >= rows.len()));
        });
        println!(
            "{name:12} plan {plan:6.2} s  {} variants {twelve:6.2} s = {:4.1} x  whole comparison {all:6.2} s",
            rows.len(),
            twelve / plan
        );
    }
}

fn seconds(work: impl FnOnce()) -> f64 {
    let start = Instant::now();
    work();
    start.elapsed().as_secs_f64()
}
