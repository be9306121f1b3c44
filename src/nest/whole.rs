//! The whole of a problem with charges: its cost, and a proof that joins the pools' proofs.
//!
//! The proof is a tree whose nodes split what a charge counts, or the joints of one stock. In a leaf each
//! charge f has an interval of its number w and a slope b: f(w) ≥ min (f(v) − b·v) + b·w over the
//! interval, so b moves into what a joint of its set costs (times its price where prices are summed) and
//! each pool is bounded by itself at the moved costs.
//!
//! At every node, the root first, the intervals tighten each other once: a range caps its number (at 0 where
//! that is under its least), each charge the joints of its stocks, and then the joints each charge's number.
//!
//! The moved pool, as whoever re-verifies a leaf makes it. All money counts `grain` times. A stock that no
//! charge names stays as it is. A stock named by charges may take [least, most] joints, here and by its
//! limit; let e be its moved cost less the credit of its usable length. Where e < 0 all `most` of them
//! are bought: most·e is added, and cutting one costs its credit. Else least·e is added, the
//! first `least` (when there are any: a stock of their own, listed first) cost their credit, the others the
//! moved cost; as the first are cut first, of the others no answer cuts more than the pieces less `least`.
//! So joints bought uncut are in the bound wherever they may be.

use serde::{Deserialize, Serialize};

use super::answer::{Status, StopReason};
use super::charge::StockOf;
use super::proof::Branch;

/// What all pools with all charges come to.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Whole {
    /// Pools and charges together.
    pub cost: i64,
    /// Certified lower bound on the cost.
    pub bound: i64,
    /// Money of each charge.
    pub charges: Vec<i64>,
    /// Status of the whole.
    pub status: Status,
    /// Why the search ended.
    pub stop: StopReason,
    /// Slopes and the pools' proofs are in 1/`grain` money.
    pub grain: i64,
    /// The tree, its root first.
    pub nodes: Vec<Fork>,
    /// Proofs of moved pools; leaves share them.
    pub proofs: Vec<Vec<Branch>>,
}

/// A node of the tree over charges. Children come later in the list than their parent.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Fork {
    /// A charge counts at most `most` (joints, or money where it sums prices), or more.
    Charge {
        /// Index into `Problem::charges`.
        charge: usize,
        /// Most on the one side.
        most: i64,
        /// Node of the side with at most `most`.
        under: usize,
        /// Node of the side with more.
        over: usize,
    },
    /// At most `most` joints of a stock that a charge names, or more.
    Joints {
        /// The stock.
        of: StockOf,
        /// Most on the one side.
        most: i64,
        /// Node of the side with at most `most`.
        under: usize,
        /// Node of the side with more.
        over: usize,
    },
    /// No further split.
    Leaf {
        /// Slope of each charge.
        slopes: Vec<i64>,
        /// Proof of each pool: index into `Whole::proofs`.
        proofs: Vec<usize>,
    },
    /// No answer lies here.
    Nothing,
}
