//! Facts of the trade about a gate's shape. Common practice, no source, unless another is named.

use crate::tiny;
use longpoint::gate::{Frame, Role, build};
use longpoint::measure::{INCH, Length};
use longpoint::order::{GateOrder, PipeId, Week};
use longpoint::part::take_off;

/// A gate of the default tail rule: half the opening, 4 ft at least, 12 in of overlap. The order
/// room settles leaf and tail; here they are written out.
fn gate_of(opening_ft: i64, leaf_ft: i64, height_ft: i64) -> GateOrder {
    let mut gate = tiny::gate("A1");
    gate.opening = tiny::feet(opening_ft, 0.0);
    gate.leaf = tiny::feet(leaf_ft, 0.0).geometric();
    gate.tail = gate.leaf - gate.opening.geometric() - 12.0 * INCH;
    gate.height = tiny::feet(height_ft, 0.0);
    gate
}

fn built(week: &Week) -> Frame {
    build(week, 0).unwrap_or_else(|why| panic!("{why:?}"))
}

/// Leaf in feet of one gate read through the order room with the starter shop.
fn leaf_as_read(opening: &str, overlap: &str) -> f64 {
    use longpoint::order::{WeekFiles, print_faults, read_week, starter_week};
    use longpoint::text::SourceFile;
    let orders =
        format!("mark,count,opening,height,hand,overlap\nA1,1,{opening},6',left,{overlap}\n");
    let mut files = WeekFiles {
        orders: Some(SourceFile {
            name: "orders.csv".into(),
            bytes: orders.into_bytes(),
        }),
        ..WeekFiles::default()
    };
    for (name, text) in starter_week() {
        let file = Some(SourceFile {
            name: name.to_string(),
            bytes: text.into_bytes(),
        });
        match name {
            "shop.toml" => files.shop = file,
            "stock.csv" => files.stock = file,
            _ => {}
        }
    }
    let week = read_week(&files).unwrap_or_else(|f| panic!("{}", print_faults(&f)));
    week.gates[0].leaf / INCH / 12.0
}

#[test]
fn a_30_ft_opening_takes_a_46_ft_leaf() {
    assert!((leaf_as_read("30'", "") - 46.0).abs() < 1e-9);
}

/// Leaf = 1.5 × opening: published leaf lengths 20/22/24 → 30/33/36 ft (trade guides), stated
/// without overlap.
#[test]
fn leaves_of_20_22_24_ft_openings() {
    for (opening, leaf) in [("20'", 30.0), ("22'", 33.0), ("24'", 36.0)] {
        assert!(
            (leaf_as_read(opening, "0 in") - leaf).abs() < 1e-9,
            "{opening}"
        );
    }
}

/// Bays under 5 ft: ASTM F654 for residential gates; common practice for cantilever gates.
/// Diagonals within 45° of the vertical: common practice, no source.
#[test]
fn bays_under_5_ft_and_diagonals_within_45_degrees() {
    for opening in 8..=40 {
        for height in 3..=10 {
            let leaf = opening + 1 + (opening / 2).max(4);
            let week = tiny::week(vec![gate_of(opening, leaf, height)]);
            let frame = built(&week);
            for bay in &frame.bays {
                assert!(bay.to - bay.from < 60.0 * INCH);
                assert!(bay.alpha.to_degrees() > 45.0);
            }
            let wider = (frame.bay_lines[frame.bays.len()] - frame.bay_lines[0])
                / (frame.bays.len() as f64 - 1.0);
            let limit = frame.axis_height.min(60.0 * INCH);
            assert!(wider >= limit - 1e-6 * INCH, "one bay fewer would do");
        }
    }
}

#[test]
fn all_diagonals_lean_one_way() {
    let week = tiny::week(vec![gate_of(20, 31, 6)]);
    let frame = built(&week);
    let diagonals: Vec<_> = frame
        .members
        .iter()
        .filter(|m| m.role.is_diagonal())
        .collect();
    assert_eq!(diagonals.len(), frame.bays.len());
    for d in diagonals {
        let bay = frame.bays[d.place - 1];
        assert_eq!(
            (d.start.x, d.end.x),
            (bay.from, bay.to),
            "foot at the latch side"
        );
        assert!(d.start.y == 0.0 && d.end.y == frame.axis_height);
    }
}

#[test]
fn first_and_last_diagonal_differ_when_posts_differ_from_verticals() {
    let mut week = tiny::week(vec![gate_of(12, 19, 6)]);
    let marks = |week: &Week| -> Vec<String> {
        let (t, no) = take_off(week);
        assert!(no.is_empty(), "{no:?}");
        let diagonals = t
            .parts
            .iter()
            .filter(|p| p.role.is_some_and(Role::is_diagonal));
        diagonals
            .map(|p| format!("{} x{}", p.mark, p.count))
            .collect()
    };
    assert_eq!(marks(&week), ["A1-D1 x2", "A1-D x2"]);
    // Verticals as large as the posts: one diagonal.
    week.gates[0].pipes.vertical = tiny::HEAVY;
    assert_eq!(marks(&week), ["A1-D x4"]);
    // Another wall on the posts changes no cope.
    week.gates[0].pipes.vertical = tiny::LIGHT;
    week.pipes.push(tiny::pipe("2-3/8 SS80", "2.375", "0.218"));
    week.gates[0].pipes.tail_post = PipeId(2);
    assert_eq!(marks(&week), ["A1-D1 x2", "A1-D x2"]);
}

#[test]
fn posts_stop_rollers_4_in_above_and_half_an_inch_below() {
    let week = tiny::week(vec![gate_of(12, 19, 6)]);
    let frame = built(&week);
    assert_eq!(frame.rise, 4.0 * INCH);
    assert_eq!(frame.drop, 0.5 * INCH);
    let post = frame
        .members
        .iter()
        .find(|m| m.role == Role::EndPost)
        .expect("post");
    let half = 2.375 / 2.0 * INCH;
    assert!((post.start.y + half + 0.5 * INCH).abs() < 1e-6);
    assert!((post.end.y - frame.axis_height - half - 4.0 * INCH).abs() < 1e-6);
    assert_eq!(Length::nearest_tick(post.axis), tiny::inches(76.5));
}
