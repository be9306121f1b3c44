//! Prints the gates of tests/statics/variants.rs with our numbers as JSON, for
//! tests/frame_crosscheck.py to compute again with a general-purpose frame library.

#[path = "gates.rs"]
#[allow(dead_code)]
mod gates;
#[path = "variants.rs"]
#[allow(dead_code)]
mod variants;

use longpoint::order::{Carrier, Lean};
use longpoint::statics::{Inner, Line, Model, Pose, Rig, Section, Side, StaticsFault, WebEnds};
use serde_json::{Value, json};

fn section(section: Section) -> Value {
    json!([section.od, section.wall])
}

fn inputs(model: &Model) -> Value {
    json!({
        "lines": model.lines,
        "height": model.height,
        "horizontal": section(model.horizontal),
        "vertical": section(model.vertical),
        "diagonal": section(model.diagonal),
        "posts": model.posts.map(section),
        "head_to_tail": model.lean == Lean::HeadToTail,
        "landing": model.landing,
        "pinned": model.web_ends == WebEnds::Pinned,
        "elasticity": model.elasticity,
        "unit_weight": model.unit_weight,
        "fabric": model.fabric,
        "load_factor": model.load_factor,
        "nose_load": model.nose_load,
        "carrier": match model.carrier {
            Carrier::Bottom => "bottom",
            Carrier::Top => "top",
            Carrier::Both => "both",
        },
        "spacing": model.spacing,
    })
}

fn inner(inner: Inner) -> Value {
    json!([inner.axial, inner.shear, inner.moment])
}

/// Everything compared: lifts, rises at bay lines, forces beside bay lines, rollers and mid-bays,
/// and the web.
fn outputs(model: &Model, pose: &Pose<'_>) -> Value {
    let mut places = model.lines.clone();
    places.extend(model.lines.windows(2).map(|pair| (pair[0] + pair[1]) / 2.0));
    places.extend(pose.lifts().iter().map(|lift| lift.x));
    let rows = Line::BOTH.map(|line| {
        let row = |x: &f64| {
            json!({
                "x": x,
                "rise": pose.rise(line, *x),
                "left": inner(pose.inner(line, *x, Side::Left)),
                "right": inner(pose.inner(line, *x, Side::Right)),
            })
        };
        places.iter().map(row).collect::<Vec<Value>>()
    });
    let uprights = (0..=model.bays())
        .filter_map(|i| pose.upright(i, 0.0))
        .map(inner);
    let diagonals = (1..=model.bays())
        .filter_map(|bay| pose.diagonal(bay, 0.5))
        .map(inner);
    json!({
        "lifts": pose.lifts(),
        "horizontals": rows,
        "uprights": uprights.collect::<Vec<_>>(),
        "diagonals": diagonals.collect::<Vec<_>>(),
    })
}

fn main() -> Result<(), StaticsFault> {
    let mut gates = Vec::new();
    for (name, model) in variants::variants() {
        let rig = Rig::new(&model)?;
        let mid = model.front_open + 0.4371 * (model.front_closed - model.front_open);
        for front in [model.front_open, mid, model.front_closed] {
            let pose = rig.pose(front)?;
            gates.push(json!({
                "name": name,
                "front": front,
                "model": inputs(&model),
                "ours": outputs(&model, &pose),
            }));
        }
    }
    println!("{}", Value::Array(gates));
    Ok(())
}
