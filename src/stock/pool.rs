//! The stock side of one pipe's pool, and where each stock came from.

use serde::Serialize;

use super::DeliveryDays;
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
    /// Cost of taking one: price with tax (to 1/1000 cent, half away from zero), or credit(U) of a rack
    /// piece.
    pub cost: Money,
    /// Price before tax, which minimum orders and free freight count; `None`: the same as the cost.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub price: Option<Money>,
    /// Classes of items it is here in time for, one bit each.
    pub serves: u32,
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
    /// Delivery days that are too late for some gate: what classes mean.
    #[serde(skip_serializing_if = "DeliveryDays::none")]
    pub days: DeliveryDays,
    /// Credit per whole foot of a kept drop, down to 1/1000 cent.
    pub credit_per_foot: Money,
    /// False: a price is missing, the pool is planned by joints and no money is printed.
    pub priced: bool,
}
