//! Quotes, rack, dates → stocks, credits, charges: the nest problem's stock side.

mod days;
mod landed;
mod late;
mod pool;
mod pools;
mod terms;
#[cfg(test)]
mod terms_tests;
#[cfg(test)]
mod tests;
mod usable;

pub(crate) use days::here_in_time;
pub use days::{DeliveryDays, in_time};
pub use landed::{landed_price, tax_rate};
pub(crate) use late::{Late, late};
pub use pool::{PoolSource, PoolStock, StockOrigin};
pub use pools::{
    UNPRICED_JOINT, UNPRICED_SPLICE, credit, credit_per_foot, pools, pools_of, usable_of_piece,
};
pub use terms::{Term, TermKind, terms};
pub(crate) use usable::on_sale;
pub use usable::{longest_usable, usable_of_new};
