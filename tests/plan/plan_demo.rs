//! Both demo weeks planned whole by the real rooms, and passed by the judge.

use crate::demo;
use longpoint::check::violations;
use longpoint::measure::Units;
use longpoint::nest::Limits;
use longpoint::order::Week;

use longpoint::part::take_off;
use longpoint::plan::{Plan, PlanOptions, make};

fn options() -> PlanOptions<'static> {
    PlanOptions {
        date: Some("2027-01-04".to_owned()),
        ..PlanOptions::default()
    }
}

/// Plan a week, let the judge look, print one line per pipe (`--nocapture`).
fn planned(week: &Week) -> Plan {
    let (take_off, impossible) = take_off(week);
    assert_eq!(impossible, []);
    let plan = make(week, &take_off, &options()).unwrap_or_else(|all| panic!("{all:#?}"));
    for p in &plan.pipes {
        println!(
            "{:40} {:?} ({:?}) cost {} bound {} gap {:.4} % bought {} rack {}",
            week.pipe(p.pipe).title(),
            p.status,
            p.stop,
            p.cost,
            p.bound,
            100.0 * (p.cost - p.bound) as f64 / p.pipe_money.max(1) as f64,
            p.bought,
            p.from_rack
        );
    }
    println!(
        "plan {} total {:?} joints {} splices {}",
        plan.number,
        plan.total,
        plan.joints.len(),
        plan.spliced.iter().map(|l| l.splices.len()).sum::<usize>()
    );
    for r in &plan.references {
        println!(
            "{}: {} joints {:?} {} splices",
            r.name, r.joints, r.money, r.splices
        );
    }
    let found = violations(week, &take_off, &plan);
    assert!(found.is_empty(), "{found:#?}");
    plan
}

#[test]
fn the_us_week_plans_whole_and_passes_the_judge() {
    let plan = planned(&demo::week("demo_us"));
    assert!(plan.total.is_some() && plan.left_out.is_empty());
    assert_eq!(plan.kits.len(), 1);
    let total = plan.total.expect("priced");
    for reference in &plan.references {
        assert!(
            reference.money.is_none_or(|m| total <= m),
            "{}",
            reference.name
        );
    }
}

#[test]
fn the_metric_week_plans_whole_and_passes_the_judge() {
    let week = demo::week("demo_metric");
    assert_eq!(week.shop.units, Units::Metric);
    let plan = planned(&week);
    assert!(plan.total.is_some() && plan.left_out.is_empty());
}

/// Two ways of cutting one week are two plans: their sheets must not be mixed.
#[test]
fn the_same_week_cut_in_another_way_has_another_number() {
    let week = demo::week("demo_us");
    let (take_off, _) = take_off(&week);
    let limited = |work| PlanOptions {
        limits: Limits { work, time: None },
        ..options()
    };
    let of = |work| make(&week, &take_off, &limited(work)).expect("a plan");
    let (none, some, again) = (of(0), of(1_000_000), of(1_000_000));
    assert_ne!(none.joints, some.joints);
    assert_ne!(none.number, some.number);
    assert_eq!(some.number, again.number);
}
