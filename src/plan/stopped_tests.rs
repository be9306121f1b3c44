//! A plan stopped at any look at the clock: whole, or not there and said so.

use std::sync::atomic::{AtomicUsize, Ordering};

use super::tests::{identity, mixed, options};
use super::*;
use crate::nest::Watch;
use crate::order::{Impossible, Week};
use crate::splice::world::{take_off, week};

/// Asks to stop from its n-th look on.
struct From {
    looks: AtomicUsize,
    stop_at: usize,
}

impl Watch for From {
    fn stop_requested(&self) -> bool {
        self.looks.fetch_add(1, Ordering::SeqCst) >= self.stop_at
    }
}

/// What is planned when the search is asked to stop from that look on.
fn stopped(week: &Week, partial: bool, stop_at: usize) -> Result<Plan, Vec<Impossible>> {
    let watch = From {
        looks: AtomicUsize::new(0),
        stop_at,
    };
    let options = PlanOptions {
        partial,
        watch: &watch,
        ..options()
    };
    make(week, &take_off(week), &options)
}

#[test]
fn a_plan_stopped_anywhere_is_whole() {
    let long = week(&[("L1", 1_200.0, 72.0, 1, 20), ("L2", 288.0, 72.0, 1, 12)]);
    for week in [&long, &mixed()] {
        for stop_at in (0..11).map(|n| (1 << n) - 1) {
            let plan = stopped(week, false, stop_at).expect("the first plan takes no search");
            assert!(plan.left_out.is_empty(), "{:?}", plan.left_out);
            identity(week, &plan);
        }
    }
}

/// Common practice, no source: a search that was cut short has ruled nothing out, and blames no stock.
#[test]
fn a_search_stopped_before_its_first_plan_says_that_it_found_none() {
    let long = week(&[("L1", 2_280.0, 72.0, 1, 20)]);
    for partial in [false, true] {
        let said = stopped(&long, partial, 0).expect_err("its splices alone take a search");
        assert_eq!(said.len(), 1, "{said:?}");
        assert!(said[0].reason.contains("was stopped"), "{said:?}");
        assert_eq!((said[0].gate, said[0].mark.as_str()), (None, ""));
    }
}
