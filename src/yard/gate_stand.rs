//! `GateStand`: a gate order and its copies.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

/// One copy of a gate.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct CopyStand {
    /// Told finished.
    pub done: bool,
    /// Told shipped.
    pub shipped: bool,
    /// Not wanted any more.
    pub withdrawn: bool,
}

/// A gate order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct GateStand {
    /// Due.
    pub due: Option<Date>,
    /// Copies 1.., in order.
    pub copies: Vec<CopyStand>,
    /// Its order changed since it was planned.
    pub changed: bool,
}
