//! Gates that try every choice of the model once. Sizes invented.

use longpoint::order::{Carrier, Lean};
use longpoint::statics::{Model, Section, WebEnds};

use super::gates::{gate, open};

/// A 2.875 in post at the tail, another pipe at the latch end, uneven bays, landings moved.
pub fn uneven() -> Model {
    let base = gate("G20x8");
    let leaf = base.leaf();
    let bays: u32 = 8;
    let lines = (0..=bays).map(f64::from).map(|i| {
        let even = leaf * i / f64::from(bays);
        if i == 0.0 || i == f64::from(bays) {
            even
        } else {
            even + 5.0 * (i * 2.0).sin()
        }
    });
    Model {
        lines: lines.collect(),
        posts: [
            Section {
                od: 2.375,
                wall: 0.154,
            },
            Section {
                od: 2.875,
                wall: 0.203,
            },
        ],
        diagonal: Section {
            od: 1.66,
            wall: 0.111,
        },
        landing: 3.0,
        ..base
    }
}

/// Name and model of each.
pub fn variants() -> Vec<(&'static str, Model)> {
    let plain = || gate("G30x6");
    let long = Section {
        od: 2.875,
        wall: 0.203,
    };
    let web = Section {
        od: 1.9,
        wall: 0.145,
    };
    vec![
        ("plain", plain()),
        ("short", gate("G12x4")),
        ("light pipe", gate("G24x6")),
        ("61 ft leaf", open(40.0 * 12.0, 96.0, long, web)),
        (
            "pinned web",
            Model {
                web_ends: WebEnds::Pinned,
                ..plain()
            },
        ),
        (
            "hung",
            Model {
                carrier: Carrier::Top,
                lean: Lean::HeadToLatch,
                ..plain()
            },
        ),
        (
            "both held",
            Model {
                carrier: Carrier::Both,
                ..plain()
            },
        ),
        (
            "both held, uneven",
            Model {
                carrier: Carrier::Both,
                ..uneven()
            },
        ),
        (
            "leaning to the latch",
            Model {
                lean: Lean::HeadToLatch,
                ..plain()
            },
        ),
        (
            "landings moved",
            Model {
                landing: 2.5,
                ..plain()
            },
        ),
        (
            "landings moved, latch lean",
            Model {
                lean: Lean::HeadToLatch,
                landing: 4.0,
                ..plain()
            },
        ),
        ("uneven", uneven()),
        (
            "nose load, factored",
            Model {
                nose_load: 120.0,
                load_factor: 1.4,
                ..plain()
            },
        ),
        (
            "rollers near each other",
            Model {
                spacing: 20.0,
                ..plain()
            },
        ),
        (
            "both held, one bar",
            Model {
                carrier: Carrier::Both,
                spacing: 20.0,
                ..plain()
            },
        ),
    ]
}
