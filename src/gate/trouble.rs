//! What can be wrong with one gate's geometry, as data.

use super::Role;

/// One reason why a gate cannot be made as ordered. Lengths in ticks.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Trouble {
    /// End post OD below horizontal OD where posts run past.
    PostUnderHorizontal,
    /// End post OD over horizontal OD in the *through* variant.
    PostOverHorizontal,
    /// A branch larger than the main it stands on.
    BranchOverMain { branch: Role, main: Role },
    /// Risers on verticals ordered while a roller runs on top of the top horizontal.
    RisersUnderRoller,
    /// Nothing is left between the end posts.
    LeafShort { span: f64 },
    /// Nothing is left between the horizontals.
    HeightSmall { axis_height: f64 },
    /// No sensible number of bays keeps the limits.
    TooManyBays { bound: f64 },
    /// A bay count of 0, or over the most ever laid out.
    BayCount { count: u32 },
    /// A bay excluded for splices is not there.
    NoSuchBay { bay: u32, bays: usize },
    /// A given bay line is not between its neighbours.
    LineOutOfOrder { line: usize, at: f64 },
    /// A bay is not strictly under the shop's limit or the 45° limit.
    BayOver { bay: usize, width: f64, over: Over },
    /// Twice the landing offset is not under the bay.
    OffsetOver { bay: usize, width: f64 },
    /// No pipe is left between the two copes of a part.
    Throat {
        role: Role,
        place: usize,
        throat: f64,
    },
    /// An end has a surface line that touches nothing, or meets at no real angle.
    Misses { role: Role, place: usize },
    /// The sway brace's rise is not over 0 and under half its chord.
    SwayRise { rise: f64, chord: f64 },
    /// A standoff would have no length.
    Standoff { line: usize, length: f64 },
}

/// Which limit a bay breaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Over {
    /// The shop's bay limit.
    Limit,
    /// The diagonal would lie at 45° or flatter.
    Slope,
}
