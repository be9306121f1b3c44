//! Impossible work and refused plans, in words.

use crate::check::Violation;
use crate::order::{Impossible, Origin, Week};

/// Each piece of impossible work as other faults are told: the row that orders it, what, why, and the smallest
/// change that frees it.
pub(super) fn impossible(week: &Week, items: &[Impossible]) -> String {
    let mut out = String::new();
    for (parts, item) in Impossible::together(items) {
        // A plain part is its own mark.
        let whose = if parts == item.mark {
            parts
        } else {
            format!("{}: {parts}", item.mark)
        };
        out.push_str(&format!(
            "{}error: {whose} cannot be made: {}\n  mend:  {}\n\n",
            place(week, item),
            item.reason,
            item.change
        ));
    }
    out
}

/// `orders.csv, line 4: `; nothing for what concerns no single row.
fn place(week: &Week, item: &Impossible) -> String {
    let gate = item.gate.and_then(|g| week.gates.get(g));
    let extra = item.extra.and_then(|e| week.extras.get(e));
    let origin = gate.map(|g| &g.origin).or(extra.map(|e| &e.origin));
    let words = |o: &Origin| format!("{}, {}: ", o.file, o.line_words());
    origin.map_or_else(String::new, words)
}

/// A plan that the checker refused, rule by rule.
pub(super) fn violations(items: &[Violation]) -> String {
    let mut out = String::from(
        "The checker refused the plan, so nothing is written. This is longpoint's fault, not \
         yours: please report it with the week's files.\n",
    );
    out.push_str(&rule_by_rule(items));
    out
}

/// What does not hold, a line each.
pub(super) fn rule_by_rule(items: &[Violation]) -> String {
    let line = |item: &Violation| format!("  {}: {}: {}\n", item.rule, item.subject, item.detail);
    items.iter().map(line).collect()
}
