//! A splice where the gate works hardest stands only by leave of the order or the shop: the judge,
//! who computes the bending anew, says so by name.

use crate::judge::{names, planned, print};
use crate::tiny;
use crate::tiny_week;
use longpoint::check::{Rule, violations};
use longpoint::measure::{Length, Money};
use longpoint::order::Week;
use longpoint::part::TakeOff;
use longpoint::plan::Plan;
use longpoint::splice::WindowClass;
use longpoint::statics::Line;
use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive;

const RULE: Rule = Rule::SpliceHighStress;

/// The tiny week with roller bays open to their middles: stress alone keeps splices from there.
fn open_to_the_middle() -> Week {
    let mut week = tiny_week::week();
    week.shop.splice.roller_bay_reach = tiny::dec("0.50");
    week.shop.splice.tolerated_reach = tiny::dec("0.50");
    week
}

/// Moves the splice of the first spliced bottom horizontal to the middle of its most stressed bay that
/// is no end bay; the stress there as a share of the gate's peak.
fn onto_the_peak(plan: &mut Plan) -> f64 {
    let set = &plan.splice_sets[0];
    let bent = set.bending.clone().expect("the bending is computed");
    let bottom = set
        .lines
        .iter()
        .find(|l| l.horizontal == Some(Line::Bottom));
    let (part, x_long) = bottom.map(|l| (l.part, l.x_long)).expect("it is spliced");
    let bays = 2..bent.bays();
    let middle = |bay: usize| (bent.line_at(bay - 1) + bent.line_at(bay)) / 2.0;
    let by_stress = |a: &usize, b: &usize| {
        let rel = |bay: usize| bent.rel(Line::Bottom, middle(bay));
        rel(*a).total_cmp(&rel(*b))
    };
    let bay = bays.max_by(by_stress).expect("there are inner bays");
    let line = plan.spliced.iter_mut().find(|s| s.part == part);
    let line = line.expect("a spliced bottom horizontal");
    let wanted = middle(bay) - x_long.geometric() - line.splices[0].centre;
    let by = Length::nearest_mark(wanted, Length::from_64ths(4));
    line.pieces[0] += by;
    line.pieces[1] -= by;
    bent.rel(Line::Bottom, middle(bay))
}

fn found(week: &Week, take_off: &TakeOff, plan: &Plan) -> Vec<longpoint::check::Violation> {
    violations(week, take_off, plan)
}

#[test]
fn a_splice_moved_over_the_refused_share_is_named() {
    let week = open_to_the_middle();
    let (take_off, mut plan) = planned(&week);
    assert!(found(&week, &take_off, &plan).is_empty());
    let rel = onto_the_peak(&mut plan);
    assert!(rel > 0.60, "rel {rel}");
    let said = found(&week, &take_off, &plan);
    assert!(names(&said, RULE), "{}", print(&said));
    // Stress is what keeps it from there, nothing else does.
    for other in [
        Rule::SpliceRollerBayReach,
        Rule::SpliceClearOfToes,
        Rule::SpliceEndBay,
    ] {
        assert!(!names(&said, other), "{}", print(&said));
    }
    let detail = &said.iter().find(|v| v.rule == RULE).expect("named").detail;
    assert!(detail.contains("of the gate's peak"), "{detail}");
    // By leave of the order, or of the shop, stress is no reason.
    let mut ordered = week.clone();
    ordered.gates[0].high_stress = true;
    let mut shop = week.clone();
    shop.shop.splice.refuse_over = Decimal::ONE;
    for permitted in [ordered, shop] {
        assert!(!names(&found(&permitted, &take_off, &plan), RULE));
    }
}

#[test]
fn leave_taken_back_is_named_and_leave_given_is_paid() {
    let mut week = tiny_week::week();
    // Every splice stands over this share; the order permits it.
    week.shop.splice.charge_over = Decimal::ZERO;
    week.shop.splice.refuse_over = Decimal::ZERO;
    week.gates[0].high_stress = true;
    week.gates.remove(2);
    let (take_off, plan) = planned(&week);
    assert!(found(&week, &take_off, &plan).is_empty());
    let splices: Vec<_> = plan.spliced.iter().flat_map(|l| &l.splices).collect();
    assert!(splices.len() >= 4);
    assert!(splices.iter().all(|s| s.class == WindowClass::ByOrder));
    let charged = plan.ledger.expect("priced").classes;
    let each = week.shop.splice.high_stress_charge;
    let count = Decimal::from(splices.len());
    assert_eq!(charged, Money(each.0 * count));
    // Taken back for all but the calmer places: the hardest worked splice is the one named.
    let rels = splices.iter().filter_map(|s| s.rel);
    let hardest = rels
        .max_by(f64::total_cmp)
        .expect("the bending is computed");
    let just_under = Decimal::from_f64(hardest - 1e-6).expect("a share");
    week.shop.splice.charge_over = just_under;
    week.shop.splice.refuse_over = just_under;
    week.gates[0].high_stress = false;
    let said = found(&week, &take_off, &plan);
    let of_rule: Vec<_> = said.iter().filter(|v| v.rule == RULE).collect();
    assert!(!of_rule.is_empty(), "{}", print(&said));
    assert!(of_rule.iter().all(|v| v.subject.contains("A1-HB")));
}

/// Windows that reach into the last twentieth of a bay are of that bay's stress alone: plan and judge read the
/// same side of the bay line.
#[test]
fn windows_close_to_a_bay_line_are_of_their_own_bay() {
    for clear in ["0.1", "0.3", "0.5"] {
        let mut week = open_to_the_middle();
        week.shop.splice.clear_ods = tiny::dec(clear);
        week.shop.splice.clear_least_ods = tiny::dec(clear);
        week.shop.splice.clear_least = Length::from_64ths(8);
        let (take_off, plan) = planned(&week);
        let found = found(&week, &take_off, &plan);
        assert!(found.is_empty(), "{clear}: {}", print(&found));
    }
}
