//! Landed money: freight, lifts, minimum orders, breaks and tax in a plan, to the cent, and before the judge.

use crate::judge::{names, planned, print};
use crate::tiny;
use crate::tiny_week::{landed, money, of, quote};
use longpoint::check::{Rule, violations};
use longpoint::measure::Money;
use longpoint::nest::Status;
use longpoint::order::{FreightStep, Supplier};
use longpoint::plan::{FeeKind, JointSource};

#[test]
fn a_landed_plan_passes_and_adds_up_to_the_cent() {
    let week = landed();
    let (take_off, plan) = planned(&week);
    let found = violations(&week, &take_off, &plan);
    assert!(found.is_empty(), "{}", print(&found));
    let ledger = plan.ledger.expect("priced");
    assert_eq!(plan.total, Some(ledger.total()));
    let sum = |kind| {
        let fees = plan.fees.iter().filter(|f| f.kind == kind);
        fees.map(|f| f.money).sum::<Money>()
    };
    assert!(ledger.freight >= money("65"));
    assert_eq!(ledger.freight, sum(FeeKind::Freight));
    assert_eq!(ledger.lifts, sum(FeeKind::Lift));
    let taxes: Money = plan.buy.iter().filter_map(|b| b.tax).sum();
    assert_eq!(ledger.tax, taxes);
    for line in &plan.buy {
        let exact =
            week.quotes[line.quote].price.expect("priced").0 * tiny::dec(&line.joints.to_string());
        assert_eq!(line.money, Some(Money(exact).cents()));
    }
    let whole = plan.nest.whole.as_ref().expect("charges");
    let off = (plan.total.expect("priced") - Money::from_millicents(whole.cost))
        .0
        .abs();
    assert!(
        off < tiny::dec("0.10"),
        "lines are off the exact cost by {off}"
    );
}

#[test]
fn the_break_is_taken_where_the_count_earns_it() {
    let (_, plan) = planned(&landed());
    let light: Vec<_> = plan
        .buy
        .iter()
        .filter(|b| [2, 3].contains(&b.quote))
        .collect();
    assert_eq!(light.len(), 1, "one price for all joints of an offer");
    assert_eq!(light[0].quote == 3, light[0].joints >= 5);
}

/// The dearer row of a break would bring the order up to free freight; a supplier bills the price that the
/// count earns, so the freight is due.
#[test]
fn free_freight_is_not_reached_by_paying_more_than_the_count_earns() {
    let mut week = landed();
    week.gates.iter_mut().for_each(|g| g.count = 0);
    week.rack.clear();
    week.extras[0].pipe = tiny::HEAVY;
    week.extras[0].length = tiny::feet(16, 0.0);
    week.extras[0].count = 4;
    let few = of("Ada", quote(tiny::HEAVY, 21, "97"));
    let mut many = of("Ada", quote(tiny::HEAVY, 21, "96"));
    many.terms.from = 2;
    week.quotes = vec![few, many];
    week.suppliers.truncate(1);
    let step = FreightStep {
        up_to: None,
        amount: money("30"),
    };
    week.suppliers[0].freight = vec![step];
    // Four joints cost 388 at the first price, and 384 at the one they are billed at.
    week.suppliers[0].free_over = Some(money("386"));
    let (take_off, plan) = planned(&week);
    let found = violations(&week, &take_off, &plan);
    assert!(found.is_empty(), "{}", print(&found));
    let whole = plan.nest.whole.as_ref().expect("charges");
    assert_eq!((whole.status, whole.bound), (Status::Proved, whole.cost));
    let ledger = plan.ledger.expect("priced");
    assert_eq!((ledger.pipe, ledger.freight), (money("384"), money("30")));
}

#[test]
fn a_minimum_is_reached_by_joints_left_whole_where_that_is_cheaper() {
    let mut week = landed();
    week.shop.money.credit_rate = tiny::dec("0.95");
    week.quotes.truncate(1);
    week.quotes.push(of("Ada", quote(tiny::LIGHT, 21, "46.20")));
    week.suppliers = vec![Supplier {
        name: "Ada".into(),
        minimum: Some(money("1700")),
        ..Supplier::default()
    }];
    let (take_off, plan) = planned(&week);
    let found = violations(&week, &take_off, &plan);
    assert!(found.is_empty(), "{}", print(&found));
    assert!(!plan.uncut.is_empty(), "{:?}", plan.buy);
    let whole: u32 = plan.uncut.iter().map(|u| u.joints).sum();
    let bought: u32 = plan.buy.iter().map(|b| b.joints).sum();
    let cut = plan
        .joints
        .iter()
        .filter(|j| matches!(j.source, JointSource::Bought(_)));
    assert_eq!(usize::try_from(bought - whole), Ok(cut.count()));
    let mut spoiled = plan.clone();
    spoiled.uncut[0].credit = Money::ZERO;
    assert!(names(
        &violations(&week, &take_off, &spoiled),
        Rule::UncutCredit
    ));
    spoiled.uncut.clear();
    let found = violations(&week, &take_off, &spoiled);
    assert!(names(&found, Rule::BuyJoints) && names(&found, Rule::NestPatterns));
}
