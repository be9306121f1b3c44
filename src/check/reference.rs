//! The hand references need only be sane: no way of working beats the certified bound, and the plan is
//! never dearer than longest first, pooled.

use super::case::Case;
use super::docket::Docket;
use super::rule::Rule;
use crate::measure::Money;
use crate::nest::Status;

/// Judges the references beside the plan's exact cost (`None`: a price is missing).
pub(super) fn judge(case: &Case<'_>, cost: Option<i64>, docket: &mut Docket) {
    let plan = case.plan;
    let bounded = |s: Status| s.has_plan();
    let known = plan.pipes.iter().all(|p| bounded(p.status));
    let bounds = plan.pipes.iter().map(|p| p.bound);
    let alone = bounds.fold(0, i64::saturating_add);
    let bound = plan.nest.whole.as_ref().map_or(alone, |w| w.bound);
    let bound = Money::from_millicents(bound);
    for reference in &plan.references {
        let name = reference.name.as_str();
        docket.demand(
            reference.failed.is_none() || reference.money.is_none(),
            Rule::ReferenceFailed,
            name,
            || "it could not do the week, and has a price".to_owned(),
        );
        let (Some(money), Some(cost), true) = (reference.money, cost, known) else {
            continue;
        };
        docket.demand(money >= bound, Rule::ReferenceUnderBound, name, || {
            format!("{money}, while nothing under {bound} is possible")
        });
        let total = Money::from_millicents(cost);
        let pooled = name.starts_with("longest first");
        docket.demand(
            !pooled || total <= money,
            Rule::PlanOverReference,
            name,
            || format!("the plan costs {total}, this way {money}"),
        );
    }
}
