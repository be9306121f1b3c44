//! What of a plan.json's money is judged: lines bought, fees, ledger, costs, outcomes.

use serde::Deserialize;

use super::form::{Exact, Waste, present};
use crate::nest::{Status, StopReason};

#[derive(Debug, Deserialize)]
pub(super) struct Buy {
    pub(super) quote: usize,
    pub(super) pipe: usize,
    pub(super) supplier: String,
    pub(super) joint: Exact,
    pub(super) joints: u32,
    pub(super) billed: Exact,
    #[serde(deserialize_with = "present")]
    pub(super) weight: Option<f64>,
    #[serde(deserialize_with = "present")]
    pub(super) each: Option<f64>,
    #[serde(deserialize_with = "present")]
    pub(super) money: Option<f64>,
    #[serde(deserialize_with = "present")]
    pub(super) tax: Option<f64>,
}

#[derive(Debug, Deserialize)]
pub(super) struct Fee {
    pub(super) kind: FeeKind,
    pub(super) money: f64,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum FeeKind {
    Freight,
    Lift,
    Minimum,
}

#[derive(Debug, Deserialize)]
pub(super) struct Ledger {
    pub(super) pipe: f64,
    pub(super) tax: f64,
    pub(super) freight: f64,
    pub(super) lifts: f64,
    pub(super) minimum: f64,
    pub(super) rack: f64,
    pub(super) splices: f64,
    pub(super) classes: f64,
    pub(super) kept: f64,
    pub(super) total: f64,
}

#[derive(Debug, Deserialize)]
pub(super) struct Uncut {
    pub(super) quote: usize,
    pub(super) joints: u32,
    pub(super) credit: f64,
}

#[derive(Debug, Deserialize)]
pub(super) struct Spare {
    pub(super) quote: usize,
    pub(super) pipe: usize,
    pub(super) joints: u32,
    #[serde(deserialize_with = "present")]
    pub(super) money: Option<f64>,
}

#[derive(Debug, Deserialize)]
pub(super) struct Kept {
    pub(super) tag: String,
    pub(super) joint: u32,
    pub(super) pipe: usize,
    pub(super) credited: Exact,
    pub(super) floor: Exact,
    #[serde(deserialize_with = "present")]
    pub(super) credit: Option<f64>,
}

#[derive(Debug, Deserialize)]
pub(super) struct GateCost {
    #[serde(deserialize_with = "present")]
    pub(super) gate: Option<usize>,
    pub(super) mark: String,
    pub(super) count: u32,
    pub(super) pipe: f64,
    pub(super) splices: f64,
    pub(super) shared: f64,
    pub(super) money: f64,
    pub(super) each: f64,
    #[serde(deserialize_with = "present")]
    pub(super) per_opening: Option<f64>,
}

#[derive(Debug, Deserialize)]
pub(super) struct Outcome {
    pub(super) pipe: usize,
    pub(super) status: Status,
    pub(super) stop: StopReason,
    pub(super) priced: bool,
    pub(super) cost_millicents: i64,
    pub(super) bound_millicents: i64,
    pub(super) pipe_money_millicents: i64,
    #[serde(deserialize_with = "present")]
    pub(super) cost: Option<f64>,
    #[serde(deserialize_with = "present")]
    pub(super) bound: Option<f64>,
    pub(super) bought: u64,
    pub(super) from_rack: u64,
    pub(super) waste: Waste,
}

#[derive(Debug, Deserialize)]
pub(super) struct Reference {
    pub(super) name: String,
    #[serde(deserialize_with = "present")]
    pub(super) money: Option<f64>,
    #[serde(deserialize_with = "present")]
    pub(super) failed: Option<String>,
}
