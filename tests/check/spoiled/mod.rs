//! The judge broken rule by rule: the list of its rules is read, and for each there is a sound plan spoiled so
//! that the rule is named.

mod certificate;
mod landed;
mod nest;
mod plan;
pub mod plan_file;
mod splices;
mod spoil;
mod take_off;

use std::collections::BTreeSet;

use longpoint::check::Rule;

/// Every list of spoilings; each is tried where it stands.
fn spoiled() -> BTreeSet<Rule> {
    let plans = [
        plan::JOINTS,
        plan::SUPPLY,
        plan::SEQUENCE,
        nest::NEST,
        splices::SPLICES,
        splices::KITS,
        take_off::TAKE_OFF,
        landed::LANDED,
        landed::SHARES,
        landed::LATE,
    ];
    let proofs = [certificate::BOUND, certificate::REST];
    let plans = plans.into_iter().flatten().map(|(rule, _)| *rule);
    let proofs = proofs.into_iter().flatten().map(|(rule, _)| *rule);
    plans.chain(proofs).chain(plan_file::rules()).collect()
}

#[test]
fn every_rule_has_a_spoiled_plan() {
    let spoiled = spoiled();
    let bare: Vec<&str> = Rule::ALL
        .iter()
        .filter(|rule| !spoiled.contains(rule))
        .map(|rule| rule.name())
        .collect();
    assert!(bare.is_empty(), "no plan is spoiled for {bare:?}");
    assert!(Rule::ALL.len() > 200);
}

#[test]
fn no_two_rules_share_a_name_and_each_says_what_it_demands() {
    let names: BTreeSet<&str> = Rule::ALL.iter().map(|rule| rule.name()).collect();
    assert_eq!(names.len(), Rule::ALL.len());
    for rule in Rule::ALL {
        assert!(rule.demands().ends_with('.'), "{rule}");
        let plain = |c: char| c.is_ascii_lowercase() || c == '-';
        assert!(rule.name().chars().all(plain), "{rule}");
    }
}
