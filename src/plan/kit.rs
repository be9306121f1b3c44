//! `KitAdvice`: what a kit's buyer is told about the two horizontals bought locally.

use serde::Serialize;

use super::{PieceCut, SplicedLine};
use crate::measure::Length;

/// Advice for one kit gate order; every copy of the order is made alike.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct KitAdvice {
    /// Index into `Week::gates`.
    pub gate: usize,
    /// One per local joint length, in the shop's order of `kit.local_joints`.
    pub options: Vec<KitOption>,
}

/// Both horizontals of one gate out of one local joint length.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct KitOption {
    /// Local joint length.
    pub joint: Length,
    /// What it can hold: less the assumed trims at both ends.
    pub usable: Length,
    /// Joints for one gate; 0 when refused.
    pub joints_per_gate: u32,
    /// The joints of one gate, in cutting order; `PieceCut::copy` is 1.
    pub cuts: Vec<KitJoint>,
    /// The spliced horizontals; empty when they are cut whole.
    pub lines: Vec<SplicedLine>,
    /// Why this length cannot meet the rules, as a plain sentence.
    pub refused: Option<String>,
}

/// One local joint: pieces at running marks from the tape end (the raw near end).
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct KitJoint {
    /// Pieces in cutting order.
    pub pieces: Vec<PieceCut>,
    /// Left on the floor after the last cut.
    pub floor: Length,
}
