//! Impossible work and refused plans, in words.

use crate::check::Violation;
use crate::order::Impossible;

/// Each piece of impossible work: what, why, and the smallest change that frees it.
pub(super) fn impossible(items: &[Impossible]) -> String {
    let mut out = String::new();
    for item in items {
        let part = match &item.part {
            Some(part) => format!(", {part}"),
            None => String::new(),
        };
        out.push_str(&format!(
            "{}{part}: cannot be made: {}\n  frees it: {}\n",
            item.mark, item.reason, item.change
        ));
    }
    out
}

/// A plan that the checker refused, rule by rule.
pub(super) fn violations(items: &[Violation]) -> String {
    let mut out = String::from(
        "The checker refused the plan, so nothing is written. This is longpoint's fault, not \
         yours: please report it with the week's files.\n",
    );
    for item in items {
        out.push_str(&format!(
            "  {}: {}: {}\n",
            item.rule, item.subject, item.detail
        ));
    }
    out
}
