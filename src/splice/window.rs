//! Windows of one gate's spliced lines.

use std::sync::Arc;

use serde::Serialize;

use crate::measure::{Length, Money};
use crate::statics::{Envelope, Line};

/// Which form of DESIGN §8 rule 3 was used; printed on the splice sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum ReachForm {
    /// No envelope computed: every interior bay of a carrying horizontal is a roller bay.
    EveryInteriorBay,
    /// Roller bays from the computed travel envelope.
    Envelope,
}

/// Class of a window (money and warning), the cheapest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum WindowClass {
    /// No charge: rel ≤ 0.35, or no envelope computed.
    Plain,
    /// Charged: rel 0.35–0.60.
    Charged,
    /// Charged much: rel over 0.60, which only an order permits.
    ByOrder,
}

/// A closed interval of splice centres p (ticks from the line's latch-end long point).
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Window {
    /// Lowest centre (rounded up to a tick).
    pub lo: Length,
    /// Highest centre (rounded down to a tick).
    pub hi: Length,
    /// Bay 1..n: the zone.
    pub bay: u32,
    /// The bay is a roller bay of this horizontal.
    pub roller_bay: bool,
    /// Lies beyond the plain reach: allowed by setting, printed with a warning.
    pub tolerated: bool,
    /// Class.
    pub class: WindowClass,
    /// Charge.
    pub charge: Money,
}

impl Window {
    /// Its ends rounded inward to a mark: what is said to be allowed, is. A window between two marks
    /// is named by the nearest.
    pub fn marks(&self, mark: Length) -> (Length, Length) {
        inward((self.lo, self.hi), mark)
    }
}

/// The ends of a window rounded inward to a mark; to the nearest where nothing were left.
pub fn inward((lo, hi): (Length, Length), mark: Length) -> (Length, Length) {
    let (from, to) = (lo.up_to(mark), hi.down_to(mark));
    if from <= to {
        return (from, to);
    }
    let near = |end: Length| Length::nearest_mark(end.geometric(), mark);
    (near(lo), near(hi))
}

/// One horizontal (or sway brace) that must or may be spliced.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SpliceLine {
    /// Index into `TakeOff::parts`.
    pub part: usize,
    /// Which horizontal it is; `None`: a sway brace.
    #[serde(skip)]
    pub horizontal: Option<Line>,
    /// Long point to long point, to the nearest tick.
    pub long: Length,
    /// Saw length when it is cut whole.
    pub whole: Length,
    /// x of the latch-end long point, to the nearest tick: p = x − x_long.
    pub x_long: Length,
    /// m₀: fewest splices; 0 for a line that may stay whole.
    pub least: u32,
    /// The cap.
    pub most: u32,
    /// Least piece: the larger of one bay and the setting, up to a mark.
    pub least_piece: Length,
    /// Windows, ascending.
    pub windows: Vec<Window>,
}

/// The spliced lines of one gate order: one nest group, as many of them identical as there are copies.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SpliceSet {
    /// Index into `Week::gates`.
    pub gate: usize,
    /// Copies of the gate whose splices are open, ascending; those of which a piece is made stay as they are.
    pub copies: Vec<u32>,
    /// Bottom and top horizontal, in that order, or one sway brace.
    pub lines: Vec<SpliceLine>,
    /// The two lines stay this far apart.
    pub apart: Length,
    /// The two lines share no bay.
    pub bays_exclusive: bool,
    /// Form of rule 3 used.
    pub form: ReachForm,
    /// The gate's bending as it rolls, when it was computed. Follows from the order: not written out.
    #[serde(skip)]
    pub bending: Option<Arc<Envelope>>,
}

impl SpliceSet {
    /// How many gates are still to be spliced so.
    pub fn count(&self) -> u32 {
        u32::try_from(self.copies.len()).unwrap_or(u32::MAX)
    }
}
