//! Charges over sets of stocks: what couples the pools.

mod admit;
mod reach;

pub(super) use admit::admit_charges;
