//! Good plans pass the judge.

mod judge;

use judge::{demo, demos, planned, print};
use longpoint::check::violations;

#[test]
fn the_plans_of_the_demo_weeks_pass() {
    for folder in demos() {
        let week = demo(&folder);
        let (take_off, plan) = planned(&week);
        let found = violations(&week, &take_off, &plan);
        assert!(found.is_empty(), "{folder}:\n{}", print(&found));
    }
}
