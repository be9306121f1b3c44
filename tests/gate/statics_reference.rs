//! The plane frame against tests/reference/frame_reference.json.
//!
//! Those figures come from an independent frame program, itself held against two public frame
//! libraries; rounded to 4 significant digits, inch, pound-force, psi, invented gates. The file
//! states the model, signs and supports. Tolerance asked: 0.1 %, or 0.5 % where few digits are left.

use std::collections::BTreeMap;

use crate::gates::{check, gate, reference};
use longpoint::order::{Carrier, Lean};
use longpoint::statics::{Inner, Line, Model, Rig, Section, Side, WebEnds, envelope, travel};

/// Compares every output of a check; each must be found, none may be left over.
fn compare(id: u64, tolerance: f64, found: &[(&str, f64)]) {
    let outputs = &check(id)["outputs"];
    let found: BTreeMap<&str, f64> = found.iter().copied().collect();
    let expected = outputs.as_object().expect("outputs");
    for (name, value) in expected {
        let value = value.as_f64().expect("a number");
        let ours = found
            .get(name.as_str())
            .unwrap_or_else(|| panic!("check {id}: {name}"));
        let off = (ours - value).abs() / value.abs();
        assert!(
            off <= tolerance,
            "check {id} {name}: {ours} against {value}, off by {off:.5}"
        );
    }
    assert_eq!(found.len(), expected.len(), "check {id}");
}

fn rig(model: &Model) -> Rig {
    Rig::new(model).expect("a sound gate")
}

#[test]
fn pipe_sections() {
    for (id, od, wall) in [(1, 2.375, 0.154), (2, 1.9, 0.12)] {
        let section = Section { od, wall };
        let weight = section.area() * longpoint::statics::STEEL_WEIGHT;
        compare(
            id,
            1e-3,
            &[
                ("A_in2", section.area()),
                ("I_in4", section.inertia()),
                ("S_in3", section.modulus()),
                ("w_lb_per_in", weight),
            ],
        );
    }
}

#[test]
fn geometry_weight_and_reactions() {
    let model = gate("G30x6");
    let bay = model.lines[1];
    let rig = rig(&model);
    let (closed, open) = (rig.lifts(366.0), rig.lifts(6.0));
    compare(
        3,
        1e-3,
        &[
            ("bays", model.bays() as f64),
            ("bay_in", bay),
            ("diag_len_in", bay.hypot(72.0)),
            ("diag_angle_deg", 72.0_f64.atan2(bay).to_degrees()),
            ("roller_spacing_in", model.spacing),
            ("q_chord_lb_per_in", model.horizontal_load()),
            ("q_web_lb_per_in", model.web_load(model.vertical)),
            ("W_lb", rig.weight()),
            ("x_cg_in", rig.centre()),
        ],
    );
    compare(
        4,
        1e-3,
        &[
            ("RA_closed_lb", closed[0].force),
            ("RB_closed_lb", closed[1].force),
            ("RA_open_lb", open[0].force),
            ("RB_open_lb", open[1].force),
        ],
    );
}

#[test]
fn closed_gate() {
    let rig = rig(&gate("G30x6"));
    let pose = rig.pose(366.0).expect("on the leaf");
    compare(
        5,
        1e-3,
        &[
            ("uy_bottom_nose_in", pose.rise(Line::Bottom, 0.0)),
            ("uy_top_nose_in", pose.rise(Line::Top, 0.0)),
        ],
    );
    let left = pose.inner(Line::Bottom, 366.0, Side::Left);
    let right = pose.inner(Line::Bottom, 366.0, Side::Right);
    compare(
        6,
        1e-3,
        &[
            ("N_lb", left.axial),
            ("M_lb_in", left.moment),
            ("V_left_lb", left.shear),
            ("V_right_lb", right.shear),
        ],
    );
    let x = rig.model().lines[6];
    let (left, right) = (
        pose.inner(Line::Top, x, Side::Left),
        pose.inner(Line::Top, x, Side::Right),
    );
    compare(
        7,
        1e-3,
        &[
            ("N_right_lb", right.axial),
            ("M_right_lb_in", right.moment),
            ("N_left_lb", left.axial),
            ("M_left_lb_in", left.moment),
            (
                "N_diagonal_bay6_lb",
                pose.diagonal(6, 0.5).expect("bay 6").axial,
            ),
            (
                "N_vertical6_bottom_lb",
                pose.upright(6, 0.0).expect("line 6").axial,
            ),
        ],
    );
}

#[test]
fn open_gate_and_mid_travel() {
    let rig = rig(&gate("G30x6"));
    let pose = rig.pose(6.0).expect("on the leaf");
    let at = pose.inner(Line::Bottom, 169.2, Side::Left);
    compare(
        8,
        1e-3,
        &[
            ("N_lb", at.axial),
            ("M_lb_in", at.moment),
            ("uy_tail_bottom_in", pose.rise(Line::Bottom, 552.0)),
        ],
    );
    let pose = rig.pose(240.0).expect("on the leaf");
    let at = |x| -> Inner { pose.inner(Line::Bottom, x, Side::Left) };
    compare(
        9,
        1e-3,
        &[
            ("N_at_240_lb", at(240.0).axial),
            ("M_at_240_lb_in", at(240.0).moment),
            ("N_at_403p2_lb", at(403.2).axial),
            ("M_at_403p2_lb_in", at(403.2).moment),
            ("uy_bottom_nose_in", pose.rise(Line::Bottom, 0.0)),
        ],
    );
}

#[test]
fn travel_envelope() {
    let model = gate("G30x6");
    let expected = check(10)["inputs"]["positions"].as_u64();
    assert_eq!(u64::try_from(travel(&model).len()).ok(), expected);
    let envelope = envelope(&model).expect("a sound gate");
    let at = |s| envelope.station(Line::Bottom, 4, s).expect("bay 4");
    compare(
        10,
        1e-3,
        &[
            ("s0_psi", at(0)),
            ("s10_psi", at(2)),
            ("s15_psi", at(3)),
            ("s25_psi", at(5)),
            ("s50_psi", at(10)),
            ("s90_psi", at(18)),
            ("s100_psi", at(20)),
        ],
    );
}

#[test]
fn pinned_web_and_hung_gate() {
    let pinned = Model {
        web_ends: WebEnds::Pinned,
        ..gate("G30x6")
    };
    let rig_pinned = rig(&pinned);
    let pose = rig_pinned.pose(366.0).expect("on the leaf");
    compare(
        12,
        1e-3,
        &[
            ("uy_bottom_nose_in", pose.rise(Line::Bottom, 0.0)),
            (
                "M_bottom_roller_lb_in",
                pose.inner(Line::Bottom, 366.0, Side::Left).moment,
            ),
        ],
    );
    let hung = Model {
        carrier: Carrier::Top,
        lean: Lean::HeadToLatch,
        ..gate("G30x6")
    };
    let rig_hung = rig(&hung);
    let pose = rig_hung.pose(366.0).expect("on the leaf");
    let at = pose.inner(Line::Top, 366.0, Side::Left);
    compare(
        13,
        1e-3,
        &[
            ("uy_bottom_nose_in", pose.rise(Line::Bottom, 0.0)),
            ("N_top_roller_lb", at.axial),
            ("M_top_roller_lb_in", at.moment),
        ],
    );
}

#[test]
fn whole_gate_summaries() {
    for (id, name) in [(16, "G12x4"), (17, "G16x6")] {
        let model = gate(name);
        let envelope = envelope(&model).expect("a sound gate");
        let worst = envelope.worst(Line::Bottom);
        compare(
            id,
            1e-3,
            &[
                ("bays", model.bays() as f64),
                ("bay_in", model.lines[1]),
                ("W_lb", envelope.weight),
                ("RA_closed_lb", envelope.closed[0].force),
                ("RB_closed_lb", envelope.closed[1].force),
                ("uy_bottom_nose_in", envelope.nose_closed),
                ("max_bottom_psi", worst.stress),
                ("bay_of_max", worst.bay as f64),
                ("station_of_max", worst.fraction),
                ("max_top_psi", envelope.worst(Line::Top).stress),
            ],
        );
    }
}

#[test]
fn every_check_of_the_file_is_tested() {
    let checks = reference()["checks"]
        .as_array()
        .cloned()
        .unwrap_or_default();
    let ids: Vec<u64> = checks
        .iter()
        .filter_map(|check| check["id"].as_u64())
        .collect();
    assert_eq!(ids, [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 13, 16, 17]);
}
