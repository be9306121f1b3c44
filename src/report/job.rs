//! `Job`: a checked plan with the look-ups that the sheets share.

use crate::check::CheckedPlan;
use crate::gate::{Frame, Role};
use crate::measure::{Length, Units};
use crate::order::{GateOrder, PipeId, Week};
use crate::part::{Part, TakeOff};
use crate::plan::{PieceCut, Plan, SplicedLine};

use super::left_out::marks_out;
use super::sheet::Heading;

/// What the sheets are made from. Outside tests its one source is a [`CheckedPlan`].
#[derive(Clone, Copy)]
pub(super) struct Job<'a> {
    /// The week.
    pub week: &'a Week,
    /// Its parts.
    pub take_off: &'a TakeOff,
    /// Its plan.
    pub plan: &'a Plan,
}

impl<'a> Job<'a> {
    /// Of a checked plan.
    pub fn of(checked: &'a CheckedPlan) -> Job<'a> {
        Job {
            week: checked.week(),
            take_off: checked.take_off(),
            plan: checked.plan(),
        }
    }

    /// What every sheet carries.
    pub fn heading(self) -> Heading {
        Heading {
            shop: super::table::clean(&self.week.shop.name),
            left_out: marks_out(&self.plan.left_out),
            metric: self.units() == Units::Metric,
            plan: self.plan.number.clone(),
            revision: self.plan.revision.to_string(),
            date: self
                .plan
                .date
                .as_deref()
                .map(super::table::clean)
                .unwrap_or_default(),
        }
    }

    /// Units of the shop.
    pub fn units(self) -> Units {
        self.week.shop.units
    }

    /// The saw mark.
    pub fn mark(self) -> Length {
        self.week.shop.saw.mark
    }

    /// Trade name with true OD, wall and finish.
    pub fn pipe(self, id: PipeId) -> String {
        self.week.pipe(id).title()
    }

    /// Trade name alone where it says which pipe is meant, else the full title.
    pub fn short_pipe(self, id: PipeId) -> String {
        let name = &self.week.pipe(id).name;
        let twins = self.week.pipes.iter().filter(|p| p.name == *name);
        if twins.count() > 1 {
            self.pipe(id)
        } else {
            name.clone()
        }
    }

    /// The frame of a gate order, if it was built.
    pub fn frame(self, gate: usize) -> Option<&'a Frame> {
        self.take_off.frames.iter().find(|f| f.gate == gate)
    }

    /// Indices of the parts of a gate order.
    pub fn parts_of(self, gate: usize) -> impl Iterator<Item = (usize, &'a Part)> {
        let parts = self.take_off.parts.iter().enumerate();
        parts.filter(move |(_, p)| p.gate == Some(gate))
    }

    /// Mark of one copy of a gate: `A3.2`, or `A3` when there is only one.
    pub fn copy_mark(self, gate: usize, copy: u32) -> String {
        copy_mark(&self.week.gates[gate], copy)
    }

    /// The spliced horizontal that a piece belongs to.
    pub fn line_of(self, piece: &PieceCut) -> Option<&'a SplicedLine> {
        piece.piece?;
        let same =
            |l: &&SplicedLine| (l.part, l.copy, l.serial) == (piece.part, piece.copy, piece.serial);
        self.plan.spliced.iter().find(same)
    }

    /// Gates and copies complete after this joint.
    pub fn done_after(self, joint: u32) -> Vec<String> {
        let done = self.plan.done.iter();
        done.filter(|d| d.after_joint == joint)
            .map(|d| self.copy_mark(d.gate, d.copy))
            .collect()
    }
}

/// Mark of one copy of a gate order.
pub(super) fn copy_mark(gate: &GateOrder, copy: u32) -> String {
    if gate.count > 1 {
        format!("{}.{copy}", gate.mark)
    } else {
        gate.mark.clone()
    }
}

/// What a role is called on sheets.
pub(super) fn role_name(role: Option<Role>) -> &'static str {
    match role {
        None => "plain part",
        Some(Role::TopHorizontal) => "top horizontal",
        Some(Role::BottomHorizontal) => "bottom horizontal",
        Some(Role::EndPost) => "end post",
        Some(Role::Vertical) => "vertical",
        Some(Role::FirstDiagonal) => "first diagonal",
        Some(Role::Diagonal) => "diagonal",
        Some(Role::LastDiagonal) => "last diagonal",
        Some(Role::Stop) => "roller stop",
        Some(Role::Riser) => "riser",
        Some(Role::SwayBrace) => "sway brace",
        Some(Role::Standoff) => "standoff",
    }
}
