//! Where joints come from: the right pipe, length and trims; no more than can be had; each rack
//! piece once.

use std::collections::BTreeMap;

use super::case::{Case, joint_name};
use super::docket::Docket;
use super::rule::Rule;
use crate::measure::Length;
use crate::plan::{JointSource, PlannedJoint};

/// Judges the sources of all joints.
pub(super) fn judge(case: &Case<'_>, docket: &mut Docket) {
    let mut bought: BTreeMap<usize, u32> = BTreeMap::new();
    let mut rack: BTreeMap<(usize, u32), u32> = BTreeMap::new();
    for joint in &case.plan.joints {
        source(case, joint, docket);
        match joint.source {
            JointSource::Bought(q) => *bought.entry(q).or_default() += 1,
            JointSource::Rack(r, piece) => *rack.entry((r, piece)).or_default() += 1,
        }
    }
    for whole in &case.plan.uncut {
        let all = bought.entry(whole.quote).or_default();
        *all = all.saturating_add(whole.joints);
    }
    for (q, n) in bought {
        if let Some(available) = case.week.quotes[q].available {
            docket.demand(
                n <= available,
                Rule::OverAvailable,
                &quote_name(case, q),
                || format!("{n} joints are cut, {available} can be had"),
            );
        }
    }
    for ((r, piece), n) in rack {
        let row = &case.week.rack[r];
        docket.demand(n == 1, Rule::RackPieceTwice, &row.tag, || {
            format!("piece {piece} is cut {n} times")
        });
        docket.demand(piece < row.count, Rule::RackPieceMissing, &row.tag, || {
            format!(
                "piece {piece} (from 0) is cut, {} lie on the rack",
                row.count
            )
        });
    }
}

fn source(case: &Case<'_>, joint: &PlannedJoint, docket: &mut Docket) {
    let name = joint_name(joint);
    let saw = &case.week.shop.saw;
    let (length, near, far) = match joint.source {
        JointSource::Bought(q) => (case.week.quotes[q].planning, saw.near_trim, saw.far_trim),
        JointSource::Rack(r, _) => {
            let row = &case.week.rack[r];
            let trim = |wanted: bool, t: Length| if wanted { t } else { Length::ZERO };
            (
                row.length,
                trim(row.near_trim, saw.near_trim),
                trim(row.far_trim, saw.far_trim),
            )
        }
    };
    docket.same(
        joint.pipe,
        case.source_pipe(joint.source),
        Rule::JointPipe,
        &name,
    );
    docket.same(joint.length, length, Rule::JointLength, &name);
    docket.same(joint.near, near, Rule::JointNearTrim, &name);
    docket.same(joint.far, far, Rule::JointFarTrim, &name);
    docket.same(joint.hold, saw.hold_back, Rule::JointHoldBack, &name);
}

/// A quote's name in messages.
pub(super) fn quote_name(case: &Case<'_>, quote: usize) -> String {
    let q = &case.week.quotes[quote];
    format!("{} x {}", case.week.pipe(q.pipe).name, q.nominal)
}
