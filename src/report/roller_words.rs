//! The rollers of a gate in words: what carries them and where their figures come from.

use crate::gate::Frame;
use crate::order::{Carrier, GateOrder, Week};

use super::figures::Figures;

/// Which horizontals carry the rollers.
pub(super) fn carried(week: &Week, order: &GateOrder) -> &'static str {
    match order.carrier(&week.shop) {
        Carrier::Bottom => "carried on the bottom horizontal",
        Carrier::Top => "hung from the top horizontal",
        Carrier::Both => "both horizontals held",
    }
}

/// What carries the rollers, where their axes stand, and where the distance between them comes from.
pub(super) fn stand(week: &Week, frame: &Frame) -> String {
    let figures = Figures::of(week);
    let r = &frame.rollers;
    let order = &week.gates[frame.gate];
    format!(
        "{}; front {} from the latch face closed, {} open; rear {} behind it, {}",
        carried(week, order),
        figures.spoken_of(r.front_closed),
        figures.spoken_of(r.front_open),
        figures.spoken_of(r.spacing),
        supports(order)
    )
}

/// Whether the distance between the roller supports is the order's or the shop's rule of thumb.
pub(super) fn supports(order: &GateOrder) -> &'static str {
    match order.rolling.spacing {
        Some(_) => "as ordered",
        None => "by the shop's rule, supports not known",
    }
}
