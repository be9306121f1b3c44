//! What the tests of the judge share: an empty plan, the names of rules, weeks from data/.
#![allow(dead_code, reason = "a binary may use only some of it")]

use std::path::Path;
use std::time::Duration;

use longpoint::check::{Rule, Violation, violations};
use longpoint::nest::{Aim, Limits, Problem};
use longpoint::order::Week;
use longpoint::part::TakeOff;
use longpoint::plan::{Minutes, NestWork, Plan, PlanOptions, Waste, make};

/// A demo week.
pub fn demo(folder: &str) -> Week {
    crate::demo::week(folder)
}

/// Folders of the demo weeks.
pub fn demos() -> Vec<String> {
    let data = Path::new(env!("CARGO_MANIFEST_DIR")).join("data");
    let entries = std::fs::read_dir(data).expect("the repository has data/");
    let mut out: Vec<String> = entries
        .filter_map(Result::ok)
        .filter(|e| e.path().join("orders.csv").is_file())
        .map(|e| e.file_name().to_string_lossy().into_owned())
        .collect();
    out.sort();
    out
}

/// A plan that does nothing.
pub fn empty_plan() -> Plan {
    Plan {
        number: "P".into(),
        revision: 0,
        date: None,
        left_out: Vec::new(),
        pools: Vec::new(),
        splice_sets: Vec::new(),
        nest: NestWork {
            problem: Problem {
                aim: Aim::Money,
                pools: Vec::new(),
                charges: Vec::new(),
            },
            answers: Vec::new(),
            whole: None,
            taken_from: None,
            groups: Vec::new(),
        },
        joints: Vec::new(),
        spliced: Vec::new(),
        buy: Vec::new(),
        fees: Vec::new(),
        uncut: Vec::new(),
        ledger: None,
        spares: Vec::new(),
        kept: Vec::new(),
        pipes: Vec::new(),
        waste: Waste::default(),
        done: Vec::new(),
        sittings: Vec::new(),
        minutes: Minutes::default(),
        kits: Vec::new(),
        references: Vec::new(),
        gate_costs: Vec::new(),
        total: None,
    }
}

/// Work budget of a plan: enough for the demo weeks, little enough for a test.
const WORK: u64 = 1_000_000;

/// The take-off and plan of a week that can be done, by work alone: the same plan every time.
pub fn planned(week: &Week) -> (TakeOff, Plan) {
    let (take_off, plan) = partly_planned(week, None);
    assert!(plan.left_out.is_empty(), "{:?}", plan.left_out);
    (take_off, plan)
}

/// The take-off and plan of a week, what cannot be done left out by name. With a time limit the plan
/// may be any; it must pass all the same.
pub fn partly_planned(week: &Week, time: Option<Duration>) -> (TakeOff, Plan) {
    let (take_off, left_out) = longpoint::part::take_off(week);
    let options = PlanOptions {
        partial: true,
        limits: Limits { work: WORK, time },
        left_out,
        ..PlanOptions::default()
    };
    let plan = make(week, &take_off, &options).unwrap_or_else(|why| panic!("{why:?}"));
    (take_off, plan)
}

/// Rules that speak of the take-off alone.
fn of_take_off(rule: &str) -> bool {
    let families = ["part-", "frame-", "bay-", "extra-", "cope-"];
    let single = [
        "index",
        "cope-misses",
        "rollers",
        "check-measure",
        "leaf-sum",
    ];
    families.iter().any(|f| rule.starts_with(f)) || single.contains(&rule)
}

/// What the judge says of a take-off.
pub fn of_parts(week: &Week, take_off: &TakeOff) -> Vec<Violation> {
    let mut found = violations(week, take_off, &empty_plan());
    found.retain(|v| of_take_off(v.rule.name()));
    found
}

/// Violations in lines, for messages.
pub fn print(found: &[Violation]) -> String {
    let line = |v: &Violation| format!("{}: {}: {}\n", v.rule, v.subject, v.detail);
    found.iter().map(line).collect()
}

/// Whether a rule was named.
pub fn names(found: &[Violation], rule: Rule) -> bool {
    found.iter().any(|v| v.rule == rule)
}
