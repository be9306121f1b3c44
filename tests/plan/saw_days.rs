//! How far each saw gets in a day, by the shop's minutes: a joint handled, and every cut in it. Common practice, no
//! source.

use longpoint::measure::Length;
use longpoint::plan::{PlannedJoint, saw_days};
use rust_decimal::prelude::ToPrimitive;

use crate::judge::planned;
use crate::tiny_week::week;

/// Minutes at the saw: the joint handled, the near trim if it has one, a cut behind each piece but where the last
/// cut takes nothing.
fn minutes(week: &longpoint::order::Week, joint: &PlannedJoint) -> f64 {
    let rules = &week.shop.minutes;
    let number = |d: rust_decimal::Decimal| d.to_f64().expect("a number");
    let trim = u32::from(joint.near > Length::ZERO);
    let last = u32::from(joint.last_cut > Length::ZERO);
    let between = u32::try_from(joint.pieces.len()).expect("few") - 1;
    number(rules.joint) + number(rules.cut) * f64::from(trim + between + last)
}

#[test]
fn a_day_holds_the_joints_whose_minutes_fit_in_it() {
    for saws in [1, 2, 3] {
        let mut week = week();
        week.shop.saw.saws = saws;
        let (_, plan) = planned(&week);
        let joint = |number: u32| plan.joints.iter().find(|j| j.number == number);
        for (at, sitting) in plan.sittings.iter().enumerate() {
            let each: Vec<f64> = (sitting.joints.iter())
                .map(|n| minutes(&week, joint(*n).expect("a joint")))
                .collect();
            let all: f64 = each.iter().sum();
            assert!((sitting.minutes - all).abs() < 1e-9, "saw {}", sitting.saw);
            for cut in 0..=each.len() {
                let day: f64 = each[..cut].iter().sum();
                let said = |hours: f64| saw_days(&week, &plan, hours)[at].cut.clone();
                assert_eq!(said(day / 60.0), sitting.joints[..cut], "{day} minutes");
                if cut > 0 {
                    let short = (day - 0.01) / 60.0;
                    assert_eq!(said(short), sitting.joints[..cut - 1], "just under {day}");
                }
            }
        }
    }
}

/// Each joint in order goes to the saw with least work so far.
#[test]
fn no_saw_waits_while_another_has_a_joint_more() {
    let mut week = week();
    week.shop.saw.saws = 3;
    let (_, plan) = planned(&week);
    let mut work = [0.0; 3];
    for joint in &plan.joints {
        let mine = |s: &longpoint::plan::Sitting| s.joints.contains(&joint.number);
        let at = plan.sittings.iter().position(mine).expect("a saw");
        assert!(
            work.iter().all(|w| work[at] <= *w + 1e-9),
            "joint {}",
            joint.number
        );
        work[at] += minutes(&week, joint);
    }
}
