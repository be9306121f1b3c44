//! Whole gates against reference values computed by independent programs, two ways each
//! (tests/reference/cope/README.md): every part and every end by both ways of cutting, marks,
//! squareness and weights. Tolerance 1e-5 in; 1e-4 where r = R.
//!
//! Some reference bays exceed our limits, so frames come from `lay_out`, which draws bay lines
//! without judging them: the same code `build` calls after judging.

use crate::tiny;
use longpoint::gate::{Frame, bay_lines_of_equal_bays, lay_out};
use longpoint::measure::{Dimension, INCH, Length, MM, Units};
use longpoint::order::{CutMethod, GatePipes, Pipe, PipeId, Week};
use longpoint::part::{CopeEnd, Part, parts_of};
use serde_json::Value;

const TOLERANCE: f64 = 1e-5;
const TOUCHING: f64 = 1e-4;

fn num(v: &Value, key: &str) -> f64 {
    v[key]
        .as_f64()
        .unwrap_or_else(|| panic!("{key} is a number"))
}

/// A reference gate as a one-gate week, in the unit its inputs were given in.
struct Case {
    week: Week,
    inputs: Value,
    bays: u32,
    unit: f64,
}

impl Case {
    fn of(gate: &Value, cut: CutMethod) -> Case {
        let metric = gate.get("inputs_mm").is_some();
        let inputs = gate[if metric { "inputs_mm" } else { "inputs" }].clone();
        let unit = if metric { MM } else { INCH };
        let pipe = |od: &str, wall: &str| {
            let size = |key: &str| {
                let value = tiny::dec(&inputs[key].to_string());
                if metric {
                    Dimension::mm(value)
                } else {
                    Dimension::inch(value)
                }
            };
            Pipe {
                od: size(od),
                wall: size(wall),
                ..tiny::pipe(od, "1", "0.1")
            }
        };
        let length = |x: f64| Length::nearest_tick(x * unit);
        let half = num(&inputs, "Dh") / 2.0;
        let mut order = tiny::gate("R");
        order.leaf = num(&inputs, "overall") * unit;
        order.height = length(num(&inputs, "height") + 2.0 * half);
        order.pipes = GatePipes {
            horizontal: PipeId(0),
            latch_post: PipeId(1),
            tail_post: PipeId(1),
            vertical: PipeId(2),
            diagonal: PipeId(3),
            sway: PipeId(2),
        };
        let mut week = tiny::week(vec![order]);
        week.pipes = vec![
            pipe("Dh", "th"),
            pipe("De", "te"),
            pipe("Dv", "tv"),
            pipe("Dd", "td"),
        ];
        let std = &mut week.shop.gate;
        std.stop_rise = length(num(&inputs, "ext_top") - half);
        std.post_drop = length(num(&inputs, "ext_bot") - half);
        (std.horizontal_cut, std.vertical_cut, std.diagonal_cut) = (cut, cut, cut);
        let bays = gate["inputs"]["bays"].as_u64().expect("bays");
        Case {
            week,
            inputs,
            bays: u32::try_from(bays).expect("few bays"),
            unit,
        }
    }

    fn frame(&self) -> Frame {
        let order = &self.week.gates[0];
        lay_out(
            &self.week,
            0,
            order,
            bay_lines_of_equal_bays(&self.week, order, self.bays),
        )
    }

    /// Inches from ticks.
    fn close(&self, what: &str, ticks: f64, want: f64, tolerance: f64) {
        let got = ticks / INCH;
        assert!((got - want).abs() <= tolerance, "{what}: {got} for {want}");
    }
}

fn gates() -> Vec<Value> {
    let path = format!(
        "{}/tests/reference/cope/gates_reference.json",
        env!("CARGO_MANIFEST_DIR")
    );
    let file: Value =
        serde_json::from_str(&std::fs::read_to_string(path).expect("file")).expect("JSON");
    let gates = file["gates"].as_array().expect("list").clone();
    assert_eq!(gates.len(), 8);
    gates
}

/// Our marks of a reference part.
fn marks(name: &str) -> &'static [&'static str] {
    match name {
        "horizontal" => &["R-HT", "R-HB"],
        "end_post" => &["R-P"],
        "vertical" => &["R-V"],
        "diagonal_first" | "diagonal_last" => &["R-D1"],
        "diagonal_typical" => &["R-D"],
        other => panic!("unknown part {other}"),
    }
}

fn end_of(part: &Part, end: usize) -> (f64, f64, f64, f64, f64) {
    match &part.ends[end] {
        CopeEnd::Square { .. } => (0.0, 0.0, 0.0, 0.0, 0.0),
        CopeEnd::Coped(c) => (
            c.cut.s_long,
            c.cut.theta_long.to_degrees(),
            c.cut.s_short,
            c.cut.theta_short.to_degrees(),
            c.cut.cutback,
        ),
    }
}

/// Square ends are not listed. A last diagonal is our D1 turned end for end: ends swapped, clock by half a turn.
fn check_ends(case: &Case, id: &str, part: &Part, name: &str, want: &Value, tolerance: f64) {
    let turned = name == "diagonal_last";
    for (i, end) in want["ends"].as_array().into_iter().flatten().enumerate() {
        let (long, long_at, short, short_at, cutback) =
            end_of(part, if turned { 1 - i } else { i });
        let id = format!("{id} end {i}");
        case.close(&id, long, num(end, "s_long"), tolerance);
        case.close(&id, short, num(end, "s_short"), tolerance);
        case.close(&id, cutback, num(end, "depth"), 2.0 * tolerance);
        if name.starts_with("diagonal") {
            let clock = |at: f64| if turned { 180.0 - at } else { at };
            for (got, want) in [
                (clock(long_at), num(end, "theta_long_deg")),
                (clock(short_at), num(end, "theta_short_deg")),
            ] {
                assert!((got - want).abs() < 0.01, "{id}: clock {got} for {want}");
            }
        }
    }
}

fn check_parts(gate: &Value, cut: CutMethod, key: &str, blank: &str) {
    let case = Case::of(gate, cut);
    let parts = parts_of(&case.week, &case.frame()).expect("every reference gate has its parts");
    let equal = num(&case.inputs, "Dh") == num(&case.inputs, "De");
    let mut weight = 0.0;
    for want in gate["parts"].as_array().expect("parts") {
        let name = want["name"].as_str().expect("name");
        let count = want["count"].as_u64().expect("count");
        for mark in marks(name) {
            let id = format!("{} {mark} {key}", gate["id"]);
            let part = parts
                .iter()
                .find(|p| p.mark == *mark)
                .unwrap_or_else(|| panic!("{id}"));
            let tolerance = if equal && name == "horizontal" {
                TOUCHING
            } else {
                TOLERANCE
            };
            case.close(&id, part.axis, num(want, "axis_length"), TOLERANCE);
            case.close(&id, part.long_exact, num(&want[key], "long"), tolerance);
            case.close(&id, part.throat_exact, num(&want[key], "short"), tolerance);
            check_ends(&case, &id, part, name, &want[key], tolerance);
            let pipe = case.week.pipe(part.pipe);
            let each = pipe.weight_per_unit(Units::Inch) * part.long_exact / INCH / 12.0;
            let theirs = num(&want["weight_each"], blank);
            assert!((each - theirs).abs() < 1e-4, "{id}: {each} lb for {theirs}");
        }
        let per_mark = if name == "horizontal" { 1 } else { count };
        let ours = parts
            .iter()
            .find(|p| p.mark == marks(name)[0])
            .map_or(0, |p| p.per_gate);
        let both_ends = if name == "diagonal_first" || name == "diagonal_last" {
            2
        } else {
            per_mark
        };
        assert_eq!(u64::from(ours), both_ends, "{} {name}", gate["id"]);
        weight += num(&want["weight_each"], blank) * count as f64;
    }
    let total = num(&gate["weight_lb"], blank);
    assert!((weight - total).abs() < 1e-3, "the reference adds up");
    let ours: f64 = parts
        .iter()
        .map(|p| {
            let pipe = case.week.pipe(p.pipe);
            f64::from(p.per_gate) * pipe.weight_per_unit(Units::Inch) * p.long_exact / INCH / 12.0
        })
        .sum();
    assert!(
        (ours - total).abs() < 1e-3,
        "{}: {ours} lb for {total}",
        gate["id"]
    );
}

#[test]
fn true_saddles_of_every_gate_agree() {
    for gate in gates() {
        check_parts(&gate, CutMethod::TrueSaddle, "od_profile", "blank_od");
    }
}

#[test]
fn radial_cuts_of_every_gate_agree() {
    for gate in gates() {
        check_parts(&gate, CutMethod::Radial, "seat_radial", "blank_seat");
    }
}

#[test]
fn marks_along_the_horizontals_agree() {
    for (cut, from_long) in [
        (CutMethod::TrueSaddle, "from_long_point_od"),
        (CutMethod::Radial, "from_long_point_seat"),
    ] {
        for gate in gates() {
            let case = Case::of(&gate, cut);
            let frame = case.frame();
            let parts = parts_of(&case.week, &frame).expect("parts");
            let (s_long, _, s_short, _, _) = end_of(&parts[0], 0);
            let post_axis = frame.bay_lines[0];
            for (list, zero) in [
                ("vertical_axis_from_post_axis", post_axis),
                (from_long, post_axis + s_long),
                ("from_throat", post_axis + s_short),
                ("from_outside_face_of_post", 0.0),
            ] {
                let want = gate["marks"][list].as_array().expect("marks");
                assert_eq!(want.len() + 2, frame.bay_lines.len());
                for (line, want) in frame.bay_lines[1..].iter().zip(want) {
                    let id = format!("{} {list}", gate["id"]);
                    case.close(&id, line - zero, want.as_f64().expect("mark"), TOUCHING);
                }
            }
        }
    }
}

#[test]
fn squareness_agrees() {
    for gate in gates() {
        let case = Case::of(&gate, CutMethod::TrueSaddle);
        let frame = case.frame();
        let want = &gate["squareness"];
        let id = gate["id"].to_string();
        case.close(
            &id,
            frame.check_measure,
            num(want, "outside_corners_of_posts"),
            TOLERANCE,
        );
        let axes =
            (frame.bay_lines[case.bays as usize] - frame.bay_lines[0]).hypot(frame.axis_height);
        case.close(&id, axes, num(want, "axis_nodes"), TOLERANCE);
        let bay = &frame.bays[0];
        case.close(
            &id,
            bay.to - bay.from,
            num(&gate["derived"], "pitch"),
            TOLERANCE,
        );
        let angle = num(&gate["derived"], "diagonal_angle_from_horizontal_deg");
        assert!((bay.alpha.to_degrees() - angle).abs() < 1e-6);
        case.close(
            &id,
            bay.diagonal_axis,
            num(&gate["derived"], "diagonal_axis_length"),
            TOLERANCE,
        );
        assert!(case.unit > 0.0);
    }
}

#[test]
fn top_and_under_line_lie_between_the_longest_and_shortest_surface_line() {
    for gate in gates() {
        let case = Case::of(&gate, CutMethod::TrueSaddle);
        let parts = parts_of(&case.week, &case.frame()).expect("parts");
        for want in gate["parts"].as_array().expect("parts") {
            let name = want["name"].as_str().expect("name");
            if !name.starts_with("diagonal") {
                continue;
            }
            let part = parts
                .iter()
                .find(|p| p.mark == marks(name)[0])
                .expect("diagonal");
            let (least, most) = (
                num(&want["od_profile"], "gen_min"),
                num(&want["od_profile"], "gen_max"),
            );
            for line in [part.top_line, part.under_line] {
                let line = line.expect("diagonals have both lines") / INCH;
                assert!(
                    line > least - 1e-5 && line < most + 1e-5,
                    "{least} ≤ {line} ≤ {most}"
                );
            }
        }
    }
}
