//! Extra parts and the rack.

use jiff::civil::Date;
use serde::Serialize;

use super::{Origin, Paperwork, PipeId};
use crate::measure::Length;

/// A plain part riding along: square ends, cut to length.
#[derive(Clone, Debug, Serialize)]
pub struct ExtraPart {
    /// Its mark, unique among extra parts and gates without regard to case.
    pub mark: String,
    /// Its pipe.
    pub pipe: PipeId,
    /// Length as written.
    pub length: Length,
    /// How many; may be 0 (kept, noted).
    pub count: u32,
    /// What it is made under.
    #[serde(skip_serializing_if = "Paperwork::none")]
    pub paperwork: Paperwork,
    /// Free note.
    pub note: String,
    /// Where the row stands.
    pub origin: Origin,
}

/// A measured joint or remnant on the rack.
#[derive(Clone, Debug, Serialize)]
pub struct RackPiece {
    /// Tag painted on it, or `R<line>` when none was given.
    pub tag: String,
    /// Pipe.
    pub pipe: PipeId,
    /// Measured length, rounded down to a tick.
    pub length: Length,
    /// How many pieces of just this length lie there.
    pub count: u32,
    /// Near end still wants the near trim.
    pub near_trim: bool,
    /// Far end still wants the far trim.
    pub far_trim: bool,
    /// Day on which it comes; `None`: it lies here.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub arrives: Option<Date>,
    /// Free note.
    pub note: String,
    /// Where the row stands.
    pub origin: Origin,
}
