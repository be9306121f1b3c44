//! A mirrored gate gives mirrored results, and forces on every cut add up to nothing.

use crate::{gates, variants};
use longpoint::order::{Carrier, Lean};
use longpoint::statics::{Line, Model, PARTS, Rig, Section, Side, WebEnds, envelope};
use proptest::prelude::*;

fn turned(lean: Lean) -> Lean {
    match lean {
        Lean::HeadToTail => Lean::HeadToLatch,
        Lean::HeadToLatch => Lean::HeadToTail,
    }
}

/// Hung from the top with the lean turned is the gate carried on its bottom, upside down: all
/// forces in the plane turn over, gravity with them, so stresses are the same **bit for bit** (the
/// carrying horizontal is numbered first, so the arithmetic is the same).
#[test]
fn upside_down_is_the_same_gate_bit_for_bit() {
    for (name, model) in variants::variants() {
        if model.carrier != Carrier::Bottom || model.nose_load > 0.0 {
            continue;
        }
        let hung = Model {
            carrier: Carrier::Top,
            lean: turned(model.lean),
            ..model.clone()
        };
        let (carried, hung) = (envelope(&model).expect(name), envelope(&hung).expect(name));
        for line in Line::BOTH {
            for bay in 1..=carried.bays() {
                for s in 0..=PARTS {
                    let (a, b) = (
                        carried.station(line, bay, s),
                        hung.station(line.other(), bay, s),
                    );
                    assert_eq!(a, b, "{name} {line:?} bay {bay} station {s}");
                }
            }
        }
    }
}

/// The same gate seen from its other end.
fn swapped(model: &Model) -> Model {
    let leaf = model.leaf();
    Model {
        lines: model.lines.iter().rev().map(|x| leaf - x).collect(),
        posts: [model.posts[1], model.posts[0]],
        lean: turned(model.lean),
        front_open: leaf - model.front_closed - model.spacing,
        front_closed: leaf - model.front_open - model.spacing,
        ..model.clone()
    }
}

/// The gate end for end, its leaf put on the grid the envelope computes on.
fn end_for_end(model: &Model) -> (Model, Model) {
    let grid = |x: f64| (x * 1_048_576.0).round() / 1_048_576.0;
    let model = Model {
        lines: model.lines.iter().map(|x| grid(*x)).collect(),
        front_open: grid(model.front_open),
        front_closed: grid(model.front_closed),
        spacing: grid(model.spacing),
        ..model.clone()
    };
    let swapped = swapped(&model);
    (model, swapped)
}

/// Latch end for tail end: the envelope, the rollers' lifts and the droops are mirrored **bit for
/// bit** (a gate and its mirror image are computed as one model).
#[test]
fn end_for_end_gives_the_mirrored_envelope_bit_for_bit() {
    let mut seen = 0;
    for (name, model) in variants::variants() {
        if model.nose_load > 0.0 {
            continue;
        }
        let (model, swapped) = end_for_end(&model);
        let (a, b) = (
            envelope(&model).expect(name),
            envelope(&swapped).expect(name),
        );
        assert_eq!(a.peak(), b.peak(), "{name}");
        for line in Line::BOTH {
            for bay in 1..=a.bays() {
                for s in 0..=PARTS {
                    let mirror = b.station(line, a.bays() + 1 - bay, PARTS - s);
                    assert_eq!(a.station(line, bay, s), mirror, "{name} {bay} {s}");
                }
            }
        }
        let half = a.closed.len() / 2;
        for (found, mirror) in [(&a.closed, &b.open), (&a.open, &b.closed)] {
            for (i, lift) in found.iter().enumerate() {
                let other = mirror[(i + half) % mirror.len()];
                assert_eq!(lift.force, other.force, "{name}");
                assert_eq!(lift.line, other.line, "{name}");
                assert_eq!(lift.x, model.leaf() - other.x, "{name}");
            }
        }
        assert_eq!(a.nose_closed, b.tail_open, "{name}");
        assert_eq!(a.tail_open, b.nose_closed, "{name}");
        seen += 1;
    }
    assert!(seen >= 6, "{seen} variants");
}

/// One pose of the frame itself, not turned: the band is factored from the other end, so sums round
/// differently; they agree to 1e-9 of the largest (measured near 1e-12).
#[test]
fn end_for_end_is_the_same_gate() {
    for (name, model) in variants::variants() {
        if model.nose_load > 0.0 {
            continue;
        }
        let swapped = swapped(&model);
        let (rig, other) = (
            Rig::new(&model).expect(name),
            Rig::new(&swapped).expect(name),
        );
        let pose = rig.pose(model.front_closed).expect(name);
        let mirror = other.pose(swapped.front_open).expect(name);
        for line in Line::BOTH {
            for x in model
                .lines
                .windows(2)
                .map(|pair| 0.3 * pair[0] + 0.7 * pair[1])
            {
                let a = pose.inner(line, x, Side::Left);
                let b = mirror.inner(line, model.leaf() - x, Side::Right);
                let near = |a: f64, b: f64, scale: f64| (a - b).abs() <= 1e-9 * scale;
                assert!(near(a.axial, b.axial, rig.weight()), "{name} N {a:?} {b:?}");
                assert!(
                    near(a.shear, -b.shear, rig.weight()),
                    "{name} V {a:?} {b:?}"
                );
                assert!(
                    near(a.moment, b.moment, rig.weight() * model.leaf()),
                    "{name} M {a:?} {b:?}"
                );
                let (a, b) = (pose.rise(line, x), mirror.rise(line, model.leaf() - x));
                assert!(near(a, b, 1.0), "{name} rise {a} {b}");
            }
        }
    }
}

fn any_gate() -> impl Strategy<Value = Model> {
    let size = (
        96.0..600.0_f64,
        36.0..120.0_f64,
        0.0..6.0_f64,
        0.0..400.0_f64,
    );
    let choice = (0..3_u8, any::<bool>(), any::<bool>(), 0.3..1.0_f64);
    (size, choice).prop_map(
        |((opening, height, landing, nose_load), (carrier, lean, pinned, s))| {
            let pipe = |od, wall| Section { od, wall };
            let base = gates::open(opening, height, pipe(2.375, 0.154), pipe(1.9, 0.145));
            Model {
                landing: if landing < 1.0 { 0.0 } else { landing },
                nose_load,
                carrier: [Carrier::Bottom, Carrier::Top, Carrier::Both][usize::from(carrier)],
                lean: if lean {
                    Lean::HeadToTail
                } else {
                    Lean::HeadToLatch
                },
                web_ends: if pinned {
                    WebEnds::Pinned
                } else {
                    WebEnds::Rigid
                },
                spacing: s * base.spacing,
                posts: [pipe(2.375, 0.154), pipe(2.875, 0.203)],
                ..base
            }
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]
    /// Cut the gate upright at mid-bay: what acts in the horizontals and the diagonal, the rollers'
    /// lifts and the weight to the left add up to nothing, three ways.
    #[test]
    fn every_cut_is_in_equilibrium(model in any_gate(), travel in 0.0..1.0_f64) {
        let rig = Rig::new(&model).expect("sound");
        let front = model.front_open + travel * (model.front_closed - model.front_open);
        let pose = rig.pose(front).expect("on the leaf");
        let lifts: f64 = pose.lifts().iter().map(|lift| lift.force).sum();
        prop_assert!((lifts - rig.weight()).abs() < 1e-6 * rig.weight());
        for lift in pose.lifts() {
            prop_assert!(pose.rise(lift.line, lift.x).abs() < 1e-8);
        }
        for bay in 1..=model.bays() {
            let (from, to) = (model.lines[bay - 1], model.lines[bay]);
            let x = (from + to) / 2.0;
            let [bottom, top] = Line::BOTH.map(|line| pose.inner(line, x, Side::Left));
            let slanted = pose.diagonal(bay, 0.5).expect("every bay");
            let run = to - from - 2.0 * model.landing;
            let rise = if model.lean == Lean::HeadToTail { model.height } else { -model.height };
            let length = run.hypot(rise);
            let (c, s) = (run / length, rise / length);
            let pulled = pull_left_of(&model, bay, x);
            let left = pose.lifts().iter().filter(|lift| lift.x < x);
            let (up, turn) = left.fold((0.0, 0.0), |(up, turn), lift| {
                (up + lift.force, turn + lift.force * (x - lift.x))
            });
            let across = bottom.axial + top.axial + slanted.axial * c + slanted.shear * s;
            let down = bottom.shear + top.shear + slanted.shear * c - slanted.axial * s;
            let moment = bottom.moment + top.moment + slanted.moment
                - (top.axial - bottom.axial) * model.height / 2.0;
            prop_assert!(across.abs() < 1e-6 * rig.weight(), "bay {bay} across {across}");
            prop_assert!((down - (up - pulled.0)).abs() < 1e-6 * rig.weight(), "bay {bay} {down}");
            let scale = rig.weight() * model.leaf();
            prop_assert!((moment - (turn - pulled.1)).abs() < 1e-7 * scale, "bay {bay} {moment}");
        }
    }
}

/// Weight to the left of a cut at mid-bay, and its moment about the cut.
fn pull_left_of(model: &Model, bay: usize, x: f64) -> (f64, f64) {
    let (mut pull, mut turn) = (model.nose_load, model.nose_load * x);
    let mut add = |weight: f64, at: f64| {
        pull += weight;
        turn += weight * (x - at);
    };
    add(2.0 * model.horizontal_load() * x, x / 2.0);
    for (i, line) in model.lines.iter().enumerate().take(bay) {
        let section = if i == 0 {
            model.posts[0]
        } else {
            model.vertical
        };
        add(model.web_load(section) * model.height, *line);
    }
    for i in 0..bay {
        let (from, to) = (
            model.lines[i] + model.landing,
            model.lines[i + 1] - model.landing,
        );
        let whole = model.web_load(model.diagonal) * (to - from).hypot(model.height);
        if i + 1 < bay {
            add(whole, (from + to) / 2.0);
        } else {
            add(whole / 2.0, (3.0 * from + to) / 4.0);
        }
    }
    (pull, turn)
}
