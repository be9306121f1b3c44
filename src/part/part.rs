//! `Part`: one kind of piece of one gate order, with every length the floor needs.

use serde::Serialize;

use crate::cope::EndCut;
use crate::gate::{Frame, Meeting, Role};
use crate::measure::Length;
use crate::order::{CutMethod, PipeId};

/// One end as cut.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub enum CopeEnd {
    /// Square; capped or not.
    Square {
        /// Capped on the sheet.
        capped: bool,
    },
    /// Coped.
    Coped(Cope),
}

/// A coped end.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Cope {
    /// The pipes it meets; angles and clocks on the part's one scribe line.
    pub meets: Vec<Meeting>,
    /// Setbacks and where.
    pub cut: EndCut,
    /// Largest setback at the two gate-plane surface lines: θ = 0 and θ = π (diagonals' under and
    /// top line use them), ticks.
    pub at_zero: f64,
    /// See `at_zero`.
    pub at_pi: f64,
    /// What the part measures long point to long point once every feather edge of it is ground back
    /// to the pipe's full wall (information only), ticks; `None` when this end has no feather.
    pub blunted: Option<f64>,
}

/// One kind of part of one gate order (or an extra part): identical pieces grouped.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Part {
    /// Full mark: `A1-HB`, or the extra part's own mark.
    pub mark: String,
    /// Index into `Week::gates`; `None` for an extra part.
    pub gate: Option<usize>,
    /// Index into `Week::extras`; `None` for a gate's part.
    pub extra: Option<usize>,
    /// What it is; `None` for an extra part.
    pub role: Option<Role>,
    /// Pipe.
    pub pipe: PipeId,
    /// Pieces in one gate (extra: its count).
    pub per_gate: u32,
    /// Pieces in the week = per_gate × the order's count (extra: its count).
    pub count: u32,
    /// Axis length, ticks.
    pub axis: f64,
    /// Long point, exact, ticks: what the saw cuts before rounding.
    pub long_exact: f64,
    /// Throat, exact, ticks (an axis figure).
    pub throat_exact: f64,
    /// Saw length: long point to the nearest saw mark.
    pub saw: Length,
    /// Throat to the nearest saw mark.
    pub throat: Length,
    /// Diagonals: top line (surface line away from the bottom horizontal), ticks.
    pub top_line: Option<f64>,
    /// Diagonals: under line, ticks.
    pub under_line: Option<f64>,
    /// Ends `[start, end]`: latch side / lower first, as laid in the first bay.
    pub ends: [CopeEnd; 2],
    /// How it is cut.
    pub cut: CutMethod,
    /// Serves turned end for end in the last bay too (D1): its lines swap there.
    pub swaps_in_last_bay: bool,
    /// Weight each by saw length, lb or kg.
    pub weight: f64,
    /// Comes out of our pipe. False for a kit gate's horizontals (inside the gate's weight, outside
    /// our pipe, price and waste).
    pub ours: bool,
}

/// The week taken off.
#[derive(Clone, Debug, Serialize)]
pub struct TakeOff {
    /// One frame per gate order that could be built (count 0 included), in order of `Week::gates`.
    pub frames: Vec<Frame>,
    /// Parts: gates in week order, within a gate in [`Role`] order, then extras.
    pub parts: Vec<Part>,
}
