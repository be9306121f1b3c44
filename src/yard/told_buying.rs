//! What is told of lines of an order.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use crate::measure::{Length, Money};

/// An order as it went out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Ordered {
    /// Supplier.
    pub supplier: String,
    /// Lines.
    pub lines: Vec<OrderedLine>,
    /// What the supplier bills beyond the lines; `None`: not told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fees: Option<Money>,
    /// Day promised.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub promised: Option<Date>,
}

/// One line of an order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OrderedLine {
    /// Line number.
    pub line: u32,
    /// Joints.
    pub joints: u32,
    /// Money of the line, tax in it; `None`: not told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub money: Option<Money>,
}

/// What came of a line.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Delivered {
    /// Line number.
    pub line: u32,
    /// Joints.
    pub joints: u32,
    /// Measured lengths, one a joint; empty: as planned.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lengths: Vec<Length>,
}

/// What becomes of joints that are missing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Comes {
    /// They come later, on this day where it is known.
    Later(Option<Date>),
    /// They do not come; money back where it was told.
    Not(Option<Money>),
}

/// Joints of an order that did not come.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Short {
    /// Line number.
    pub line: u32,
    /// Joints.
    pub joints: u32,
    /// What becomes of them.
    pub comes: Comes,
}

/// Joints that came bent: so much of each can be used.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Bent {
    /// Line number.
    pub line: u32,
    /// Joints.
    pub joints: u32,
    /// Usable length of each; zero: none.
    pub left: Length,
}

/// Joints of a delivery sent back at the gate.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SentBack {
    /// Line number.
    pub line: u32,
    /// Joints.
    pub joints: u32,
    /// What becomes of them.
    pub comes: Comes,
}

/// A delivery day.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Promised {
    /// Line numbers.
    pub lines: Vec<u32>,
    /// The day.
    pub day: Date,
}

/// Joints cancelled or sent back.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cancelled {
    /// Line number.
    pub line: u32,
    /// Joints.
    pub joints: u32,
    /// Money back, where it was told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub money: Option<Money>,
}
