//! What a joint may hold: U = length − near trim − far trim − hold-back.

use super::{here_in_time, in_time};
use crate::measure::Length;
use crate::order::{PipeId, Quote, Saw, Week};

/// U of a new joint of this planning length; may be ≤ 0.
pub fn usable_of_new(saw: &Saw, planning: Length) -> Length {
    planning - saw.near_trim - saw.far_trim - saw.hold_back
}

/// Joints of this pipe that can be bought now and hold something, in file order.
pub(crate) fn on_sale(week: &Week, pipe: PipeId) -> impl Iterator<Item = (usize, &Quote)> {
    week.quotes.iter().enumerate().filter(move |(_, q)| {
        q.pipe == pipe
            && q.available != Some(0)
            && usable_of_new(&week.shop.saw, q.planning) > Length::ZERO
    })
}

/// U of the longest joint on sale that is here in time for a gate (none: an extra part): longer
/// horizontals are spliced. With no such joint, U of the longest rack piece; `None` when there is
/// neither.
pub fn longest_usable(week: &Week, pipe: PipeId, gate: Option<usize>) -> Option<Length> {
    let bought = on_sale(week, pipe)
        .filter(|(_, q)| in_time(week, q, gate))
        .map(|(_, q)| usable_of_new(&week.shop.saw, q.planning));
    let rack = week
        .rack
        .iter()
        .filter(|r| r.pipe == pipe && r.count > 0)
        .filter(|r| here_in_time(week, r.arrives, gate))
        .map(|r| super::usable_of_piece(&week.shop.saw, r))
        .filter(|u| *u > Length::ZERO);
    bought.max().or_else(|| rack.max())
}
