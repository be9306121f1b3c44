//! The gates of tests/reference/frame_reference.json as models, by the file's own defaults.

use longpoint::order::{Carrier, Lean};
use longpoint::statics::{Model, STEEL_ELASTICITY, STEEL_WEIGHT, Section, WebEnds};
use serde_json::Value;

/// The reference file.
pub fn reference() -> Value {
    serde_json::from_str(include_str!("../reference/frame_reference.json")).expect("valid JSON")
}

/// One check of it.
#[allow(dead_code)]
pub fn check(id: u64) -> Value {
    let file = reference();
    let checks = file["checks"].as_array().expect("checks");
    let found = checks.iter().find(|check| check["id"] == id);
    found.unwrap_or_else(|| panic!("no check {id}")).clone()
}

/// A gate of the file.
pub fn gate(name: &str) -> Model {
    let file = reference();
    let gate = &file["model"]["gates"][name];
    let number = |value: &Value| value.as_f64().expect("a number");
    let section = |value: &Value| Section {
        od: number(&value[0]),
        wall: number(&value[1]),
    };
    let web = section(&gate["web"]);
    open(
        number(&gate["opening_in"]),
        number(&gate["H_in"]),
        section(&gate["chord"]),
        web,
    )
}

/// A gate by the file's defaults: leaf 1.5 × opening + 12, equal bays under 60 in, lead 6 in.
pub fn open(opening: f64, height: f64, horizontal: Section, web: Section) -> Model {
    let leaf = 1.5 * opening + 12.0;
    let bays = (leaf / 60.0).floor() + 1.0;
    let lines = (0..=60)
        .map(f64::from)
        .take_while(|i| *i <= bays)
        .map(|i| leaf * i / bays)
        .collect();
    Model {
        origin: 0.0,
        lines,
        height,
        horizontal,
        vertical: web,
        diagonal: web,
        posts: [web, web],
        lean: Lean::HeadToTail,
        landing: 0.0,
        web_ends: WebEnds::Rigid,
        elasticity: STEEL_ELASTICITY,
        unit_weight: STEEL_WEIGHT,
        fabric: 0.6 / 144.0,
        load_factor: 1.0,
        nose_load: 0.0,
        carrier: Carrier::Bottom,
        front_open: 6.0,
        front_closed: opening + 6.0,
        spacing: 0.85 * (leaf - opening),
    }
}
