//! Quotes, rack, dates → stocks, credits, charges: the nest problem's stock side.

mod pool;
mod pools;
#[cfg(test)]
mod tests;
mod usable;

pub use pool::{PoolSource, PoolStock, StockOrigin};
pub use pools::{UNPRICED_JOINT, UNPRICED_SPLICE, credit, pools, pools_of, usable_of_piece};
pub(crate) use usable::on_sale;
pub use usable::{longest_usable, usable_of_new};
