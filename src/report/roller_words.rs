//! The rollers of a gate in words: what carries them and where their figures come from.

use crate::order::{Carrier, GateOrder, Week};

/// Which horizontals carry the rollers.
pub(super) fn carried(week: &Week, order: &GateOrder) -> &'static str {
    match order.carrier(&week.shop) {
        Carrier::Bottom => "carried on the bottom horizontal",
        Carrier::Top => "hung from the top horizontal",
        Carrier::Both => "both horizontals held",
    }
}

/// Whether the distance between the roller supports is the order's or the shop's rule of thumb.
pub(super) fn supports(order: &GateOrder) -> &'static str {
    match order.rolling.spacing {
        Some(_) => "as ordered",
        None => "by the shop's rule, supports not known",
    }
}
