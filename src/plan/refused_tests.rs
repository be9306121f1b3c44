//! What cannot be planned, or not in full: named, with the numbers.

use super::tests::{identity, mixed, options, origin, plan};
use super::*;
use crate::order::{ExtraPart, Impossible, Week};
use crate::splice::world::{WEB, inch, take_off};

fn refused(week: &Week) -> Vec<Impossible> {
    make(week, &take_off(week), &options()).expect_err("the week cannot be planned")
}

#[test]
fn a_part_longer_than_every_joint_is_named_with_what_frees_it() {
    let mut week = mixed();
    week.extras.push(ExtraPart {
        mark: "H1".to_owned(),
        pipe: WEB,
        length: inch(251.5 + 1.0 / 16.0),
        count: 1,
        paperwork: Default::default(),
        note: String::new(),
        origin: origin(),
    });
    let said = &refused(&week)[0];
    assert_eq!((said.mark.as_str(), said.extra), ("H1", Some(0)));
    assert!(said.reason.contains("20'-11 1/2\""), "{}", said.reason);
    assert!(said.change.contains("21'-0 1/16\""), "{}", said.change);
    // Exactly what the joint holds is cut.
    week.extras[0].length = inch(251.5);
    identity(&week, &plan(&week));
}

#[test]
fn partial_leaves_out_by_name_and_plans_the_rest() {
    let mut week = mixed();
    week.gates[1].excluded_bays = (2..=7).collect();
    assert_eq!(refused(&week).len(), 1);
    let partial = PlanOptions {
        partial: true,
        ..options()
    };
    let plan = make(&week, &take_off(&week), &partial).expect("the rest can be planned");
    assert_eq!(plan.left_out.len(), 1);
    assert_eq!(plan.left_out[0].mark, "A2");
    assert!(
        plan.joints
            .iter()
            .flat_map(|j| &j.pieces)
            .all(|p| !p.mark.starts_with("A2"))
    );
    assert_eq!(plan.done.len(), 3);
}

#[test]
fn a_missing_price_plans_by_joints_and_prints_no_money() {
    let mut week = mixed();
    week.quotes[0].price = None;
    let plan = plan(&week);
    assert_eq!(plan.total, None);
    assert_eq!(plan.buy.iter().filter(|b| b.money.is_none()).count(), 1);
    assert!(
        plan.references
            .iter()
            .all(|r| r.money.is_none() && r.joints > 0)
    );
    identity(&week, &plan);
}

#[test]
fn joints_that_run_out_are_said() {
    let mut week = mixed();
    week.quotes[0].available = Some(8);
    let said = refused(&week);
    assert!(!said.is_empty());
    assert!(said[0].reason.contains("run out"), "{}", said[0].reason);
    // What could be made is not named: all of these are left out with `partial`.
    let partial = PlanOptions {
        partial: true,
        ..options()
    };
    let plan = make(&week, &take_off(&week), &partial).expect("the rest can be planned");
    assert!(said.iter().all(|s| plan.left_out.contains(s)), "{said:?}");
    assert!(said.len() < week.gates.len(), "{said:?}");
}

/// Each row of an offer with a break has joints enough for the parts; both rows together have not.
#[test]
fn joints_that_run_out_over_all_breaks_are_said_too() {
    let mut week = mixed();
    week.gates.iter_mut().for_each(|g| g.count = 0);
    week.extras = vec![ExtraPart {
        mark: "H1".to_owned(),
        pipe: WEB,
        length: inch(200.0),
        count: 5,
        paperwork: Default::default(),
        note: String::new(),
        origin: origin(),
    }];
    week.quotes.retain(|q| q.pipe == WEB);
    week.quotes.truncate(1);
    week.quotes[0].available = Some(4);
    let mut many = week.quotes[0].clone();
    many.terms.from = 4;
    week.quotes.push(many);
    week.rack.clear();
    let said = refused(&week);
    assert_eq!(said.len(), 1, "{said:?}");
    assert_eq!(said[0].extra, Some(0));
    week.extras[0].count = 4;
    let plan = plan(&week);
    assert_eq!(plan.buy.iter().map(|b| b.joints).sum::<u32>(), 4);
}

#[test]
fn a_pipe_that_is_not_on_sale_is_said_to_be_none() {
    let mut week = mixed();
    let pipe = week.quotes[0].pipe;
    week.quotes.retain(|q| q.pipe != pipe);
    let said = refused(&week);
    let on_rack = week.rack.iter().any(|r| r.pipe == pipe);
    for one in &said {
        let reason = &one.reason;
        assert!(
            reason.contains("no joint of") || reason.contains("no new joint of"),
            "{reason} ({on_rack})"
        );
    }
    assert!(!said.is_empty());
}

/// What a plan keeps and nothing of the week could be cut from is said, pipe by pipe, with the length
/// from which it could.
#[test]
fn kept_drops_under_every_part_are_warned_of() {
    let mut week = mixed();
    week.shop.money.keep_length = inch(1.0);
    let parts = take_off(&week);
    let done = plan(&week);
    let notices = keep_notices(&week, &parts, &done);
    assert!(!notices.is_empty(), "{:?}", done.kept);
    for notice in &notices {
        assert_eq!(notice.severity, crate::order::Severity::Warning);
        assert_eq!(notice.column.as_deref(), Some("money.keep_length"));
    }
    // With nothing kept that short, none is.
    week.shop.money.keep_length = inch(240.0);
    assert_eq!(keep_notices(&week, &parts, &plan(&week)), []);
}

#[test]
fn a_policy_that_forbids_splices_is_named_where_splices_would_do() {
    let mut week = mixed();
    week.shop.splice.policy = crate::order::SplicePolicy::Never;
    let said = refused(&week);
    assert!(!said.is_empty());
    for one in &said {
        let change = &one.change;
        assert!(change.contains("splice.policy forbids"), "{change}");
    }
    week.shop.splice.policy = crate::order::SplicePolicy::AsFewAsNeeded;
    plan(&week);
}
