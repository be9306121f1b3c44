//! Quotes with days to delivery: which joints may serve which gates, in the plan and before the judge.

use crate::judge::{names, planned, print};
use crate::tiny;
use crate::tiny_week::{quote, week};
use jiff::civil::date;
use longpoint::check::{Rule, violations};
use longpoint::order::Week;
use longpoint::part::take_off;
use longpoint::plan::{PlanOptions, make};

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
    for rule in [Rule::JointLate, Rule::NestStockServes, Rule::NestItems] {
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

/// A line that is spliced in any case waits for the first joint that it can be spliced from, not for one
/// that holds it whole.
#[test]
fn a_spliced_line_whose_joints_come_too_late_is_told_the_date() {
    let mut week = late_forties();
    week.rack.clear();
    for quote in &mut week.quotes {
        let long = quote.nominal > tiny::feet(24, 0.0);
        let heavy = quote.pipe == tiny::HEAVY;
        quote.terms.lead_days = Some(if !heavy {
            2
        } else if long {
            30
        } else {
            12
        });
    }
    week.gates[1].due = None;
    let said = refused(&week);
    let lines: Vec<_> = said
        .iter()
        .filter(|i| matches!(i.part.as_deref(), Some("A1-HB" | "A1-HT")))
        .collect();
    assert_eq!(lines.len(), 2, "{said:?}");
    for line in lines {
        assert!(
            line.reason.contains("comes on 2026-03-11"),
            "{}",
            line.reason
        );
        assert!(
            line.change.contains("a due date 2 days later"),
            "{}",
            line.change
        );
        assert!(!line.change.contains("a joint of"), "{}", line.change);
    }
    week.gates[0].due = Some(date(2026, 3, 11));
    planned(&week);
    // Where no place is left for a splice, the date that counts is that of the joint that holds it whole.
    week.gates[0].due = Some(date(2026, 3, 9));
    week.gates[0].excluded_bays = (1..=7).collect();
    let said = refused(&week);
    let line = said.iter().find(|i| i.part.as_deref() == Some("A1-HB"));
    let reason = line.map(|l| l.reason.as_str());
    assert!(
        reason.is_some_and(|r| r.contains("comes on 2026-03-29")),
        "{said:?}"
    );
    // Where no joint holds it either, that they come late is said, and what would do.
    week.quotes
        .retain(|q| q.nominal < tiny::feet(40, 0.0) || q.pipe != tiny::HEAVY);
    let said = refused(&week);
    let line = said.iter().find(|i| i.part.as_deref() == Some("A1-HB"));
    let line = line.expect("the line is named");
    assert!(
        line.reason.contains("by 2026-03-09") && line.reason.contains("2026-03-11"),
        "{}",
        line.reason
    );
    assert!(
        line.change.contains("here by 2026-03-09"),
        "{}",
        line.change
    );
}

/// What the whole week is refused for.
fn refused(week: &Week) -> Vec<longpoint::order::Impossible> {
    let (take_off, left_out) = take_off(week);
    let options = PlanOptions {
        left_out,
        ..PlanOptions::default()
    };
    make(week, &take_off, &options).expect_err("the week cannot be planned")
}
