//! Quotes, rack, dates → stocks, credits, charges: the nest problem's stock side.

mod pool;

pub use pool::{PoolSource, PoolStock, StockOrigin};
