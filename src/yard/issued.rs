//! `IssuedPlan`: what the yard needs of a plan that was handed out, so that entries stand by themselves.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use crate::measure::{Length, Money, Units};
use crate::order::PieceId;
use crate::order::PipeKey;

/// A plan as handed out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct IssuedPlan {
    /// Plan number.
    pub plan: String,
    /// Revision.
    pub revision: u32,
    /// Units the shop prints in.
    pub units: Units,
    /// Currency.
    pub currency: String,
    /// Kerf as planned.
    pub kerf: Length,
    /// A drop at least this long is kept.
    pub keep: Length,
    /// A piece measured off by more is asked about.
    pub tolerance: Length,
    /// Pipes.
    pub pipes: Vec<IssuedPipe>,
    /// Gates, in week order.
    pub gates: Vec<IssuedGate>,
    /// Joints in cutting order.
    pub joints: Vec<IssuedJoint>,
    /// Spliced horizontals.
    pub spliced: Vec<IssuedSplices>,
    /// Lines to order.
    pub lines: Vec<IssuedLine>,
    /// The rack as the plan found it.
    pub rack: Vec<IssuedRack>,
}

/// A pipe.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct IssuedPipe {
    /// Its key.
    pub key: PipeKey,
    /// Trade name.
    pub name: String,
    /// Credit of a kept foot, in 1/1000 cent; frozen at a week's first issue.
    pub credit: i64,
}

/// A gate order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct IssuedGate {
    /// Mark.
    pub mark: String,
    /// Copies.
    pub count: u32,
    /// Due.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub due: Option<Date>,
}

/// Where a joint comes from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum IssuedSource {
    /// Of a line to order.
    Line(u32),
    /// Off the rack, by tag.
    Rack(String),
}

/// A joint.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct IssuedJoint {
    /// Number.
    pub number: u32,
    /// Index into `pipes`.
    pub pipe: usize,
    /// Source.
    pub source: IssuedSource,
    /// Planning or measured length.
    pub length: Length,
    /// Near trim.
    pub near: Length,
    /// The far end still has the mill's cut on it when all is cut.
    pub far: bool,
    /// Pieces from the tape end.
    pub pieces: Vec<IssuedPiece>,
    /// Last cut.
    pub last_cut: Length,
    /// What lies on the floor.
    pub floor: Length,
    /// Tag of a kept drop.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub keep: Option<String>,
}

/// A piece on a joint.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct IssuedPiece {
    /// Its name.
    pub id: PieceId,
    /// The mark painted on it.
    pub mark: String,
    /// Index into `gates`; `None`: an extra part.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gate: Option<usize>,
    /// Saw length.
    pub saw: Length,
    /// Kerf eaten by the cut at its far end.
    pub kerf: Length,
    /// Ends that are coped.
    pub copes: u32,
}

/// A spliced horizontal.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct IssuedSplices {
    /// The line: `piece` is `None`.
    pub line: PieceId,
    /// Splices.
    pub splices: u32,
}

/// A line to order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct IssuedLine {
    /// Number over all orders of the plan.
    pub number: u32,
    /// Index into `pipes`.
    pub pipe: usize,
    /// Supplier.
    pub supplier: String,
    /// Length billed.
    pub nominal: Length,
    /// Length counted on.
    pub planning: Length,
    /// Joints.
    pub joints: u32,
    /// Money of the line, tax in it; `None` without a price.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub money: Option<Money>,
    /// Day they must be here.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub needed: Option<Date>,
    /// Spares on top.
    pub spare: bool,
}

/// A row of the rack.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct IssuedRack {
    /// Tag.
    pub tag: String,
    /// Index into `pipes`.
    pub pipe: usize,
    /// Length of each.
    pub length: Length,
    /// How many.
    pub count: u32,
    /// Its near end wants a trim.
    pub near_trim: bool,
    /// Its far end wants a trim.
    pub far_trim: bool,
}
