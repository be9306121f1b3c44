//! Impossible work as faults, and refused plans in words.

use crate::check::Violation;
use crate::measure::FaultCode;
use crate::order::{Fault, Impossible, Origin, Severity, Week};
use crate::text::shown;

/// Impossible work as faults of the rows that order it, each with why and the smallest change that frees it:
/// warnings where the rest goes on without it.
pub(super) fn impossible(week: &Week, items: &[Impossible], severity: Severity) -> Vec<Fault> {
    let fault = |(parts, item): (String, &Impossible)| {
        // A plain part is its own mark.
        let whose = if parts == item.mark {
            parts
        } else {
            format!("{}: {parts}", item.mark)
        };
        let says = match severity {
            Severity::Error => "cannot be made",
            Severity::Warning | Severity::Note => "is left out, it cannot be made",
        };
        let origin = origin(week, item);
        Fault {
            severity,
            code: FaultCode::WorkImpossible,
            file: origin.map(|o| o.file.clone()).unwrap_or_default(),
            sheet: None,
            line: origin.map(|o| o.line),
            cell: None,
            column: None,
            value: None,
            what: match whose.as_str() {
                "" => item.reason.clone(),
                _ => format!("{whose} {says}: {}", item.reason),
            },
            mend: item.change.clone(),
        }
    };
    Impossible::together(items).into_iter().map(fault).collect()
}

/// The row of the gate or plain part; none for what concerns no single row.
fn origin<'a>(week: &'a Week, item: &Impossible) -> Option<&'a Origin> {
    let gate = item.gate.and_then(|g| week.gates.get(g));
    let extra = item.extra.and_then(|e| week.extras.get(e));
    gate.map(|g| &g.origin).or(extra.map(|e| &e.origin))
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
    let line = |item: &Violation| {
        let (subject, detail) = (shown(&item.subject), shown(&item.detail));
        format!("  {}: {subject}: {detail}\n", item.rule)
    };
    items.iter().map(line).collect()
}
