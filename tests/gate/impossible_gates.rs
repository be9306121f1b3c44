//! Gates that cannot be made: named, with the reason and a change that does free them.

use crate::tiny;
use longpoint::gate::standoff_notices;
use longpoint::measure::{INCH, Length, Units, parse_length};
use longpoint::order::{Bays, Impossible, PipeId, Variant, Week};
use longpoint::part::take_off;

fn worked() -> Week {
    let mut week = tiny::week(vec![tiny::gate("A1"), tiny::gate("B2")]);
    week.pipes.push(tiny::pipe("2-7/8 SS40", "2.875", "0.203"));
    week
}

const LARGE: PipeId = PipeId(2);

/// What is impossible of A1; B2 still comes through.
fn refused(week: &Week) -> Vec<Impossible> {
    let (t, no) = take_off(week);
    assert_eq!(
        t.frames.len(),
        1,
        "the rest of the week is taken off: {no:?}"
    );
    assert!(t.parts.iter().all(|p| p.mark.starts_with("B2-")));
    assert!(!no.is_empty());
    for i in &no {
        assert_eq!((i.gate, i.mark.as_str()), (Some(0), "A1"));
        assert!(!i.reason.is_empty() && !i.change.is_empty(), "{i:?}");
    }
    no
}

fn accepted(week: &Week) {
    let (t, no) = take_off(week);
    assert!(no.is_empty(), "{no:?}");
    assert_eq!(t.frames.len(), 2);
}

#[test]
fn forced_bay_counts_name_the_least_that_works() {
    let mut week = worked();
    for count in [0, 1, 3] {
        week.gates[0].bays = Bays::Count(count);
        let no = refused(&week);
        assert!(no[0].change.contains("4 equal bays"), "{:?}", no[0]);
    }
    week.gates[0].bays = Bays::Count(4);
    accepted(&week);
    // Absurd counts: a bay of a few inches leaves no diagonal; the least that works is still 4.
    week.gates[0].bays = Bays::Count(80);
    assert!(refused(&week)[0].change.contains("4 equal bays"));
    week.gates[0].bays = Bays::Count(u32::MAX);
    assert!(refused(&week)[0].change.contains("4 equal bays"));
}

/// `23` for `2, 3` would free both bays meant: it is refused, not passed over.
#[test]
fn an_excluded_bay_that_is_not_there_is_named() {
    let mut week = worked();
    for (bays, wrong) in [
        (vec![23], "bay 23"),
        (vec![2, 5], "bay 5"),
        (vec![0], "bay 0"),
    ] {
        week.gates[0].excluded_bays = bays;
        let no = refused(&week);
        assert!(no[0].reason.contains(wrong), "{no:?}");
        assert!(
            no[0].reason.contains("4 bays") && no[0].change.contains("1 to 4"),
            "{no:?}"
        );
    }
    week.gates[0].excluded_bays = vec![1, 4];
    accepted(&week);
}

/// A brace that all but touches a vertical is warned of, with a rise that clears it.
#[test]
fn standoffs_shorter_than_the_pipe_is_wide_are_warned_of() {
    let mut week = worked();
    week.gates[0].sway = true;
    week.shop.sway.rise = Length::INCH * 4;
    let frames = take_off(&week).0.frames;
    let found = standoff_notices(&week, &frames);
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].what.contains("bay line 1, 3"), "{found:?}");
    let rise = found[0].mend.split(' ').nth(2).expect("a rise");
    week.shop.sway.rise = parse_length(rise, None).expect("a length").up();
    let frames = take_off(&week).0.frames;
    assert_eq!(standoff_notices(&week, &frames), []);
    week.shop.sway.rise -= Length::INCH;
    let frames = take_off(&week).0.frames;
    assert_eq!(standoff_notices(&week, &frames).len(), 1);
}

#[test]
fn a_bay_equal_to_a_limit_is_over_it() {
    let mut week = worked();
    // Four bays of just 60 in between post axes.
    week.gates[0].leaf = 242.375 * INCH;
    week.gates[0].bays = Bays::Count(4);
    let no = refused(&week);
    assert!(no[0].reason.contains("bay limit"), "{no:?}");
    assert!(no[0].change.contains("5 equal bays"));
    week.gates[0].leaf = 242.3749 * INCH;
    accepted(&week);
    // Axis distance just the bay: 45 degrees.
    week.gates[0].leaf = 228.0 * INCH;
    week.gates[0].height = tiny::inches(56.40625 + 2.375);
    let no = refused(&week);
    assert!(no[0].reason.contains("45"), "{no:?}");
}

#[test]
fn bay_lines_are_judged_one_by_one() {
    let mut week = worked();
    let lines = |x: &[f64]| Bays::Lines(x.iter().map(|x| tiny::inches(*x)).collect());
    week.gates[0].bays = lines(&[50.0, 120.0, 170.0]);
    let no = refused(&week);
    assert_eq!(no.len(), 1);
    assert!(
        no[0].reason.contains("bay 2") && no[0].change.contains("4 equal bays"),
        "{no:?}"
    );
    for wrong in [
        &[50.0, 40.0, 100.0, 150.0, 190.0][..],
        &[0.5, 57.0],
        &[60.0, 114.0, 170.0, 250.0],
    ] {
        week.gates[0].bays = lines(wrong);
        assert!(
            refused(&week)[0].reason.contains("between its neighbours"),
            "{wrong:?}"
        );
    }
    week.gates[0].bays = lines(&[50.0, 50.0, 100.0, 150.0, 190.0]);
    assert!(refused(&week)[0].reason.contains("between its neighbours"));
}

#[test]
fn a_branch_larger_than_its_main() {
    let mut week = worked();
    week.gates[0].pipes.vertical = LARGE;
    let no = refused(&week);
    assert_eq!(no[0].part.as_deref(), Some("A1-V"));
    assert!(no[0].reason.contains("larger") && no[0].change.contains("2.375"));
    week.gates[0].pipes.vertical = tiny::LIGHT;
    week.gates[0].pipes.diagonal = LARGE;
    assert_eq!(refused(&week)[0].part.as_deref(), Some("A1-D"));
    // A diagonal larger than its vertical, never than its horizontal, is allowed.
    week.gates[0].pipes.diagonal = tiny::HEAVY;
    accepted(&week);
}

#[test]
fn posts_and_horizontals_by_variant() {
    let mut week = worked();
    week.gates[0].pipes.latch_post = tiny::LIGHT;
    week.gates[0].pipes.tail_post = tiny::LIGHT;
    let no = refused(&week);
    assert!(
        no[0].reason.contains("1.900") && no[0].change.contains("through"),
        "{no:?}"
    );
    week.shop.gate.variant = Variant::Through;
    accepted(&week);
    week.gates[0].pipes.tail_post = LARGE;
    let no = refused(&week);
    assert!(
        no[0].reason.contains("2.875") && no[0].change.contains("posts run past"),
        "{no:?}"
    );
}

#[test]
fn a_height_too_small_names_one_that_works() {
    for height in [1.0, 2.375, 3.0, 4.75, 5.0, 6.0] {
        let mut week = worked();
        week.gates[0].height = tiny::inches(height);
        let no = refused(&week);
        let change = &no[0].change;
        assert!(
            change.starts_with("a height of at least"),
            "{height}: {no:?}"
        );
        // The named height works, one mark less does not.
        let sixteenths = (1..16 * 80).find(|n| {
            let h = Length::from_64ths(4 * n);
            change.ends_with(&format!(" {}", h.print(Units::Inch)))
        });
        let named = Length::from_64ths(4 * sixteenths.expect("a height on the saw mark"));
        week.gates[0].height = named;
        accepted(&week);
        week.gates[0].height = named - Length::from_64ths(4);
        refused(&week);
    }
}

#[test]
fn a_leaf_too_short_names_one_that_works() {
    let mut week = worked();
    for leaf in [1.0, 2.375, 4.0] {
        week.gates[0].leaf = leaf * INCH;
        assert!(refused(&week)[0].change.starts_with("a leaf of at least"));
    }
}

#[test]
fn twice_the_landing_offset_stays_under_the_bay() {
    let mut week = worked();
    week.shop.gate.landing_offset = tiny::inches(56.40625 / 2.0);
    let (t, no) = take_off(&week);
    assert!(t.frames.is_empty());
    assert!(no[0].reason.contains("landing offset"), "{no:?}");
    week.shop.gate.landing_offset = tiny::inches(20.0);
    let (t, no) = take_off(&week);
    assert_eq!(t.frames.len(), 2, "{no:?}");
}

#[test]
fn risers_and_rollers_do_not_share_the_top_horizontal() {
    let mut week = worked();
    week.shop.gate.barbed_risers = true;
    accepted(&week);
    week.gates[0].barbed = 3;
    let no = refused(&week);
    assert!(no[0].reason.contains("roller"), "{no:?}");
    week.shop.gate.roller_on_top = false;
    accepted(&week);
}

#[test]
fn a_sway_brace_needs_a_sensible_rise() {
    let mut week = worked();
    week.gates[0].sway = true;
    week.shop.sway.rise = Length::ZERO;
    assert!(refused(&week)[0].reason.contains("rise"));
    week.shop.sway.rise = tiny::feet(12, 0.0);
    assert!(refused(&week)[0].reason.contains("rise"));
    week.shop.sway.rise = tiny::inches(1.5);
    let no = refused(&week);
    assert!(no[0].part.as_deref() == Some("A1-BS1"), "{no:?}");
}

#[test]
fn an_extra_part_that_rounds_to_nothing() {
    let mut week = worked();
    week.extras.push(longpoint::order::ExtraPart {
        mark: "X".into(),
        pipe: tiny::HEAVY,
        length: Length::from_ticks(10),
        count: 1,
        paperwork: Default::default(),
        note: String::new(),
        origin: week.gates[0].origin.clone(),
    });
    let (_, no) = take_off(&week);
    assert_eq!((no.len(), no[0].extra), (1, Some(0)));
}
