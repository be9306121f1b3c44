//! What a gate that cannot be spliced is told: the rule that bites, and changes each of which does free
//! it when it is made.

use super::sets;
use super::world::{CHORD, dec, quote, take_off, week};
use crate::measure::Length;
use crate::order::{Bays, Impossible, Week};

/// A 24 ft opening 6 ft high: 8 bays of 55.2 in, horizontals of 36'-9 5/8", out of 21 ft joints.
fn long_gate() -> Week {
    week(&[("A1", 288.0, 72.0, 1, 5)])
}

fn refused(week: &Week) -> Impossible {
    let (_, mut no) = sets(week, &take_off(week));
    assert_eq!(no.len(), 1, "{no:?}");
    no.remove(0)
}

/// Refused, and the change is among those named; the same week with it made is spliced.
fn frees(week: &Week, says: &str, make: impl Fn(&mut Week)) -> Week {
    let said = refused(week);
    let named = said.change.split("; or ").any(|c| c.contains(says));
    assert!(named, "{says}: {}", said.change);
    let mut freed = week.clone();
    make(&mut freed);
    let (found, no) = sets(&freed, &take_off(&freed));
    assert_eq!(no, [], "{says}");
    assert!(!found.is_empty() || says.contains("on sale"), "{says}");
    freed
}

/// Only bays 3 and 6 are left: neither side can reach a legal pair of pieces out of 21 ft.
fn two_bays() -> Week {
    let mut week = long_gate();
    week.gates[0].excluded_bays = vec![2, 4, 5, 7];
    week
}

#[test]
fn the_rule_that_bites_is_named() {
    let mut week = long_gate();
    week.gates[0].excluded_bays = (2..=7).collect();
    let said = refused(&week);
    assert_eq!(said.mark, "A1");
    assert_eq!(said.part.as_deref(), Some("A1-HB"));
    assert!(said.reason.contains("excludes"), "{}", said.reason);
    let mut week = long_gate();
    // A clear distance past a fifth of the bay closes every window of the carrying horizontal.
    week.shop.splice.clear_ods = dec(45, 1);
    assert!(refused(&week).reason.contains("rule 3"));
}

#[test]
fn the_shortest_joint_that_does_is_named_and_does() {
    let week = two_bays();
    let sold = |feet: i64| move |w: &mut Week| w.quotes.push(quote(CHORD, feet, Some(9_000), 9));
    let said = refused(&week).change;
    assert!(said.contains("a joint of 24'-0\" on sale"), "{said}");
    frees(&week, "a joint of 24'-0\" on sale", sold(24));
    // The next shorter one that is tried does not.
    let mut shorter = week.clone();
    sold(21)(&mut shorter);
    refused(&shorter);
}

#[test]
fn one_more_splice_is_named_with_its_setting_and_does() {
    let mut week = long_gate();
    week.gates[0].excluded_bays = vec![4];
    week.shop.splice.most_extra = 0;
    let freed = frees(&week, "one more splice (splice.most_extra = 1)", |w| {
        w.shop.splice.most_extra = 1;
    });
    let (found, _) = sets(&freed, &take_off(&freed));
    assert_eq!((found[0].lines[0].least, found[0].lines[0].most), (1, 2));
    // Where the most that can be set is set, no more is offered.
    let mut all = two_bays();
    all.shop.splice.most_extra = crate::order::SpliceRules::MOST_EXTRA;
    assert!(!refused(&all).change.contains("most_extra"));
}

#[test]
fn another_bay_count_is_named_and_does() {
    frees(&two_bays(), "9 bays instead of 8", |w| {
        w.gates[0].bays = Bays::Count(9);
    });
}

#[test]
fn the_tolerated_reach_is_named_with_its_warning_and_does() {
    let mut week = long_gate();
    // Every bay a roller bay; a window's near end, 4.5 OD off a toe, lies past 0.20 of a bay, short
    // of 0.25.
    week.shop.splice.roller_bay_from = dec(0, 0);
    week.shop.splice.refuse_over = dec(1, 0);
    week.shop.splice.clear_ods = dec(45, 1);
    let freed = frees(&week, "the tolerated reach (splice.allow_tolerated)", |w| {
        w.shop.splice.allow_tolerated = true;
    });
    let (found, _) = sets(&freed, &take_off(&freed));
    let mut windows = found[0].lines.iter().flat_map(|l| &l.windows);
    assert!(windows.any(|w| w.tolerated));
}

#[test]
fn no_bays_excluded_is_named_and_does() {
    frees(&two_bays(), "no bays excluded in the order", |w| {
        w.gates[0].excluded_bays.clear();
    });
}

#[test]
fn one_bay_for_both_is_named_and_does() {
    let mut week = long_gate();
    // One bay alone is left, mid-leaf: wide enough for both splices, staggered.
    week.gates[0].excluded_bays = vec![2, 3, 5, 6, 7];
    frees(
        &week,
        "top and bottom splices in one bay (splice.same_bay)",
        |w| {
            w.shop.splice.same_bay = true;
        },
    );
}

#[test]
fn high_stress_by_order_is_named_and_does() {
    let mut week = long_gate();
    // Nothing is under a stress of nothing.
    week.shop.splice.charge_over = dec(0, 0);
    week.shop.splice.refuse_over = dec(0, 0);
    let freed = frees(&week, "by order (high_stress = yes)", |w| {
        w.gates[0].high_stress = true;
    });
    let (found, _) = sets(&freed, &take_off(&freed));
    let mut windows = found[0].lines.iter().flat_map(|l| &l.windows);
    assert!(windows.all(|w| w.class == super::WindowClass::ByOrder));
}

#[test]
fn where_nothing_tried_helps_another_leaf_is_said() {
    let mut week = long_gate();
    week.shop.splice.least_piece = Length::FOOT * 500;
    week.shop.splice.clear_ods = dec(100, 1);
    let said = refused(&week);
    assert!(said.reason.contains("bite together"), "{}", said.reason);
}
