//! The nest answer: patterns, splices, bound, status.

use serde::{Deserialize, Serialize};

use super::proof::Branch;
use super::whole::Whole;

/// Why the search ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum StopReason {
    /// Bound and cost met.
    Closed,
    /// Every means was tried to its own end: more steps find no more.
    Exhausted,
    /// The work budget ran out, or a means its share of it.
    WorkBudget,
    /// The time limit or Ctrl-C.
    Interrupted,
}

/// Status of money only.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Status {
    /// Certified bound = cost.
    Proved,
    /// Closed by means the certificate cannot carry.
    ProvedBySearch,
    /// Within cost − bound.
    Within,
    /// No plan exists with the stock to be had: proved, or every way was tried. What is missing is named.
    Short,
    /// No plan was found, and none is ruled out: no bound is claimed. What is missing of the best try is named.
    NoneFound,
}

impl Status {
    /// Whether there is a plan, with a cost and a bound.
    pub fn has_plan(self) -> bool {
        !matches!(self, Status::Short | Status::NoneFound)
    }
}

/// One piece in a pattern.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Cut {
    /// Item by index into `Pool::items`.
    Item(usize),
    /// A piece of a spliced line by length and class.
    Piece {
        /// Length, a multiple of the mark (or a line's `whole`).
        length: i64,
        /// Class bit index.
        class: u8,
    },
}

/// A cutting pattern of one stock, used `times` times.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Pattern {
    /// Index into `Pool::stocks`.
    pub stock: usize,
    /// How many joints are cut so.
    pub times: u32,
    /// Pieces with multiplicity, sorted longest first (ties by `Cut` order). Empty only for a joint bought
    /// and left uncut, where charges over its stock allow it.
    pub cuts: Vec<Cut>,
}

/// One way of splicing one group, used `times` times. Empty inner vector never occurs: an unspliced
/// line lists its one `whole` piece.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Configuration {
    /// Index into `Pool::groups`.
    pub group: usize,
    /// How many of the identical groups are made so.
    pub times: u32,
    /// Per line the piece lengths in order from the line's start.
    pub lines: Vec<Vec<i64>>,
}

/// The answer for one pool.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PoolAnswer {
    /// Patterns in a fixed order.
    pub patterns: Vec<Pattern>,
    /// Configurations in a fixed order.
    pub configurations: Vec<Configuration>,
    /// Cost: stocks − credits + splices and charges, in the aim's first measure's money.
    pub cost: i64,
    /// Certified lower bound on the cost.
    pub bound: i64,
    /// What the bound is recomputed from: the first node is the root.
    pub proof: Vec<Branch>,
    /// Status.
    pub status: Status,
    /// Why the search ended.
    pub stop: StopReason,
    /// Items (index, missing count) when there is no plan.
    pub short: Vec<(usize, u32)>,
    /// Groups (index, missing count) when there is no plan.
    pub short_groups: Vec<(usize, u32)>,
}

/// The whole answer; pools in the problem's order.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Answer {
    /// Per pool. Where charges couple the pools, cost, bound and status of each are its own, the
    /// charges aside.
    pub pools: Vec<PoolAnswer>,
    /// What all pools with all charges come to; `None` in a problem without charges.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub whole: Option<Whole>,
}
