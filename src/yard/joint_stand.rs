//! `JointStand`: a numbered joint: waiting, begun, cut; and how it adds up.

use serde::{Deserialize, Serialize};

use crate::measure::Length;
use crate::order::PieceId;
use crate::order::{PipeKey, RemnantId};

/// Where a joint comes from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Source {
    /// A line to order.
    Line(u32),
    /// A remnant.
    Remnant(RemnantId),
}

/// A piece on it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JointPiece {
    /// Name.
    pub id: PieceId,
    /// Saw length.
    pub saw: Length,
    /// Kerf eaten by the cut at its far end.
    pub kerf: Length,
}

/// Lengths of one joint for all time. What was taken and the difference is what it gave and what is
/// left.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Tally {
    /// Length of the pipe that was taken.
    pub taken: Length,
    /// What measuring added, or, below zero, took away.
    pub difference: Length,
    /// Pieces as they came off the saw.
    pub pieces: Length,
    /// Kerf.
    pub kerf: Length,
    /// Trim.
    pub trim: Length,
    /// Drops kept.
    pub drops: Length,
    /// Scrap.
    pub scrap: Length,
    /// Not cut yet.
    pub rest: Length,
}

impl Tally {
    /// The identity of a joint.
    pub fn adds_up(&self) -> bool {
        let gave = self.pieces + self.kerf + self.trim + self.drops + self.scrap;
        self.taken + self.difference == gave + self.rest
    }
}

/// A joint.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JointStand {
    /// Pipe.
    pub pipe: PipeKey,
    /// Source.
    pub source: Source,
    /// Planning or measured length.
    pub length: Length,
    /// Near trim.
    pub near: Length,
    /// The drop's far end wants a trim.
    pub far: bool,
    /// Pieces from the tape end.
    pub pieces: Vec<JointPiece>,
    /// What lies on the floor by the plan.
    pub floor: Length,
    /// Tag of the drop that the plan keeps.
    pub keep: Option<String>,
    /// Pieces cut.
    pub cut: usize,
    /// Nothing more is cut from it: all is, or its rest went elsewhere.
    pub over: bool,
    /// A later revision gave its pieces another number.
    pub void: bool,
    /// How it adds up.
    pub tally: Tally,
}

impl JointStand {
    /// Some of it is cut and some is not.
    pub fn begun(&self) -> bool {
        self.cut > 0 && !self.over
    }

    /// Nothing of it is cut, and it is still to be.
    pub fn waiting(&self) -> bool {
        self.cut == 0 && !self.over && !self.void
    }

    /// Shortest pipe it can be cut from.
    pub fn least(&self) -> Length {
        let last = self.pieces.last().map_or(Length::ZERO, |p| p.kerf);
        let pieces: Length = self.pieces.iter().map(|p| p.saw + p.kerf).sum();
        self.near + pieces - last
    }

    /// The same work under the same number, whatever is done of it.
    pub(super) fn same_content(&self, other: &JointStand) -> bool {
        self.pipe == other.pipe
            && self.source == other.source
            && self.length == other.length
            && self.near == other.near
            && self.pieces == other.pieces
            && self.keep == other.keep
    }
}
