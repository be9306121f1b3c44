//! What anyone can recompute a lower bound from: a tree of splits on counts, duals at its leaves.
//!
//! Every answer lies on one side of each split, so it lies in one leaf; what a leaf's duals give
//! (DESIGN §9, inside the counts' intervals on the way there) bounds every answer in it, and the least
//! over the leaves bounds them all.

use serde::{Deserialize, Serialize};

/// What a split counts.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Counted {
    /// Joints taken of these stocks (ascending indices into `Pool::stocks`).
    Joints(Vec<usize>),
    /// Splices made in these groups (ascending indices into `Pool::groups`).
    Splices(Vec<usize>),
}

/// A node of the tree. Children come later in the list than their parent.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Branch {
    /// At most `most` of what is counted, or more.
    Split {
        /// What is counted.
        counted: Counted,
        /// Most on the one side; the other side has at least one more.
        most: i64,
        /// Node of the side with at most `most`.
        under: usize,
        /// Node of the side with more.
        over: usize,
    },
    /// No further split.
    Leaf(Leaf),
}

/// Integer duals in units of 1/`dual_scale` money.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Leaf {
    /// One per item.
    pub item_duals: Vec<i64>,
    /// Denominator.
    pub dual_scale: i64,
    /// Duals of the cumulative length rows per class: (length at least this, class, dual), the
    /// value π(ℓ) of a piece being the sum of duals of rows with `length ≤ ℓ` of its class.
    pub length_duals: Vec<(i64, u8, i64)>,
    /// Multipliers of sets split on the way here; a single stock needs none (its interval is enough).
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub multipliers: Vec<Multiplier>,
}

/// What one of a counted set pays.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Multiplier {
    /// The set.
    pub counted: Counted,
    /// Its multiplier μ: min over the interval of μ·w is added, and each joint or splice of the set
    /// costs μ less.
    pub value: i64,
}

impl Leaf {
    /// The duals that certify 0.
    pub(super) fn nothing(items: usize) -> Leaf {
        Leaf {
            item_duals: vec![0; items],
            dual_scale: 1,
            length_duals: Vec::new(),
            multipliers: Vec::new(),
        }
    }
}
