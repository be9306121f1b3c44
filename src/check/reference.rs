//! The hand references need only be sane: no way of working beats the certified bound, and the plan is
//! never dearer than longest first, pooled.

use super::case::Case;
use super::docket::Docket;
use super::tariff::Tariff;
use crate::measure::Money;
use crate::nest::Status;

/// Judges the references.
pub(super) fn judge(case: &Case<'_>, tariff: &Tariff, docket: &mut Docket) {
    let plan = case.plan;
    let priced = plan.pipes.iter().all(|p| tariff.priced(p.pipe));
    let bounded = |s: Status| !matches!(s, Status::Short | Status::Stopped);
    let known = priced && plan.pipes.iter().all(|p| bounded(p.status));
    let bound = plan.pipes.iter().map(|p| p.bound);
    let bound = Money::from_millicents(bound.fold(0, i64::saturating_add));
    for reference in &plan.references {
        let name = reference.name.as_str();
        docket.demand(
            reference.failed.is_none() || reference.money.is_none(),
            "reference-failed",
            name,
            || "it could not do the week, and has a price".to_owned(),
        );
        let (Some(money), true) = (reference.money, known) else {
            continue;
        };
        docket.demand(money >= bound, "reference-under-bound", name, || {
            format!("{money}, while nothing under {bound} is possible")
        });
        let total = plan.total.unwrap_or(Money::ZERO);
        let pooled = name.starts_with("longest first");
        docket.demand(
            !pooled || total <= money,
            "plan-over-reference",
            name,
            || format!("the plan costs {total}, this way {money}"),
        );
    }
}
