//! The nest problem: what is to be cut, out of what, and where lines may be spliced.

use serde::{Deserialize, Serialize};

use super::charge::Charge;

/// What to minimise; money breaks ties of the other aims.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Aim {
    /// Least money (default).
    #[default]
    Money,
    /// Fewest joints, then money.
    Joints,
    /// Least all-in waste (drops not credited), then money.
    Waste,
    /// Fewest splices, then money.
    Splices,
}

/// A whole problem: one pool per pipe.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Problem {
    /// What to minimise.
    #[serde(default)]
    pub aim: Aim,
    /// Pools; no piece passes between them, only charges join them.
    pub pools: Vec<Pool>,
    /// Charges over sets of stocks.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub charges: Vec<Charge>,
}

/// Everything of one pipe.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pool {
    /// For messages and the certificate; unique.
    pub name: String,
    /// Saw mark: every spliced piece is a whole multiple of it.
    pub mark: i64,
    /// Kerf k between two neighbours on a joint.
    pub kerf: i64,
    /// Credit of a kept drop.
    pub credit: Credit,
    /// Stocks.
    pub stocks: Vec<Stock>,
    /// Items, lengths distinct per class.
    pub items: Vec<Item>,
    /// Groups of spliced lines.
    #[serde(default)]
    pub groups: Vec<Group>,
}

/// credit(x) = `per_foot` × ⌊x / `foot`⌋ if x ≥ `keep`, else 0; x = max(0, u − k) where
/// u = U − Σℓ − k(n − 1) is the leftover of a joint.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Credit {
    /// Keep length.
    pub keep: i64,
    /// One whole foot in the problem's unit.
    pub foot: i64,
    /// Money per whole foot, ≥ 0.
    pub per_foot: i64,
}

impl Credit {
    /// No drop is worth anything.
    pub const NONE: Credit = Credit {
        keep: 0,
        foot: 1,
        per_foot: 0,
    };

    /// The credit of a drop of length `x`.
    pub fn of(&self, x: i64) -> i64 {
        if x < self.keep || x < 0 {
            0
        } else {
            self.per_foot * (x / self.foot.max(1))
        }
    }
}

/// A kind of joint or a rack piece. Parts ℓ₁…ℓₙ fit iff Σℓᵢ + k(n − 1) ≤ usable.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stock {
    /// For messages; unique in the pool.
    pub name: String,
    /// Usable length U, exact.
    pub usable: i64,
    /// Cost of taking one, ≥ 0 and not less than credit(U).
    pub cost: i64,
    /// What one counts towards a minimum order or free freight: its price before fees and tax; the cost when
    /// not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price: Option<i64>,
    /// Most that can be had; `None` unlimited.
    #[serde(default)]
    pub limit: Option<u32>,
    /// Classes of items it may serve, one bit each (all bits: every class).
    #[serde(default = "every_class")]
    pub serves: u32,
    /// Length for the aim `waste` and for reporting (planning or measured length).
    pub length: i64,
}

impl Stock {
    /// What one counts towards a minimum order or free freight.
    pub fn price(&self) -> i64 {
        self.price.unwrap_or(self.cost)
    }
}

fn every_class() -> u32 {
    u32::MAX
}

/// Equal pieces to cut, exactly `count` of them.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Item {
    /// Length ℓ > 0.
    pub length: i64,
    /// How many.
    pub count: u32,
    /// Class bit index, 0..32.
    #[serde(default)]
    pub class: u8,
}

/// `count` identical groups of one or two lines, spliced together.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Group {
    /// For messages.
    pub name: String,
    /// How many identical groups (each may be spliced differently).
    pub count: u32,
    /// Class bit index of every piece.
    #[serde(default)]
    pub class: u8,
    /// One or two lines.
    pub lines: Vec<Line>,
    /// The two lines' splice centres stay at least this far apart.
    pub apart: i64,
    /// The two lines may not both splice in one zone.
    pub zones_exclusive: bool,
    /// Money per splice, without slot charges.
    pub splice_cost: i64,
}

/// A spliceable length. With m ≥ 1 splices its m + 1 pieces are whole marks and sum to
/// P(m) = (length − m·gap) rounded down to a mark; the gap as made is G = (length − P)/m; the centre
/// of splice j (1..m) is Σ(pieces before it) + (j − ½)·G, compared exactly as integers × 2m.
/// With m = 0 the one piece is `whole`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Line {
    /// Long point to long point.
    pub length: i64,
    /// The piece cut when it is not spliced (its saw length).
    pub whole: i64,
    /// Least root gap g.
    pub gap: i64,
    /// Fewest splices.
    pub least_splices: u32,
    /// Most splices.
    pub most_splices: u32,
    /// Least piece of a spliced line.
    pub least_piece: i64,
    /// Of any three consecutive splices the first and third are more than this apart.
    pub three_over: i64,
    /// Where a splice centre may stand: closed intervals, ascending, disjoint or touching.
    pub slots: Vec<Slot>,
}

/// A closed interval of centres. One splice per zone and line. Where slots touch the cheaper
/// charge holds at the shared end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Slot {
    /// Lowest centre.
    pub lo: i64,
    /// Highest centre.
    pub hi: i64,
    /// Zone (bay).
    pub zone: u32,
    /// Charge for standing here.
    pub charge: i64,
}

/// When to stop. The default is a work budget in counted steps, never the clock.
#[derive(Clone, Copy, Debug)]
pub struct Limits {
    /// Work budget of each pool in counted steps (entries of tables and of the program's inverse touched,
    /// nodes, labels): roughly a nanosecond each.
    pub work: u64,
    /// Wall-clock limit, only when asked for; may vary the answer, and the status says so.
    pub time: Option<std::time::Duration>,
}

impl Default for Limits {
    fn default() -> Limits {
        Limits {
            work: 200_000_000,
            time: None,
        }
    }
}
