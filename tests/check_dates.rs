//! Quotes with days to delivery: which joints may serve which gates, in the plan and before the judge.

mod judge;
mod tiny;
mod tiny_week;

use jiff::civil::date;
use judge::{names, planned, print};
use longpoint::check::violations;
use longpoint::order::Week;
use longpoint::part::take_off;
use longpoint::plan::{PlanOptions, make};
use tiny_week::{quote, week};

/// The invented week; its 40s come after the early gate's pipe is wanted.
fn late_forties() -> Week {
    let mut week = week();
    week.shop.buying.order_date = Some(date(2026, 2, 27));
    week.quotes.push(quote(tiny::HEAVY, 40, "120.00"));
    for quote in &mut week.quotes {
        let long = quote.nominal > tiny::feet(24, 0.0);
        quote.terms.lead_days = Some(if long { 8 } else { 2 });
    }
    week
}

#[test]
fn late_joints_serve_late_gates_alone() {
    let week = late_forties();
    let (take_off, plan) = planned(&week);
    let found = violations(&week, &take_off, &plan);
    assert!(found.is_empty(), "{}", print(&found));
    let pool = &plan.nest.problem.pools[1];
    assert!(pool.stocks.iter().any(|s| s.serves == u32::MAX << 1));
    assert!(pool.items.iter().any(|i| i.class == 0));
    // The long gates, due later, take a 40 that the early gate may not.
    let long = |j: &&longpoint::plan::PlannedJoint| j.length > tiny::feet(24, 0.0);
    assert!(plan.joints.iter().filter(long).count() > 0);
}

#[test]
fn a_piece_out_of_a_joint_that_is_not_here_yet_is_refused() {
    let mut week = late_forties();
    let (take_off, plan) = planned(&week);
    for quote in &mut week.quotes {
        quote.terms.lead_days = Some(40);
    }
    let found = violations(&week, &take_off, &plan);
    for rule in ["joint-late", "nest-stock-serves", "nest-items"] {
        assert!(names(&found, rule), "{rule}: {}", print(&found));
    }
}

#[test]
fn a_gate_due_before_any_joint_comes_is_named() {
    let mut week = late_forties();
    week.rack.clear();
    week.quotes
        .iter_mut()
        .for_each(|q| q.terms.lead_days = Some(9));
    let (take_off, left_out) = take_off(&week);
    let options = PlanOptions {
        left_out,
        ..PlanOptions::default()
    };
    let said = make(&week, &take_off, &options).expect_err("too late");
    assert!(said.iter().all(|i| i.mark == "A2"), "{said:?}");
    assert!(
        said[0].reason.contains("comes on 2026-03-08"),
        "{}",
        said[0].reason
    );
    assert!(said[0].change.contains("a due date"), "{}", said[0].change);
}

/// With a rack that holds a little, the reason is still that the joints come too late.
#[test]
fn a_rack_does_not_hide_that_joints_come_too_late() {
    let mut week = late_forties();
    for quote in &mut week.quotes {
        quote.terms.lead_days = Some(9);
    }
    for length in [8, 19] {
        for pipe in [tiny::HEAVY, tiny::LIGHT] {
            let mut week = week.clone();
            week.rack.truncate(1);
            week.rack[0].pipe = pipe;
            week.rack[0].length = tiny::feet(length, 0.0);
            let (take_off, left_out) = take_off(&week);
            let options = PlanOptions {
                left_out,
                ..PlanOptions::default()
            };
            let said = make(&week, &take_off, &options).expect_err("too late");
            for item in said.iter().filter(|i| i.mark == "A2") {
                assert!(
                    item.reason.contains("comes on 2026-03-08"),
                    "{}",
                    item.reason
                );
            }
            assert!(said.iter().any(|i| i.mark == "A2"), "{said:?}");
        }
    }
}
