//! `WeekStand`: one week: its plans, joints, pieces, lines, gates and money told.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::{GateCopy, GateStand, IssuedRack, JointStand, LineStand, PieceStand};
use crate::measure::{Length, Money, Units};
use crate::order::PieceId;
use crate::order::PipeKey;

/// A plan handed out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WeekPlan {
    /// Number.
    pub plan: String,
    /// Revision.
    pub revision: u32,
    /// Withdrawn, or followed by another.
    pub superseded: bool,
}

/// A week. Joints, lines and gates are known by what stands on paper.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WeekStand {
    /// Plans handed out, in order.
    pub plans: Vec<WeekPlan>,
    /// Units the shop prints in.
    pub units: Units,
    /// Currency.
    pub currency: String,
    /// A drop at least this long is kept.
    pub keep: Length,
    /// A piece measured off by more is asked about.
    pub tolerance: Length,
    /// Credit of a kept foot by pipe, in 1/1000 cent, as at the first issue.
    pub credit: BTreeMap<PipeKey, i64>,
    /// The rack at the first issue, and the pipe of each row.
    pub rack_then: Vec<(PipeKey, IssuedRack)>,
    /// Gate orders by mark.
    pub gates: BTreeMap<String, GateStand>,
    /// Pieces.
    #[serde(with = "super::pairs")]
    pub pieces: BTreeMap<PieceId, PieceStand>,
    /// Joints by number.
    pub joints: BTreeMap<u32, JointStand>,
    /// Lines by number.
    pub lines: BTreeMap<u32, LineStand>,
    /// Spliced horizontals: which of their splices are welded.
    #[serde(with = "super::pairs")]
    pub splices: BTreeMap<PieceId, Vec<bool>>,
    /// Money of orders, as told.
    pub paid: Money,
    /// Money back, as told.
    pub back: Money,
    /// Why the plan should be made again; one line a reason.
    pub replan: BTreeSet<String>,
    /// Told closed.
    pub closed: bool,
}

impl WeekStand {
    /// The plan that is followed.
    pub fn current(&self) -> Option<&WeekPlan> {
        self.plans.iter().rev().find(|p| !p.superseded)
    }

    /// Pieces of one copy of a gate, in order of their names.
    pub fn of_copy<'a>(
        &'a self,
        gate: &'a GateCopy,
    ) -> impl Iterator<Item = (&'a PieceId, &'a PieceStand)> {
        let mine = move |(id, piece): &(&PieceId, &PieceStand)| {
            id.copy == gate.copy && piece.gate.as_deref() == Some(gate.mark.as_str())
        };
        self.pieces.iter().filter(mine)
    }

    /// The same of extra parts.
    pub fn extras(&self) -> impl Iterator<Item = (&PieceId, &PieceStand)> {
        self.pieces.iter().filter(|(_, piece)| piece.gate.is_none())
    }

    /// The copy of a gate that a piece belongs to.
    pub fn copy_of(&self, piece: &PieceId) -> Option<GateCopy> {
        let mark = self.pieces.get(piece)?.gate.clone()?;
        Some(GateCopy {
            mark,
            copy: piece.copy,
        })
    }
}
