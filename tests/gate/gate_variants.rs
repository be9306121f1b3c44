//! Everything a gate may be besides the default: *through*, kit, barbed, risers, sway brace, moved
//! landings, other posts, other lean, given bays, the other hand, metric.

use crate::tiny;
use longpoint::gate::{Role, build};
use longpoint::measure::{INCH, Length, MM, Units};
use longpoint::order::{Bays, CutMethod, Hand, Lean, PipeId, Variant, Week};
use longpoint::part::{CopeEnd, Part, TakeOff, gate_weight, take_off};

fn worked() -> Week {
    tiny::week(vec![tiny::gate("A1")])
}

fn taken(week: &Week) -> TakeOff {
    let (t, no) = take_off(week);
    assert!(no.is_empty(), "{no:?}");
    t
}

fn part<'a>(t: &'a TakeOff, mark: &str) -> &'a Part {
    t.parts
        .iter()
        .find(|p| p.mark == mark)
        .unwrap_or_else(|| panic!("no {mark}"))
}

fn list(t: &TakeOff) -> Vec<String> {
    t.parts
        .iter()
        .map(|p| format!("{} x{}", p.mark, p.count))
        .collect()
}

fn close(ticks: f64, inches: f64) {
    let got = ticks / INCH;
    assert!((got - inches).abs() < 1e-6, "{got} for {inches}");
}

#[test]
fn through_runs_horizontals_the_whole_leaf() {
    let mut week = worked();
    week.shop.gate.variant = Variant::Through;
    let t = taken(&week);
    assert_eq!(
        list(&t),
        [
            "A1-HT x1", "A1-HB x1", "A1-P x2", "A1-V x3", "A1-D1 x2", "A1-D x2", "A1-S x2"
        ]
    );
    let top = part(&t, "A1-HT");
    close(top.long_exact, 228.0);
    close(top.throat_exact, 228.0);
    assert_eq!(
        top.ends,
        [
            CopeEnd::Square { capped: true },
            CopeEnd::Square { capped: true }
        ]
    );
    // Posts stand between the horizontals as verticals do: equal ODs, so long point = axis.
    close(part(&t, "A1-P").long_exact, 69.625);
    close(part(&t, "A1-P").throat_exact, 67.25);
    // The stop: saddled at the foot, square on top, axis Dh/2 + rise; r = R at the foot.
    let stop = part(&t, "A1-S");
    close(stop.axis, 1.1875 + 4.0);
    close(stop.long_exact, 5.1875);
    close(stop.throat_exact, 4.0);
    assert!(matches!(stop.ends[0], CopeEnd::Coped(_)));
    assert_eq!(stop.ends[1], CopeEnd::Square { capped: true });
    let frame = &t.frames[0];
    close(frame.drop, 0.0);
    close(frame.check_measure, 228.0_f64.hypot(72.0));
    close(frame.bay_lines[0], 1.1875);
}

#[test]
fn a_feather_edge_prints_full_and_blunted() {
    let week = worked();
    let t = taken(&week);
    let CopeEnd::Coped(cope) = &part(&t, "A1-HB").ends[0] else {
        panic!("a coped end");
    };
    assert!(cope.cut.feather);
    let edge = (1.1875_f64.powi(2) - 1.0335_f64.powi(2)).sqrt();
    close(
        cope.blunted.expect("a feather has a blunted value"),
        225.625 - 2.0 * edge,
    );
    let CopeEnd::Coped(cope) = &part(&t, "A1-V").ends[0] else {
        panic!("a coped end");
    };
    assert!(!cope.cut.feather && cope.blunted.is_none());
}

#[test]
fn the_other_hand_changes_no_part() {
    let mut week = worked();
    let left = taken(&week);
    week.gates[0].hand = Hand::Right;
    let right = taken(&week);
    assert_eq!(left.parts, right.parts);
    assert_eq!(left.frames, right.frames);
}

#[test]
fn the_other_lean_is_the_mirror_image() {
    let mut week = worked();
    let one = taken(&week);
    week.shop.gate.lean = Lean::HeadToLatch;
    let other = taken(&week);
    assert_eq!(list(&one), list(&other));
    for (a, b) in one.parts.iter().zip(&other.parts) {
        assert_eq!((a.saw, a.throat), (b.saw, b.throat));
        assert!((a.long_exact - b.long_exact).abs() < 1e-6);
    }
    // In the first bay the head now meets the post: under and top line swap.
    let (a, b) = (part(&one, "A1-D1"), part(&other, "A1-D1"));
    assert!((a.top_line.expect("D") - b.under_line.expect("D")).abs() < 1e-6);
    assert!((a.under_line.expect("D") - b.top_line.expect("D")).abs() < 1e-6);
    let d = other.frames[0]
        .members
        .iter()
        .find(|m| m.role == Role::Diagonal)
        .expect("D");
    assert!(d.start.x > d.end.x && d.start.y < d.end.y);
}

#[test]
fn radial_cuts_keep_the_throat_and_lose_the_tip() {
    let mut week = worked();
    let saddle = taken(&week);
    let std = &mut week.shop.gate;
    (std.horizontal_cut, std.vertical_cut, std.diagonal_cut) =
        (CutMethod::Radial, CutMethod::Radial, CutMethod::Radial);
    let radial = taken(&week);
    assert_eq!(list(&saddle), list(&radial));
    for (a, b) in saddle.parts.iter().zip(&radial.parts) {
        assert!((a.throat_exact - b.throat_exact).abs() < 1e-6, "{}", a.mark);
        let square = a.role == Some(Role::EndPost);
        assert_eq!(
            a.long_exact > b.long_exact + 0.1 * INCH,
            !square,
            "{}",
            a.mark
        );
        assert!(
            b.ends
                .iter()
                .all(|e| !matches!(e, CopeEnd::Coped(c) if c.cut.feather))
        );
    }
}

#[test]
fn barbed_rise_replaces_the_stop() {
    let mut week = worked();
    for (strands, rise) in [(0, 4.0), (1, 4.0), (3, 12.0), (4, 16.0)] {
        week.gates[0].barbed = strands;
        let t = taken(&week);
        close(part(&t, "A1-P").long_exact, 72.0 + rise + 0.5);
        close(t.frames[0].rise, rise);
    }
    week.gates[0].barbed = 3;
    week.shop.gate.barbed_risers = true;
    week.shop.gate.roller_on_top = false;
    let t = taken(&week);
    let riser = part(&t, "A1-R");
    assert_eq!(riser.count, 3);
    close(riser.axis, 1.1875 + 12.0);
    close(riser.long_exact, 1.1875 + 12.0 - 0.7125);
    close(riser.throat_exact, 12.0);
}

#[test]
fn a_sway_brace_is_an_arc_with_standoffs_at_the_bay_lines() {
    let mut week = worked();
    week.gates[0].sway = true;
    let t = taken(&week);
    let (c, f) = (225.625_f64, 12.0);
    let rho = (c * c + 4.0 * f * f) / (8.0 * f);
    let brace = part(&t, "A1-B");
    close(brace.long_exact, 2.0 * rho * (c / (2.0 * rho)).asin() + 4.0);
    assert_eq!(brace.long_exact, brace.throat_exact);
    // Mid-leaf: the whole rise less half of both ODs; the outer two are alike.
    close(part(&t, "A1-BS2").long_exact, 12.0 - 1.9);
    assert_eq!(part(&t, "A1-BS1").count, 2);
    let x: f64 = c / 4.0;
    close(
        part(&t, "A1-BS1").long_exact,
        (rho * rho - x * x).sqrt() - (rho - f) - 1.9,
    );
}

#[test]
fn moved_landings_clear_of_both_uprights_give_one_diagonal() {
    let mut week = worked();
    week.shop.gate.landing_offset = tiny::inches(4.0);
    let t = taken(&week);
    assert_eq!(
        list(&t),
        ["A1-HT x1", "A1-HB x1", "A1-P x2", "A1-V x3", "A1-D x4"]
    );
    let d = part(&t, "A1-D");
    close(d.axis, 69.625_f64.hypot(56.40625 - 8.0));
    let frame = &t.frames[0];
    let m = frame
        .members
        .iter()
        .find(|m| m.role == Role::Diagonal)
        .expect("D");
    close(m.start.x, 1.1875 + 4.0);
    // A small offset still touches the uprights: the post's corner differs.
    week.shop.gate.landing_offset = tiny::inches(0.5);
    assert_eq!(list(&taken(&week))[4..], ["A1-D1 x2", "A1-D x2"]);
}

#[test]
fn another_tail_post_gives_two_posts_and_three_diagonals() {
    let mut week = worked();
    week.pipes.push(tiny::pipe("2-7/8 SS40", "2.875", "0.203"));
    week.gates[0].pipes.tail_post = PipeId(2);
    let t = taken(&week);
    assert_eq!(
        list(&t),
        [
            "A1-HT x1", "A1-HB x1", "A1-P1 x1", "A1-P2 x1", "A1-V x3", "A1-D1 x1", "A1-D x2",
            "A1-D2 x1"
        ]
    );
    assert!(!part(&t, "A1-D1").swaps_in_last_bay);
    assert_eq!(part(&t, "A1-P2").pipe, PipeId(2));
    assert!(part(&t, "A1-D2").throat_exact < part(&t, "A1-D1").throat_exact);
    // A tail post as slender as the verticals is not allowed here, but with light horizontals it is:
    // then the last diagonal is a typical one.
    week.gates[0].pipes.horizontal = tiny::LIGHT;
    week.gates[0].pipes.tail_post = tiny::LIGHT;
    assert_eq!(list(&taken(&week))[5..], ["A1-D1 x1", "A1-D x3"]);
}

#[test]
fn one_bay_has_d_and_two_bays_have_d1_twice() {
    let mut week = worked();
    week.gates[0].leaf = tiny::inches(60.0).geometric();
    let t = taken(&week);
    assert_eq!(list(&t), ["A1-HT x1", "A1-HB x1", "A1-P x2", "A1-D x1"]);
    week.gates[0].leaf = tiny::inches(110.0).geometric();
    assert_eq!(list(&taken(&week))[3..], ["A1-V x1", "A1-D1 x2"]);
}

#[test]
fn given_bays_are_laid_as_given() {
    let mut week = worked();
    week.gates[0].bays = Bays::Count(5);
    assert_eq!(taken(&week).frames[0].bays.len(), 5);
    // Unequal bays: a diagonal's number is its bay, equal ones share the first one's.
    let lines = [50.0, 100.0, 150.0, 190.0];
    week.gates[0].bays = Bays::Lines(lines.iter().map(|x| tiny::inches(*x)).collect());
    let t = taken(&week);
    assert_eq!(
        list(&t)[4..],
        ["A1-D1 x1", "A1-D2 x2", "A1-D4 x1", "A1-D5 x1"]
    );
    for (line, want) in t.frames[0].bay_lines[1..5].iter().zip(lines) {
        close(*line, want);
    }
    // Lines that happen to be equal bays are equal bays.
    let equal = [57.59375, 114.0, 170.40625].map(tiny::inches);
    week.gates[0].bays = Bays::Lines(equal.to_vec());
    assert_eq!(list(&taken(&week))[4..], ["A1-D1 x2", "A1-D x2"]);
}

#[test]
fn a_fixed_bay_line_parts_the_leaf_and_the_rest_is_even() {
    let mut week = worked();
    // Ends at 1.1875 and 226.8125; the limit is 60: two bays of 49.40625 before 100, three of 42.27 behind it.
    week.gates[0].bays = Bays::Fixed(vec![tiny::inches(100.0)]);
    let t = taken(&week);
    let third = (226.8125 - 100.0) / 3.0;
    let want = [
        1.1875,
        50.59375,
        100.0,
        100.0 + third,
        100.0 + 2.0 * third,
        226.8125,
    ];
    assert_eq!(t.frames[0].bay_lines.len(), want.len());
    for (line, want) in t.frames[0].bay_lines.iter().zip(want) {
        close(*line, want);
    }
    // A line that the even bays have anyway changes nothing.
    week.gates[0].bays = Bays::Fixed(vec![tiny::inches(114.0)]);
    let fixed = list(&taken(&week));
    week.gates[0].bays = Bays::Least;
    assert_eq!(fixed, list(&taken(&week)));
}

#[test]
fn a_kit_leaves_the_horizontals_to_the_customer() {
    let mut week = worked();
    let ours = gate_weight(&week, &taken(&week), 0).expect("built");
    week.gates[0].kit = true;
    week.gates[0].count = 2;
    let t = taken(&week);
    for p in &t.parts {
        let horizontal = matches!(p.role, Some(Role::TopHorizontal | Role::BottomHorizontal));
        assert_eq!(p.ours, !horizontal, "{}", p.mark);
        assert_eq!(p.count, 2 * p.per_gate);
    }
    assert_eq!(
        gate_weight(&week, &t, 0),
        Some(ours),
        "inside the gate's weight"
    );
}

#[test]
fn weight_adds_what_the_shop_gives() {
    let mut week = worked();
    week.shop.fabric.weight_per_area = Some(tiny::dec("0.5"));
    week.shop.fabric.hardware = Some(tiny::dec("30"));
    week.shop.fabric.zinc_percent = Some(tiny::dec("4"));
    let w = gate_weight(&week, &taken(&week), 0).expect("built");
    assert!((w.fabric.expect("given") - 0.5 * 19.0 * 6.0).abs() < 1e-9);
    assert!((w.zinc.expect("given") - 0.04 * w.pipe).abs() < 1e-9);
    assert!((w.total - (w.pipe * 1.04 + 57.0 + 30.0)).abs() < 1e-9);
    assert!(gate_weight(&week, &taken(&week), 7).is_none());
}

#[test]
fn a_metric_gate_is_whole_millimetres_on_the_saw() {
    let mut week = worked();
    week.shop.units = Units::Metric;
    week.shop.saw.mark = Length::MM;
    week.pipes = vec![
        tiny::pipe_mm("48.3", "48.3", "3.2"),
        tiny::pipe_mm("60.3", "60.3", "3.6"),
    ];
    week.gates[0].leaf = 6000.0 * MM;
    week.gates[0].height = Length::from_mm(1800);
    week.shop.gate.bay_limit = Length::from_mm(1524);
    let t = taken(&week);
    assert_eq!(t.frames[0].bays.len(), 4);
    let v = part(&t, "A1-V");
    // Axis 1739.7; least setback √(30.15² − 24.15²) = 18.05 mm at each end.
    let least = (30.15_f64.powi(2) - 24.15_f64.powi(2)).sqrt();
    assert!((v.long_exact / MM - (1739.7 - 2.0 * least)).abs() < 1e-6);
    assert_eq!(v.saw, Length::from_mm(1704));
    let kg = 0.02466 * (48.3 - 3.2) * 3.2 * 1.704;
    assert!((v.weight - kg).abs() < 1e-9);
}

#[test]
fn a_count_of_0_is_kept_and_extras_come_last() {
    let mut week = worked();
    week.gates.push(tiny::gate("A2"));
    week.gates[0].count = 0;
    week.extras.push(longpoint::order::ExtraPart {
        mark: "LP".into(),
        pipe: tiny::HEAVY,
        length: tiny::inches(100.03),
        count: 4,
        paperwork: Default::default(),
        note: String::new(),
        origin: week.gates[0].origin.clone(),
    });
    let t = taken(&week);
    assert_eq!(t.frames.len(), 2);
    assert!(
        t.parts
            .iter()
            .filter(|p| p.gate == Some(0))
            .all(|p| p.count == 0 && p.per_gate > 0)
    );
    let last = t.parts.last().expect("extra");
    assert_eq!(
        (last.mark.as_str(), last.count, last.extra),
        ("LP", 4, Some(0))
    );
    assert_eq!(last.saw.print(Units::Inch), "8'-4\"");
    assert!(build(&week, 9).is_err());
}
