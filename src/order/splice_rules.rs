//! `SpliceRules`: where and how often a horizontal may be spliced (DESIGN §8), every figure a setting.

use rust_decimal::Decimal;
use serde::Serialize;

use crate::measure::{Length, Money};

/// Splice policy.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum SplicePolicy {
    /// As few as needed (default).
    AsFewAsNeeded,
    /// Wherever it pays: one more than needed allowed, and horizontals that need none may take one.
    WhereverItPays,
    /// Never: a horizontal longer than every joint to be had cannot be made. Says nothing of a kit's
    /// horizontals, which are the buyer's.
    Never,
}

/// Splice rules of DESIGN §8.
#[derive(Clone, Debug, Serialize)]
pub struct SpliceRules {
    /// Policy.
    pub policy: SplicePolicy,
    /// Splices more than the fewest that a line may get where the rules leave no other way (1 when not set).
    pub most_extra: u32,
    /// Root gap g [3/32 in].
    pub root_gap: Length,
    /// Fillet leg [3/16 in].
    pub leg: Length,
    /// Clear of toes by this many ODs of the horizontal [1.5].
    pub clear_ods: Decimal,
    /// … never less than this many ODs [1.0] …
    pub clear_least_ods: Decimal,
    /// … nor this [2 in].
    pub clear_least: Length,
    /// Clear of a parked roller, either one, closed or open [12 in].
    pub parked_clear: Length,
    /// Roller bay: from the clear distance to this fraction of the bay from a vertical [0.20].
    pub roller_bay_reach: Decimal,
    /// Tolerated with a warning up to this fraction [0.25].
    pub tolerated_reach: Decimal,
    /// Allow the tolerated reach [false].
    pub allow_tolerated: bool,
    /// A bay is a roller bay when its envelope peaks at this fraction of the gate's peak [0.35].
    pub roller_bay_from: Decimal,
    /// A splice where the stress is over this share of the gate's peak costs `class_charge` [0.35].
    pub charge_over: Decimal,
    /// Over this share none is made unless the order permits it [0.60].
    pub refuse_over: Decimal,
    /// Stagger: top and bottom splices of one gate at least this far apart [24 in].
    pub stagger: Length,
    /// By setting only: the same bay may hold a top and a bottom splice, still staggered [false].
    pub same_bay: bool,
    /// Least piece (the larger of this and one bay) [36 in].
    pub least_piece: Length,
    /// Of any three consecutive splices the first and third are over this apart [10 ft].
    pub three_within: Length,
    /// Money per splice; no silent zero.
    pub cost: Money,
    /// Charge of the middle class (rel 0.35–0.60) [$1], whole cents.
    pub class_charge: Money,
    /// Charge of a splice over `refuse_over` that the order permits [$40], whole cents.
    pub high_stress_charge: Money,
    /// Extra toes: other welds on the horizontals of every gate, from the latch face (brackets).
    pub brackets: Vec<Length>,
    /// Half width of a bracket weld.
    pub bracket_half_width: Length,
}

impl SpliceRules {
    /// Most that `most_extra` may be: past a few, the search for a way grows without any use.
    pub const MOST_EXTRA: u32 = 2;
}
