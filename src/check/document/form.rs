//! What of a plan.json is judged, field by field; other fields are let be.

use serde::{Deserialize, Deserializer};

pub(super) use super::form_money::*;
pub(super) use super::form_work::*;

/// A plan.json without its problem and answer.
#[derive(Debug, Deserialize)]
pub struct PlanFile {
    /// What its money is in.
    pub currency: String,
    pub(super) format: String,
    pub(super) version: u32,
    pub(super) units: String,
    pub(super) saw_mark: Exact,
    pub(super) kerf: Exact,
    pub(super) totals: Totals,
    pub(super) pipes: Vec<Pipe>,
    pub(super) gates: Vec<Gate>,
    pub(super) parts: Vec<Part>,
    pub(super) joints: Vec<Joint>,
    pub(super) spliced: Vec<Spliced>,
    pub(super) buy: Vec<Buy>,
    pub(super) fees: Vec<Fee>,
    #[serde(deserialize_with = "present")]
    pub(super) ledger: Option<Ledger>,
    pub(super) uncut: Vec<Uncut>,
    pub(super) spares: Vec<Spare>,
    pub(super) kept: Vec<Kept>,
    pub(super) gate_costs: Vec<GateCost>,
    pub(super) outcomes: Vec<Outcome>,
    pub(super) references: Vec<Reference>,
    pub(super) done: Vec<Done>,
    pub(super) sittings: Vec<Sitting>,
    pub(super) minutes: Minutes,
    pub(super) kits: Vec<Kit>,
    pub(super) left_out: Vec<LeftOut>,
}

impl PlanFile {
    /// Which pools have money, in their order; the others count joints, splices and feet.
    pub fn priced(&self) -> Vec<bool> {
        self.outcomes.iter().map(|o| o.priced).collect()
    }
}

/// An exact length.
#[derive(Clone, Copy, Debug, Deserialize)]
pub(super) struct Exact {
    pub(super) ticks: i64,
}

/// A length out of geometry, in the document's unit.
#[derive(Clone, Copy, Debug, Deserialize)]
pub(super) struct Geometric {
    pub(super) value: f64,
}

#[derive(Debug, Deserialize)]
pub(super) struct Totals {
    pub(super) joints: usize,
    pub(super) bought: u64,
    pub(super) from_rack: u64,
    pub(super) splices: usize,
    pub(super) kept: usize,
    #[serde(deserialize_with = "present")]
    pub(super) money: Option<f64>,
    pub(super) waste: Waste,
}

#[derive(Debug, Deserialize)]
pub(super) struct Waste {
    pub(super) taken: Exact,
    pub(super) in_parts: Exact,
    pub(super) all_in: Exact,
    pub(super) lost: Exact,
    pub(super) kept: Exact,
    #[serde(deserialize_with = "present")]
    pub(super) all_in_percent: Option<f64>,
    #[serde(deserialize_with = "present")]
    pub(super) lost_percent: Option<f64>,
    #[serde(deserialize_with = "present")]
    pub(super) kept_percent: Option<f64>,
}

#[derive(Debug, Deserialize)]
pub(super) struct Pipe {
    pub(super) title: String,
    pub(super) grade: String,
    pub(super) od: f64,
    pub(super) od_unit: String,
    pub(super) wall: f64,
    pub(super) wall_unit: String,
}

#[derive(Debug, Deserialize)]
pub(super) struct Gate {
    pub(super) mark: String,
    pub(super) count: u32,
    pub(super) opening: Exact,
    pub(super) latch_overlap: Exact,
    pub(super) roller_overlap: Exact,
    pub(super) tail: Geometric,
    pub(super) leaf: Geometric,
    pub(super) kit: bool,
    #[serde(deserialize_with = "present")]
    pub(super) frame: Option<Frame>,
    #[serde(deserialize_with = "present")]
    pub(super) weight: Option<Weight>,
    #[serde(deserialize_with = "present")]
    pub(super) bending: Option<Bending>,
}

#[derive(Debug, Deserialize)]
pub(super) struct Frame {
    pub(super) bay_lines: Vec<Geometric>,
    pub(super) bays: Vec<Bay>,
    pub(super) lean_deg: Vec<Option<f64>>,
    pub(super) roller_front_closed: Geometric,
    pub(super) roller_front_open: Geometric,
    pub(super) roller_rear_closed: Geometric,
    pub(super) roller_rear_open: Geometric,
    pub(super) roller_spacing: Geometric,
}

#[derive(Debug, Deserialize)]
pub(super) struct Bay {
    pub(super) bay: usize,
    pub(super) from: Geometric,
    pub(super) to: Geometric,
    pub(super) width: Geometric,
    #[serde(deserialize_with = "present")]
    pub(super) lean_deg: Option<f64>,
}

#[derive(Debug, Deserialize)]
pub(super) struct Weight {
    pub(super) pipe: f64,
    #[serde(deserialize_with = "present")]
    pub(super) fabric: Option<f64>,
    #[serde(deserialize_with = "present")]
    pub(super) hardware: Option<f64>,
    #[serde(deserialize_with = "present")]
    pub(super) zinc: Option<f64>,
    pub(super) total: f64,
}

#[derive(Debug, Deserialize)]
pub(super) struct End {
    #[serde(deserialize_with = "present")]
    pub(super) setback_least: Option<Geometric>,
    #[serde(deserialize_with = "present")]
    pub(super) setback_largest: Option<Geometric>,
    #[serde(deserialize_with = "present")]
    pub(super) cutback: Option<Geometric>,
}

#[derive(Debug, Deserialize)]
pub(super) struct Bending {
    pub(super) rollers_closed: Vec<Push>,
    pub(super) rollers_open: Vec<Push>,
}

#[derive(Debug, Deserialize)]
pub(super) struct Push {
    pub(super) roller: String,
    pub(super) from_latch_face: Geometric,
}

#[derive(Debug, Deserialize)]
pub(super) struct Part {
    pub(super) mark: String,
    #[serde(deserialize_with = "present")]
    pub(super) gate: Option<usize>,
    pub(super) role: String,
    pub(super) pipe: usize,
    pub(super) per_gate: u32,
    pub(super) count: u64,
    pub(super) saw_length: Exact,
    pub(super) axis: Geometric,
    pub(super) ends: [End; 2],
    pub(super) long_point: Geometric,
    pub(super) throat: Exact,
    pub(super) throat_exact: Geometric,
    pub(super) weight_each: f64,
    pub(super) ours: bool,
    pub(super) left_out: bool,
}

#[derive(Debug, Deserialize)]
pub(super) struct Joint {
    pub(super) number: u32,
    pub(super) pipe: usize,
    pub(super) source: Source,
    #[serde(deserialize_with = "present")]
    pub(super) quote: Option<usize>,
    #[serde(deserialize_with = "present")]
    pub(super) rack_tag: Option<String>,
    pub(super) length: Exact,
    pub(super) near_trim: Exact,
    pub(super) far_trim: Exact,
    pub(super) hold_back: Exact,
    pub(super) pieces: Vec<Piece>,
    pub(super) leftover: Exact,
    pub(super) last_cut: Exact,
    pub(super) drop: Exact,
    pub(super) floor: Exact,
    pub(super) kept: bool,
    #[serde(deserialize_with = "present")]
    pub(super) keep_tag: Option<String>,
    #[serde(deserialize_with = "present")]
    pub(super) credit: Option<f64>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum Source {
    Bought,
    Rack,
}

#[derive(Debug, Deserialize)]
pub(super) struct Piece {
    pub(super) mark: String,
    pub(super) part: usize,
    pub(super) copy: u32,
    pub(super) serial: u32,
    #[serde(deserialize_with = "present")]
    pub(super) piece: Option<u32>,
    pub(super) saw_length: Exact,
    pub(super) throat: Exact,
    pub(super) start: Exact,
    pub(super) end: Exact,
}

#[derive(Debug, Deserialize)]
pub(super) struct Spliced {
    pub(super) mark: String,
    pub(super) part: usize,
    pub(super) copy: u32,
    pub(super) serial: u32,
    pub(super) pieces: Vec<Exact>,
    pub(super) gap: Geometric,
    pub(super) splices: Vec<Splice>,
}

#[derive(Debug, Deserialize)]
pub(super) struct Splice {
    pub(super) name: String,
    pub(super) from_long_point: Geometric,
    #[serde(deserialize_with = "present")]
    pub(super) from_latch_face: Option<Geometric>,
    pub(super) bay: u32,
    pub(super) from_bay_line_before: Geometric,
    pub(super) to_bay_line_after: Geometric,
    pub(super) window: [Exact; 2],
    pub(super) class: Class,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum Class {
    Plain,
    Charged,
    ByOrder,
}

/// A field that may be null, but not be left out: a reader would take what is missing for "none".
pub(super) fn present<'de, D: Deserializer<'de>, T: Deserialize<'de>>(
    field: D,
) -> Result<Option<T>, D::Error> {
    Option::deserialize(field)
}
