//! Draws one gate from its bay lines, without judging them.

use super::frame::{Bay, End, Frame, Rollers};
use super::layout::Span;
use super::members::members;
use super::sway::sway;
use crate::cope::{Branch, Main, Method};
use crate::measure::Length;
use crate::order::{CutMethod, GateOrder, PipeId, Variant, Week};
use rust_decimal::prelude::ToPrimitive;

/// The frame of `week.gates[gate]`'s order on the given bay lines (x of every line, both end posts'
/// axes included; at least two), unjudged: whether the bays keep the limits and the parts exist is
/// [`super::build`]'s question. `order` is passed apart so that a changed copy can be drawn.
pub fn lay_out(week: &Week, gate: usize, order: &GateOrder, bay_lines: Vec<f64>) -> Frame {
    let std = &week.shop.gate;
    let height = order.height.geometric();
    let axis_height = height - week.pipe(order.pipes.horizontal).diameter();
    let rise = rise(week, order);
    let drop = std.post_drop.geometric();
    let post = match std.variant {
        Variant::PostsRunPast => height + rise + drop,
        Variant::Through => height,
    };
    let offset = std.landing_offset.geometric();
    let bays = bay_lines
        .windows(2)
        .map(|w| Bay {
            from: w[0],
            to: w[1],
            alpha: axis_height.atan2(w[1] - w[0] - 2.0 * offset),
            diagonal_axis: axis_height.hypot(w[1] - w[0] - 2.0 * offset),
        })
        .collect();
    let mut frame = Frame {
        gate,
        variant: std.variant,
        lean: std.lean,
        leaf: order.leaf,
        height,
        axis_height,
        rise,
        drop: match std.variant {
            Variant::PostsRunPast => drop,
            Variant::Through => 0.0,
        },
        bays,
        members: Vec::new(),
        rollers: rollers(week, order),
        sway: None,
        check_measure: order.leaf.hypot(post),
        bay_lines,
    };
    frame.sway = order.sway.then(|| sway(week, order, &frame.bay_lines));
    frame.members = members(week, order, &frame);
    frame
}

/// Bay lines of `count` equal bays between the end posts' axes, for [`lay_out`].
pub fn bay_lines_of_equal_bays(week: &Week, order: &GateOrder, count: u32) -> Vec<f64> {
    Span::of(week, order).equal(count)
}

/// Past the top horizontal's outside face: the stop, or the barbed rise that replaces it when larger.
fn rise(week: &Week, order: &GateOrder) -> f64 {
    let std = &week.shop.gate;
    let strands = i64::from(order.barbed.min(1_000));
    let barbed = Length::from_ticks(std.barbed_pitch.ticks().saturating_mul(strands));
    std.stop_rise.max(barbed).geometric()
}

/// Roller axes: the front one beside the opening, the rear one the given distance behind it.
fn rollers(week: &Week, order: &GateOrder) -> Rollers {
    let lead = order.lead(&week.shop).geometric();
    let opening = order.opening.geometric();
    let fraction = week.shop.gate.roller_spacing.to_f64().unwrap_or(f64::NAN);
    Rollers {
        front_closed: opening + lead,
        front_open: lead,
        spacing: order
            .rolling
            .spacing
            .map_or(fraction * (order.leaf - opening), Length::geometric),
    }
}

/// The pipe as `cope`'s branch.
pub fn branch_of(week: &Week, pipe: PipeId) -> Branch {
    let pipe = week.pipe(pipe);
    Branch {
        radius: pipe.radius(),
        bore: pipe.bore_radius(),
    }
}

/// What an end meets, as `cope`'s mains; empty for a square end.
pub fn mains_of(week: &Week, end: &End) -> Vec<Main> {
    end.meets
        .iter()
        .map(|m| Main {
            radius: week.pipe(m.pipe).radius(),
            phi: m.phi,
            beta: m.beta,
            offset: m.offset,
            station: m.station,
        })
        .collect()
}

/// The station's way of cutting, as `cope`'s method.
pub fn method_of(cut: CutMethod) -> Method {
    match cut {
        CutMethod::TrueSaddle => Method::TrueSaddle,
        CutMethod::Radial => Method::Radial,
    }
}
