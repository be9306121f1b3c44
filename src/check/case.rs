//! `Case`: the three papers before the judge, and the plain questions every rule asks of them.

use crate::order::{PipeId, Week};
use crate::part::{Part, TakeOff};
use crate::plan::{JointSource, PieceCut, Plan, PlannedJoint};

/// The week as ordered, the take-off and the plan that is judged.
#[derive(Clone, Copy, Debug)]
pub(super) struct Case<'a> {
    /// What was ordered.
    pub(super) week: &'a Week,
    /// The parts the plan works from.
    pub(super) take_off: &'a TakeOff,
    /// The plan.
    pub(super) plan: &'a Plan,
}

impl<'a> Case<'a> {
    /// Whether the plan leaves this gate out by name.
    pub(super) fn gate_left_out(&self, gate: usize) -> bool {
        self.plan.left_out.iter().any(|l| l.gate == Some(gate))
    }

    /// Whether the plan leaves this extra part out by name.
    pub(super) fn extra_left_out(&self, extra: usize) -> bool {
        self.plan.left_out.iter().any(|l| l.extra == Some(extra))
    }

    /// Whether a part belongs to something left out by name.
    pub(super) fn part_left_out(&self, part: &Part) -> bool {
        part.gate.is_some_and(|g| self.gate_left_out(g))
            || part.extra.is_some_and(|e| self.extra_left_out(e))
    }

    /// First and last copy of a part as ordered; an extra part has one "copy", numbered 0.
    pub(super) fn copies(&self, part: &Part) -> (u32, u32) {
        match part.gate {
            Some(gate) => (1, self.week.gates[gate].count),
            None => (0, 0),
        }
    }

    /// Every piece cut, with its joint.
    pub(super) fn cuts(&self) -> impl Iterator<Item = (&'a PlannedJoint, &'a PieceCut)> + use<'a> {
        let joints: &'a [PlannedJoint] = &self.plan.joints;
        joints
            .iter()
            .flat_map(|j| j.pieces.iter().map(move |p| (j, p)))
    }

    /// The pipe of a joint's source.
    pub(super) fn source_pipe(&self, source: JointSource) -> PipeId {
        match source {
            JointSource::Bought(q) => self.week.quotes[q].pipe,
            JointSource::Rack(r, _) => self.week.rack[r].pipe,
        }
    }
}

/// A joint's name in messages.
pub(super) fn joint_name(joint: &PlannedJoint) -> String {
    format!("joint {}", joint.number)
}
