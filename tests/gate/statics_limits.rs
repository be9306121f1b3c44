//! Gates that cannot be computed say why, never panic; and reading the envelope is conservative.

use crate::gates::gate;
use longpoint::measure::INCH;
use longpoint::order::Carrier;
use longpoint::statics::{Envelopes, Line, Model, PARTS, Section, StaticsFault, envelope, travel};
use proptest::prelude::*;

fn fault(model: Model) -> StaticsFault {
    envelope(&model).expect_err("not computable")
}

#[test]
fn faults_are_named() {
    let plain = || gate("G16x6");
    let none = Section { od: 1.9, wall: 0.0 };
    let cases = [
        (
            Model {
                height: f64::NAN,
                ..plain()
            },
            "height",
        ),
        (
            Model {
                height: 0.0,
                ..plain()
            },
            "height",
        ),
        (
            Model {
                lines: vec![],
                ..plain()
            },
            "bay lines",
        ),
        (
            Model {
                lines: vec![0.0],
                ..plain()
            },
            "bay lines",
        ),
        (
            Model {
                lines: vec![0.0, 50.0, 50.0, 300.0],
                ..plain()
            },
            "bay",
        ),
        (
            Model {
                landing: 25.0,
                ..plain()
            },
            "landing offset",
        ),
        (
            Model {
                diagonal: none,
                ..plain()
            },
            "pipe",
        ),
        (
            Model {
                spacing: 0.0,
                ..plain()
            },
            "roller spacing",
        ),
        (
            Model {
                front_open: 250.0,
                ..plain()
            },
            "opening",
        ),
        (
            Model {
                load_factor: -1.0,
                ..plain()
            },
            "load factor",
        ),
        (
            Model {
                fabric: f64::INFINITY,
                ..plain()
            },
            "fabric weight",
        ),
    ];
    for (model, which) in cases {
        assert_eq!(fault(model), StaticsFault::Figure(which));
    }
    let off = Model {
        spacing: 110.0,
        ..plain()
    };
    assert_eq!(
        fault(off),
        StaticsFault::OffLeaf {
            at: 308.0,
            leaf: 300.0
        }
    );
    let front = Model {
        front_open: -1.0,
        ..plain()
    };
    assert_eq!(
        fault(front),
        StaticsFault::OffLeaf {
            at: -1.0,
            leaf: 300.0
        }
    );
    let lines = (0..=300).map(f64::from).collect();
    assert_eq!(
        fault(Model { lines, ..plain() }),
        StaticsFault::TooManyBays(300)
    );
    assert!(
        fault(Model {
            height: 0.0,
            ..plain()
        })
        .to_string()
        .contains("height")
    );
}

proptest! {
    #[test]
    fn no_figure_panics(
        lines in prop::collection::vec(-10.0..700.0_f64, 0..6),
        figures in prop::collection::vec(
            prop_oneof![Just(0.0), Just(f64::NAN), Just(1e300), Just(1e-300), -5.0..500.0_f64], 10),
        both in any::<bool>(),
    ) {
        let model = Model {
            lines,
            height: figures[0],
            landing: figures[1],
            elasticity: figures[2],
            unit_weight: figures[3],
            fabric: figures[4],
            load_factor: figures[5],
            nose_load: figures[6],
            front_open: figures[7],
            front_closed: figures[8],
            spacing: figures[9],
            carrier: if both { Carrier::Both } else { Carrier::Bottom },
            ..gate("G12x4")
        };
        if let Ok(envelope) = envelope(&model) {
            prop_assert!(envelope.peak().is_finite());
        }
    }
}

#[test]
fn a_roller_on_the_very_end_and_rollers_on_one_line_are_computed() {
    let plain = gate("G16x6");
    let ends = Model {
        front_open: 0.0,
        spacing: 102.0,
        carrier: Carrier::Both,
        ..plain.clone()
    };
    assert!(envelope(&ends).is_ok());
    let still = Model {
        front_open: 100.0,
        front_closed: 100.0,
        ..plain
    };
    assert_eq!(travel(&still).len(), 1);
    assert_eq!(envelope(&still).expect("a standing gate").positions, 1);
}

/// Between two stations the higher one counts; over an interval the highest of it and its
/// neighbours; at a station itself only that one (both sides of a bay line).
#[test]
fn reading_between_stations_takes_the_higher() {
    let envelope = envelope(&Model {
        origin: 1.0,
        ..gate("G30x6")
    })
    .expect("sound");
    let x = |bay: usize, s: f64| (1.0 + 55.2 * (bay as f64 - 1.0 + s / PARTS as f64)) * INCH;
    let rel = |bay, s| envelope.station(Line::Bottom, bay, s).expect("inside") / envelope.peak();
    assert_eq!(envelope.rel(Line::Bottom, x(4, 3.0)), rel(4, 3));
    assert_eq!(
        envelope.rel(Line::Bottom, x(4, 3.4)),
        rel(4, 3).max(rel(4, 4))
    );
    assert_eq!(
        envelope.rel(Line::Bottom, x(4, 0.0)),
        rel(3, 20).max(rel(4, 0))
    );
    // In the last part of a bay the next bay's side of the bay line does not count, nor in the first the last's.
    assert_eq!(
        envelope.rel(Line::Bottom, x(3, 19.5)),
        rel(3, 19).max(rel(3, 20))
    );
    assert_eq!(
        envelope.rel(Line::Bottom, x(4, 0.5)),
        rel(4, 0).max(rel(4, 1))
    );
    let sides = (2..10).filter(|bay| rel(*bay, 20) != rel(*bay + 1, 0));
    assert!(sides.count() > 0, "the two sides of some bay line differ");
    let over = (2..=6).map(|s| rel(4, s)).fold(0.0, f64::max);
    assert_eq!(envelope.rel_over(Line::Bottom, x(4, 2.3), x(4, 5.5)), over);
    assert_eq!(envelope.rel(Line::Bottom, -5.0 * INCH), rel(1, 0));
    assert_eq!(envelope.rel(Line::Bottom, 1e9), rel(10, 20));
    let (line, worst) = Line::BOTH
        .map(|line| (line, envelope.worst(line)))
        .into_iter()
        .max_by(|a, b| a.1.stress.total_cmp(&b.1.stress))
        .expect("two lines");
    assert_eq!(envelope.bay_peak(line, worst.bay), envelope.peak());
    assert_eq!(envelope.station(line, 11, 0), None);
    assert_eq!(envelope.station(line, 0, 0), None);
}

#[test]
fn equal_gates_are_computed_once() {
    let mut envelopes = Envelopes::new();
    let first = envelopes.of(&gate("G12x4")).expect("sound");
    let again = envelopes.of(&gate("G12x4")).expect("sound");
    assert!(std::sync::Arc::ptr_eq(&first, &again));
    assert!(
        envelopes
            .of(&Model {
                height: -1.0,
                ..gate("G12x4")
            })
            .is_err()
    );
    assert!(envelopes.of(&gate("G16x6")).is_ok());
    assert_eq!(envelopes.computed(), 3);
}
