//! The real gate → its [`Model`]: the one place where ticks become inches.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::model::{STEEL_ELASTICITY, STEEL_WEIGHT};
use super::{Model, Section, WebEnds};
use crate::gate::Frame;
use crate::measure::{INCH, Units};
use crate::order::{PipeId, Week};

/// Fabric taken when the shop gives none, lbf/ft² (9 ga chain link, 2 in mesh, is near it; common
/// practice, no source).
const FABRIC_PSF: f64 = 0.6;
/// One kg/m² in lbf/ft².
const PSF_PER_METRIC: f64 = 2.204_622_621_8 * 0.3048 * 0.3048;

/// A gate's model. Our node i is the model's; x of the model is the gate's x less half the latch
/// end post's OD. Web welded rigidly.
pub fn model(week: &Week, frame: &Frame) -> Model {
    let order = &week.gates[frame.gate];
    let section = |id: PipeId| {
        let pipe = week.pipe(id);
        Section {
            od: pipe.od.inches(),
            wall: pipe.wall.inches(),
        }
    };
    let first = frame.bay_lines.first().copied().unwrap_or(0.0);
    let lines: Vec<f64> = frame.bay_lines.iter().map(|x| (x - first) / INCH).collect();
    let leaf = lines.last().copied().unwrap_or(0.0);
    let spacing = frame.rollers.spacing / INCH;
    let half = first / INCH;
    let tail_half = week.pipe(order.pipes.tail_post).od.inches() / 2.0;
    let closed = frame.rollers.front_closed / INCH - half;
    Model {
        origin: half,
        height: frame.axis_height / INCH,
        horizontal: section(order.pipes.horizontal),
        vertical: section(order.pipes.vertical),
        diagonal: section(order.pipes.diagonal),
        posts: [
            section(order.pipes.latch_post),
            section(order.pipes.tail_post),
        ],
        lean: frame.lean,
        landing: week.shop.gate.landing_offset.geometric() / INCH,
        web_ends: WebEnds::Rigid,
        elasticity: STEEL_ELASTICITY,
        unit_weight: STEEL_WEIGHT,
        fabric: fabric_psf(order.fabric_weight(&week.shop), week.shop.units) / 144.0,
        load_factor: order.load_factor(&week.shop).to_f64().unwrap_or(f64::NAN),
        nose_load: 0.0,
        carrier: order.carrier(&week.shop),
        front_open: off_face(frame.rollers.front_open / INCH - half, half),
        front_closed: leaf - spacing - off_face(leaf - spacing - closed, tail_half),
        spacing,
        lines,
    }
}

/// A roller's distance into the leaf from an end post's axis. One between the post's face and its
/// axis stands at the axis: the post stops it there.
fn off_face(room: f64, half_post: f64) -> f64 {
    if (-half_post..0.0).contains(&room) {
        0.0
    } else {
        room
    }
}

fn fabric_psf(given: Option<Decimal>, units: Units) -> f64 {
    let Some(weight) = given.and_then(|w| w.to_f64()) else {
        return FABRIC_PSF;
    };
    match units {
        Units::Inch => weight,
        Units::Metric => weight * PSF_PER_METRIC,
    }
}
