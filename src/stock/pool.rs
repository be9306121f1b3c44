//! The stock side of one pipe's pool, and where each stock came from.

use serde::Serialize;

use crate::measure::{Length, Money};
use crate::order::PipeId;

/// Where a stock comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum StockOrigin {
    /// Index into `Week::quotes`.
    Quote(usize),
    /// Index into `Week::rack`.
    Rack(usize),
}

/// One stock with everything that the plan and the sheets say of it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PoolStock {
    /// Origin.
    pub origin: StockOrigin,
    /// Planning length (bought) or measured length (rack).
    pub length: Length,
    /// Near trim applied.
    pub near: Length,
    /// Far trim applied.
    pub far: Length,
    /// Hold-back applied.
    pub hold: Length,
    /// Usable U = length − near − far − hold.
    pub usable: Length,
    /// Cost of taking one: price, or credit(U) of a rack piece.
    pub cost: Money,
    /// Most to be had.
    pub limit: Option<u32>,
}

/// One pool: pipe, stocks in nest order, credit, and whether money is known.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PoolSource {
    /// Pipe.
    pub pipe: PipeId,
    /// Stocks in the order given to nest.
    pub stocks: Vec<PoolStock>,
    /// Credit per whole foot of a kept drop, down to 1/1000 cent.
    pub credit_per_foot: Money,
    /// False: a price is missing, the pool is planned by joints and no money is printed.
    pub priced: bool,
}
