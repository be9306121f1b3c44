//! What of a plan.json's order of work is judged: gates complete, saws, kits, what is left out.

use serde::Deserialize;

use super::form::{Exact, Spliced, present};

#[derive(Debug, Deserialize)]
pub(super) struct Done {
    pub(super) gate: usize,
    pub(super) copy: u32,
    pub(super) mark: String,
    pub(super) after_joint: u32,
}

#[derive(Debug, Deserialize)]
pub(super) struct Sitting {
    pub(super) saw: u32,
    pub(super) joints: Vec<u32>,
    pub(super) minutes: f64,
}

#[derive(Debug, Deserialize)]
pub(super) struct Minutes {
    pub(super) joints: f64,
    pub(super) cuts: f64,
}

#[derive(Debug, Deserialize)]
pub(super) struct Kit {
    pub(super) gate: usize,
    pub(super) options: Vec<KitOption>,
}

#[derive(Debug, Deserialize)]
pub(super) struct KitOption {
    pub(super) joint: Exact,
    pub(super) joints_per_gate: usize,
    pub(super) cuts: Vec<KitJoint>,
    pub(super) lines: Vec<Spliced>,
    #[serde(deserialize_with = "present")]
    pub(super) refused: Option<String>,
}

#[derive(Debug, Deserialize)]
pub(super) struct KitJoint {
    pub(super) pieces: Vec<KitPiece>,
    pub(super) floor: Exact,
}

#[derive(Debug, Deserialize)]
pub(super) struct KitPiece {
    pub(super) mark: String,
    pub(super) part: usize,
    #[serde(deserialize_with = "present")]
    pub(super) piece: Option<u32>,
    pub(super) saw_length: Exact,
    pub(super) start: Exact,
    pub(super) end: Exact,
}

#[derive(Debug, Deserialize)]
pub(super) struct LeftOut {
    #[serde(deserialize_with = "present")]
    pub(super) gate: Option<usize>,
    pub(super) mark: String,
    pub(super) reason: String,
}
