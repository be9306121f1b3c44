//! Waste by its definitions (DESIGN §10): taken, in parts, all-in, lost for good, kept.

use super::case::{Case, joint_name};
use super::docket::Docket;
use super::rule::Rule;
use crate::measure::Length;
use crate::order::PipeId;
use crate::plan::Waste;

/// Judges the waste of every pipe and of the week, and the list of kept drops.
pub(super) fn judge(case: &Case<'_>, docket: &mut Docket) {
    for outcome in &case.plan.pipes {
        let own = derive(case, Some(outcome.pipe));
        compare(
            &outcome.waste,
            &own,
            &case.week.pipe(outcome.pipe).title(),
            docket,
        );
    }
    compare(&case.plan.waste, &derive(case, None), "week", docket);
    kept(case, docket);
}

fn compare(plan: &Waste, own: &Waste, subject: &str, docket: &mut Docket) {
    docket.same(plan.taken, own.taken, Rule::WasteTaken, subject);
    docket.same(plan.in_parts, own.in_parts, Rule::WasteInParts, subject);
    docket.same(plan.all_in, own.all_in, Rule::WasteAllIn, subject);
    docket.same(plan.lost, own.lost, Rule::WasteLost, subject);
    docket.same(plan.kept, own.kept, Rule::WasteKept, subject);
}

/// Lost for good is summed cut by cut here, not taken as a difference.
fn derive(case: &Case<'_>, pipe: Option<PipeId>) -> Waste {
    let kerf = case.week.shop.saw.kerf;
    let mut waste = Waste::default();
    for joint in &case.plan.joints {
        if pipe.is_some_and(|p| p != joint.pipe) {
            continue;
        }
        let between = i64::try_from(joint.pieces.len().saturating_sub(1)).unwrap_or(i64::MAX);
        let parts: Length = joint.pieces.iter().map(|p| p.saw).sum();
        waste.taken += joint.length;
        waste.in_parts += parts;
        waste.lost += kerf * between + joint.last_cut + joint.near;
        if joint.kept {
            waste.kept += joint.floor;
        } else {
            waste.lost += joint.floor;
        }
    }
    waste.all_in = waste.taken - waste.in_parts;
    waste
}

fn kept(case: &Case<'_>, docket: &mut Docket) {
    let joints: Vec<_> = case.plan.joints.iter().filter(|j| j.kept).collect();
    docket.same(case.plan.kept.len(), joints.len(), Rule::KeptList, "plan");
    let mut tags: Vec<&str> = Vec::new();
    for (kept, joint) in case.plan.kept.iter().zip(joints) {
        let name = joint_name(joint);
        docket.same(kept.joint, joint.number, Rule::KeptList, &name);
        docket.same(kept.pipe, joint.pipe, Rule::KeptList, &name);
        docket.same(kept.drop, joint.drop, Rule::KeptList, &name);
        docket.same(kept.floor, joint.floor, Rule::KeptList, &name);
        docket.same(kept.credit, joint.credit, Rule::KeptList, &name);
        let tag = joint.keep_tag.as_deref().unwrap_or("");
        docket.same(kept.tag.as_str(), tag, Rule::KeepTag, &name);
        let rack = case.week.rack.iter().any(|r| r.tag == kept.tag);
        docket.demand(
            !tags.contains(&tag) && !rack && !tag.is_empty(),
            Rule::KeepTag,
            &name,
            || format!("the tag \"{tag}\" is painted on another piece already or is empty"),
        );
        tags.push(tag);
    }
}
