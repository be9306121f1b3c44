//! What each gate costs: shares that add up to the plan's money, by the rule as printed.

use crate::judge::planned;
use crate::{judge, tiny, tiny_week};
use longpoint::check::violations;
use longpoint::measure::Money;
use longpoint::order::Week;
use longpoint::plan::Plan;

fn sum(plan: &Plan) -> Money {
    plan.gate_costs.iter().map(|c| c.total).sum()
}

#[test]
fn rows_add_up_to_the_plan_to_the_cent() {
    let week = tiny_week::week();
    let (_, plan) = planned(&week);
    let total = plan.total.expect("every joint has a price");
    assert_eq!(sum(&plan), total.cents());
    let marks: Vec<(Option<usize>, Option<usize>)> =
        plan.gate_costs.iter().map(|c| (c.gate, c.extra)).collect();
    let gates = [(Some(0), None), (Some(1), None), (Some(2), None)];
    assert_eq!(marks[..3], gates);
    assert_eq!(marks[3], (None, Some(0)));
    for cost in &plan.gate_costs {
        assert_eq!(cost.pipe + cost.splices + cost.shared, cost.total);
        assert_eq!(cost.shared, Money::ZERO, "no freight is quoted");
    }
    let spliced = &plan.gate_costs[0];
    assert!(spliced.splices.0 >= tiny::dec("160"), "{spliced:?}");
    assert_eq!(plan.gate_costs[1].splices, Money::ZERO);
}

/// One gate alone bears everything: joints less kept drops, worked by hand.
#[test]
fn a_gate_alone_bears_the_whole_plan() {
    let mut week: Week = tiny::week(vec![tiny::gate("A1")]);
    week.quotes = vec![
        tiny_week::quote(tiny::HEAVY, 21, "63.00"),
        tiny_week::quote(tiny::LIGHT, 21, "46.20"),
    ];
    let (_, plan) = planned(&week);
    // Three joints of each (DESIGN's worked gate): 3 × 63.00 + 3 × 46.20 = 327.60, less drops kept.
    let kept: Money = plan.kept.iter().map(|k| k.credit).sum();
    let [only] = plan.gate_costs.as_slice() else {
        panic!("one row: {:?}", plan.gate_costs);
    };
    assert_eq!(only.total, Money(tiny::dec("327.60")) - kept);
}

#[test]
fn a_week_without_prices_shares_nothing() {
    let mut week = tiny_week::week();
    week.quotes[0].price = None;
    let (_, plan) = planned(&week);
    assert!(plan.total.is_none() && plan.gate_costs.is_empty());
}

/// Where order lines are rounded one by one, every column still comes to the ledger's own lines.
#[test]
fn columns_add_up_to_the_ledger_to_the_cent() {
    for tax in ["0.0825", "0.06875", "0.0733"] {
        let mut week = tiny_week::landed();
        week.suppliers
            .iter_mut()
            .for_each(|s| s.tax = tiny::dec(tax));
        let (take_off, plan) = planned(&week);
        let found = violations(&week, &take_off, &plan);
        assert!(found.is_empty(), "{}", judge::print(&found));
        let ledger = plan.ledger.expect("every joint has a price");
        let column = |of: fn(&longpoint::plan::GateCost) -> Money| -> Money {
            plan.gate_costs.iter().map(of).sum()
        };
        assert_eq!(column(|c| c.splices), ledger.splices + ledger.classes);
        let fees = ledger.freight + ledger.lifts + ledger.minimum;
        let pipe = ledger.pipe + ledger.tax + ledger.rack - ledger.kept;
        assert!(fees > Money::ZERO);
        if plan.uncut.is_empty() {
            assert_eq!((column(|c| c.shared), column(|c| c.pipe)), (fees, pipe));
        }
        assert_eq!(column(|c| c.shared) + column(|c| c.pipe), fees + pipe);
        assert_eq!(sum(&plan), ledger.total());
        for cost in &plan.gate_costs {
            assert_eq!(cost.pipe + cost.splices + cost.shared, cost.total);
        }
    }
}
