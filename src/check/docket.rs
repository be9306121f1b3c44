//! `Docket`: the violations found so far. All are collected; nothing stops at the first.

use super::Violation;
use super::rule::Rule;

/// The list a judge writes into.
#[derive(Debug, Default)]
pub(super) struct Docket {
    found: Vec<Violation>,
}

impl Docket {
    /// Writes one violation down.
    pub(super) fn say(&mut self, rule: Rule, subject: &str, detail: String) {
        self.found.push(Violation {
            rule,
            subject: subject.to_owned(),
            detail,
        });
    }

    /// Writes a violation down unless `holds`; the detail is only built when it is needed.
    pub(super) fn demand(
        &mut self,
        holds: bool,
        rule: Rule,
        subject: &str,
        detail: impl FnOnce() -> String,
    ) {
        if !holds {
            self.say(rule, subject, detail());
        }
    }

    /// Demands that a figure of the plan equals the judge's own.
    pub(super) fn same<T: PartialEq + std::fmt::Debug>(
        &mut self,
        plan: T,
        own: T,
        rule: Rule,
        subject: &str,
    ) {
        if plan != own {
            self.say(
                rule,
                subject,
                format!("the plan says {plan:?}, the judge finds {own:?}"),
            );
        }
    }

    /// Demands that two geometric figures agree within `within` (NaN never agrees).
    pub(super) fn near(&mut self, plan: f64, own: f64, within: f64, rule: Rule, subject: &str) {
        let agrees = (plan - own).abs() <= within;
        self.demand(agrees, rule, subject, || {
            format!("the plan says {plan}, the judge finds {own} (allowed apart: {within})")
        });
    }

    /// Whether nothing was found.
    pub(super) fn is_clean(&self) -> bool {
        self.found.is_empty()
    }

    /// Takes over another judge's findings.
    pub(super) fn extend(&mut self, more: Vec<Violation>) {
        self.found.extend(more);
    }

    /// What was found, in the order of the rules.
    pub(super) fn into_violations(self) -> Vec<Violation> {
        self.found
    }
}
