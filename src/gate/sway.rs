//! The sway brace: an arc through its two ends, standing off the verticals.

use super::frame::Sway;
use crate::order::{GateOrder, Week};

/// Arc of chord c (post axis to post axis) and rise f: `ρ = (c² + 4f²)/(8f)`, pipe length
/// `2ρ·asin(c/2ρ)` plus the allowance at each end. A standoff at each interior bay line is the arc's
/// ordinate there less half the ODs of vertical and brace.
pub(super) fn sway(week: &Week, order: &GateOrder, bay_lines: &[f64]) -> Sway {
    let rules = &week.shop.sway;
    let first = bay_lines.first().copied().unwrap_or(0.0);
    let chord = bay_lines.last().copied().unwrap_or(0.0) - first;
    let rise = rules.rise.geometric();
    let radius = (chord * chord + 4.0 * rise * rise) / (8.0 * rise);
    let half = chord / 2.0;
    let off = week.pipe(order.pipes.vertical).radius() + week.pipe(order.pipes.sway).radius();
    let interior = 1..bay_lines.len().saturating_sub(1);
    let standoffs = interior
        .filter_map(|line| {
            let x = bay_lines.get(line)? - first - half;
            let ordinate = ((radius - x) * (radius + x)).max(0.0).sqrt() - (radius - rise);
            Some((line, ordinate - off))
        })
        .collect();
    Sway {
        chord,
        rise,
        radius,
        length: 2.0 * radius * (half / radius).min(1.0).asin()
            + 2.0 * rules.end_allowance.geometric(),
        standoffs,
    }
}
