//! `Quote`: one price of one joint length, and the terms it comes with.

use jiff::civil::Date;
use serde::Serialize;

use super::{Origin, PipeId, QuotedPrice};
use crate::measure::{Length, Money};

/// A joint length on sale at one price. A price break is a quote of its own: same pipe, length and
/// supplier, from more joints on.
#[derive(Clone, Debug, Serialize)]
pub struct Quote {
    /// Pipe.
    pub pipe: PipeId,
    /// Supplier as named by the shop; may be empty.
    pub supplier: String,
    /// Nominal length: what the supplier bills.
    pub nominal: Length,
    /// Planning length: what cutting, drops and waste use; ≤ nominal. Rounded down to a tick.
    pub planning: Length,
    /// Price of one joint before tax and fees, converted from its basis; `None`: not given, plan by
    /// joints.
    pub price: Option<Money>,
    /// The price as quoted, for the order line; `None` when none.
    pub quoted: Option<QuotedPrice>,
    /// Most joints to be had, over all breaks of this joint; `None` unlimited.
    pub available: Option<u32>,
    /// What else was agreed.
    #[serde(skip_serializing_if = "QuoteTerms::none")]
    pub terms: QuoteTerms,
    /// Where the row stands.
    pub origin: Origin,
}

/// What a quote says beyond its price.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct QuoteTerms {
    /// Fewest joints at this price; 0 and 1 alike: from the first on.
    pub from: u32,
    /// How it is banded; over all breaks of this joint.
    pub lift: Option<Lift>,
    /// Calendar days from order to delivery (the supplier's where the row does not say); `None`: as
    /// good as here.
    pub lead_days: Option<u32>,
    /// Last day of the price.
    pub valid_until: Option<Date>,
    /// Not taxed, whatever the supplier's rate.
    pub untaxed: bool,
}

/// A banded lift.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Lift {
    /// Joints in it, ≥ 1.
    pub joints: u32,
    /// Money per lift, begun ones too.
    pub fee: Money,
    /// Money more for a lift that is broken.
    pub part_fee: Money,
}

impl QuoteTerms {
    /// Nothing beyond the price was agreed.
    pub fn none(&self) -> bool {
        *self == QuoteTerms::default()
    }
}

impl Quote {
    /// The price as quoted, in words; empty when none.
    pub fn quoted_words(&self) -> String {
        self.quoted.map_or_else(String::new, |q| q.to_string())
    }

    /// Whether another row prices the same joint of the same supplier (a break, or a doubled row).
    pub fn same_joint(&self, other: &Quote) -> bool {
        self.pipe == other.pipe && self.nominal == other.nominal && self.supplier == other.supplier
    }
}
