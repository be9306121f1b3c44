//! `Supplier`: what a supplier charges and asks beyond the price of joints.

use rust_decimal::Decimal;
use serde::Serialize;

use super::Origin;
use crate::measure::{Length, Money};

/// One supplier's terms, from suppliers.csv. All money before tax is entered as billed.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Supplier {
    /// Name as in stock.csv.
    pub name: String,
    /// Freight of the week's one shipment by the longest joint it carries, ascending in length and
    /// in money; empty: none.
    pub freight: Vec<FreightStep>,
    /// Joint prices (before tax) from which the first freight step is not billed; what a longer
    /// joint adds still is.
    pub free_over: Option<Money>,
    /// Least joint prices (before tax) billed when anything is bought.
    pub minimum: Option<Money>,
    /// Tax on taxable joints, as a fraction. Freight and fees are entered as billed, tax included.
    pub tax: Decimal,
    /// Where the first row stands.
    pub origin: Option<Origin>,
}

/// Freight of a shipment whose joints are no longer than this.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct FreightStep {
    /// Longest joint (nominal) carried; `None`: any.
    pub up_to: Option<Length>,
    /// Freight of the shipment.
    pub amount: Money,
}
