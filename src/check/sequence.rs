//! Joint numbers, gates complete after their last joint, due order, the split over saws.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;

use super::case::Case;
use super::delivery;
use super::docket::Docket;
use super::rule::Rule;
use crate::measure::Length;
use crate::order::PipeId;

/// Judges the order of the work.
pub(super) fn judge(case: &Case<'_>, docket: &mut Docket) {
    for (number, joint) in (1u32..).zip(&case.plan.joints) {
        docket.same(
            joint.number,
            number,
            Rule::JointNumber,
            &format!("joint {number}"),
        );
    }
    done(case, docket);
    due(case, docket);
    sittings(case, docket);
}

fn done(case: &Case<'_>, docket: &mut Docket) {
    let mut last: BTreeMap<(usize, u32), u32> = BTreeMap::new();
    for (gate, order) in case.week.gates.iter().enumerate() {
        for copy in 1..=order.count {
            if !case.gate_left_out(gate) {
                last.insert((gate, copy), 0);
            }
        }
    }
    for (joint, piece) in case.cuts() {
        if let Some(gate) = case.take_off.parts[piece.part].gate {
            let at = last.entry((gate, piece.copy)).or_default();
            *at = (*at).max(joint.number);
        }
    }
    let mut previous = 0;
    for line in &case.plan.done {
        let name = gate_name(case, line.gate, line.copy);
        match last.remove(&(line.gate, line.copy)) {
            Some(own) => docket.same(line.after_joint, own, Rule::GateCompleteAfter, &name),
            None => docket.say(
                Rule::GateCompleteAfter,
                &name,
                "no such gate is cut, or it is named twice".to_owned(),
            ),
        }
        docket.demand(
            line.after_joint >= previous,
            Rule::GateCompleteOrder,
            &name,
            || {
                format!(
                    "after joint {}, listed behind joint {previous}",
                    line.after_joint
                )
            },
        );
        previous = line.after_joint;
    }
    for (gate, copy) in last.into_keys() {
        docket.say(
            Rule::GateCompleteMissing,
            &gate_name(case, gate, copy),
            "the plan does not say when it is complete".to_owned(),
        );
    }
}

fn gate_name(case: &Case<'_>, gate: usize, copy: u32) -> String {
    format!("{}.{copy}", case.week.gates[gate].mark)
}

/// Whole parts of one pipe and one saw length that the same joints are in time for come off the saw in
/// due order: swapping two of them would cost nothing. (Lines that may be spliced are dealt out by themselves.)
fn due(case: &Case<'_>, docket: &mut Docket) {
    let lanes: BTreeSet<usize> = case
        .plan
        .splice_sets
        .iter()
        .flat_map(|s| s.lines.iter().map(|l| l.part))
        .collect();
    let mut latest: BTreeMap<(PipeId, Length, u8), (Option<Date>, u32)> = BTreeMap::new();
    for (joint, piece) in case.cuts() {
        let part = &case.take_off.parts[piece.part];
        let Some(gate) = part.gate.filter(|_| !lanes.contains(&piece.part)) else {
            continue;
        };
        let due = case.week.gates[gate].due;
        let class = delivery::class(case.week, joint.pipe, Some(gate));
        let held = latest
            .entry((joint.pipe, piece.saw, class))
            .or_insert((due, joint.number));
        let (other, number) = *held;
        let late = before(due, other) && number < joint.number;
        docket.demand(!late, Rule::DueOrder, &piece.mark, || {
            format!(
                "due {due:?}, cut on joint {} after the same piece for {other:?} on joint {number}",
                joint.number
            )
        });
        if before(other, due) {
            *held = (due, joint.number);
        }
    }
}

/// Earlier due; no date is last.
fn before(a: Option<Date>, b: Option<Date>) -> bool {
    match (a, b) {
        (Some(x), Some(y)) => x < y,
        (Some(_), None) => true,
        (None, _) => false,
    }
}

fn sittings(case: &Case<'_>, docket: &mut Docket) {
    let mut seen = BTreeSet::new();
    let mut saws = BTreeSet::new();
    for sitting in &case.plan.sittings {
        let name = format!("saw {}", sitting.saw);
        let known = sitting.saw >= 1 && sitting.saw <= case.week.shop.saw.saws.max(1);
        docket.demand(
            known && saws.insert(sitting.saw),
            Rule::SittingSaw,
            &name,
            || {
                format!(
                    "the shop has {} saws, each with one list",
                    case.week.shop.saw.saws
                )
            },
        );
        docket.demand(sitting.minutes >= 0.0, Rule::SittingMinutes, &name, || {
            format!("{} minutes", sitting.minutes)
        });
        for joint in &sitting.joints {
            docket.demand(seen.insert(*joint), Rule::SittingJoints, &name, || {
                format!("joint {joint} is cut twice")
            });
        }
    }
    let all: BTreeSet<u32> = case.plan.joints.iter().map(|j| j.number).collect();
    docket.demand(seen == all, Rule::SittingJoints, "plan", || {
        format!("{} of {} joints are given to saws", seen.len(), all.len())
    });
}
