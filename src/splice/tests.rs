//! Splice windows worked by hand from DESIGN §8's figures; every rule on each side of its limit.

use super::track::horizontal;
use super::world::{CHORD, dec, frame, inch, take_off, week};
use super::*;
use crate::gate::Role;
use crate::measure::{INCH, Length};
use crate::order::{Carrier, Lean, SplicePolicy, Week};

/// A 24 ft opening 6 ft high: leaf 444, axes 441.625 apart, 8 bays of 55.203125.
fn long_gate() -> Week {
    week(&[("A1", 288.0, 72.0, 1, 5)])
}

fn track(week: &Week, role: Role) -> Track {
    let frame = frame(week, 0);
    horizontal(week, &week.gates[0], &frame, role, frame.bay_lines[0])
}

fn near(a: f64, b: f64) {
    assert!(
        (a - b).abs() < 1e-9 * INCH,
        "{} in, not {} in",
        a / INCH,
        b / INCH
    );
}

#[test]
fn plain_toe_and_clear_distance_are_design_figures() {
    let week = long_gate();
    let t = track(&week, Role::BottomHorizontal);
    near(t.clear, 3.5625 * INCH);
    near(t.toes[3].latch, 1.1375 * INCH);
    // 4.7 in plain.
    near(t.toes[3].latch + t.clear, 4.7 * INCH);
    let alpha = 69.625f64.atan2(55.203125);
    let toe = 2.375 / (2.0 * alpha.tan()) + 0.95 / alpha.sin() + 0.1875;
    near(t.toes[3].tail, toe * INCH);
    let reach = (t.toes[3].tail + t.clear) / INCH;
    assert!((5.2..6.3).contains(&reach), "{reach}");
}

#[test]
fn clear_landing_adds_its_offset() {
    let mut week = long_gate();
    // Far enough to land clear of the vertical: about 1.2 + 1.1 in.
    week.shop.gate.landing_offset = inch(2.0);
    let t = track(&week, Role::BottomHorizontal);
    let reach = (t.toes[3].tail + t.clear) / INCH;
    assert!((7.4..8.2).contains(&reach), "{reach}");
}

#[test]
fn diagonal_side_differs_top_and_bottom_and_by_lean() {
    let mut week = long_gate();
    let bottom = track(&week, Role::BottomHorizontal).toes[4];
    let top = track(&week, Role::TopHorizontal).toes[4];
    assert!(bottom.tail > bottom.latch && top.latch > top.tail);
    week.shop.gate.lean = Lean::HeadToLatch;
    let bottom = track(&week, Role::BottomHorizontal).toes[4];
    let top = track(&week, Role::TopHorizontal).toes[4];
    assert!(bottom.latch > bottom.tail && top.tail > top.latch);
}

#[test]
fn larger_of_both_toes_counts_on_the_diagonals_side() {
    let mut week = long_gate();
    // A vertical so stout that the diagonal's toe lies inside its own.
    week.gates[0].pipes.vertical = CHORD;
    week.pipes[0].od = crate::measure::Dimension::inch(dec(300, 3));
    let t = track(&week, Role::BottomHorizontal).toes[4];
    near(t.latch, 1.375 * INCH);
    assert!(t.tail >= t.latch);
}

#[test]
fn clear_distance_never_under_two_inches_or_one_od() {
    let mut week = long_gate();
    week.shop.splice.clear_ods = dec(5, 1);
    near(track::clear_distance(&week, 1.0 * INCH), 2.0 * INCH);
    near(track::clear_distance(&week, 2.5 * INCH), 2.5 * INCH);
}

#[test]
fn roller_bay_windows_run_from_clear_to_a_fifth_of_the_bay() {
    let week = long_gate();
    let t = track(&week, Role::BottomHorizontal);
    let all = windows(&week, &week.gates[0], &t, Lift::Nothing);
    // Bay 4 (lines 3 and 4), far from rollers: bay 4 runs 165.6 … 220.8 from the post axis.
    let bay = 55.203125;
    let in_bay: Vec<&Window> = all.iter().filter(|w| w.bay == 4).collect();
    assert_eq!(in_bay.len(), 2);
    let p = |x: f64| Length::nearest_tick(x * INCH);
    let toe = t.toes[3].tail / INCH + 3.5625;
    assert!((in_bay[0].lo - p(3.0 * bay + toe)).ticks().abs() <= 1);
    assert!((in_bay[0].hi - p(3.2 * bay)).ticks().abs() <= 1);
    assert!((in_bay[1].lo - p(3.8 * bay)).ticks().abs() <= 1);
    assert!((in_bay[1].hi - p(4.0 * bay - 4.7)).ticks().abs() <= 1);
    assert!(all.iter().all(|w| w.roller_bay && !w.tolerated));
    // Never mid-bay.
    for w in &all {
        let middle = p((f64::from(w.bay) - 0.5) * bay);
        assert!(w.hi < middle || w.lo > middle);
    }
}

#[test]
fn tolerated_reach_is_a_window_of_its_own_by_setting_only() {
    let mut week = long_gate();
    week.shop.splice.allow_tolerated = true;
    let t = track(&week, Role::BottomHorizontal);
    let all = windows(&week, &week.gates[0], &t, Lift::Nothing);
    let in_bay: Vec<&Window> = all.iter().filter(|w| w.bay == 4).collect();
    assert_eq!(
        in_bay.iter().map(|w| w.tolerated).collect::<Vec<_>>(),
        [false, true, true, false]
    );
    assert!(in_bay.windows(2).all(|w| w[0].hi <= w[1].lo));
}

#[test]
fn a_line_that_carries_no_roller_is_open_between_toes() {
    let mut week = long_gate();
    let t = track(&week, Role::TopHorizontal);
    let all = windows(&week, &week.gates[0], &t, Lift::Nothing);
    let wide = all.iter().find(|w| w.bay == 4).expect("bay 4 is open");
    assert!(wide.hi - wide.lo > inch(40.0) && !wide.roller_bay);
    week.shop.gate.carrier = Carrier::Both;
    assert!(track(&week, Role::TopHorizontal).carries);
    week.shop.gate.carrier = Carrier::Top;
    assert!(!track(&week, Role::BottomHorizontal).carries);
}

#[test]
fn end_bays_excluded_bays_parked_rollers_and_brackets_are_kept_clear() {
    // Half of 12 in, and a latch part of 9 in of the same 12.
    for latch in [6.0, 9.0] {
        let mut week = long_gate();
        let gate = &mut week.gates[0];
        (gate.latch_overlap, gate.roller_overlap) = (inch(latch), inch(12.0 - latch));
        gate.excluded_bays = vec![5];
        week.shop.splice.brackets = vec![inch(200.0)];
        kept_clear(&week, latch);
    }
}

fn kept_clear(week: &Week, latch: f64) {
    let t = track(week, Role::TopHorizontal);
    let all = windows(week, &week.gates[0], &t, Lift::Nothing);
    assert!(all.iter().all(|w| w.bay != 1 && w.bay != 8 && w.bay != 5));
    let x = |l: Length| l.geometric() + t.long_at;
    // Rollers: front 288 + latch part closed, latch part open; spacing 0.85 × 156 = 132.6.
    let closed = 288.0 + latch;
    for at in [closed, closed + 132.6, latch, latch + 132.6] {
        for w in &all {
            let (lo, hi) = (x(w.lo) / INCH, x(w.hi) / INCH);
            assert!(
                hi <= at - 12.0 + 1e-9 || lo >= at + 12.0 - 1e-9,
                "{at}: {lo} {hi}"
            );
        }
    }
    let touch = |at: f64| {
        all.iter()
            .any(|w| (x(w.lo) / INCH - at).abs() < 1e-3 || (x(w.hi) / INCH - at).abs() < 1e-3)
    };
    assert!(touch(closed - 12.0) && touch(closed + 12.0));
    // Bracket at 200 ± 2, clear 3.5625.
    assert!(touch(200.0 - 5.5625) && touch(200.0 + 5.5625));
}

#[test]
fn fewest_splices_count_the_gaps_and_the_mark() {
    let week = long_gate();
    let (found, impossible) = sets(&week, &take_off(&week));
    assert_eq!(impossible, []);
    let set = &found[0];
    // 441.625 in, U = 251.5: one splice.
    assert_eq!(set.lines.len(), 2);
    let lines: Vec<(u32, u32)> = set.lines.iter().map(|l| (l.least, l.most)).collect();
    assert_eq!(lines, [(1, 1), (1, 1)]);
    assert_eq!(set.lines[0].least_piece, inch(55.25));
    let figures = terms(&week, set, inch(251.5), Lift::Nothing);
    let fewest = |long: f64| fewest(inch(long), &figures);
    // Two pieces and one gap of 3/32: 503.09375 is the longest with one splice, and what the mark
    // floors away does not count.
    assert_eq!(fewest(503.09375), Some(1));
    assert_eq!(fewest(503.09375 + 1.0 / 32.0), Some(1));
    assert_eq!(fewest(503.09375 + 1.0 / 16.0), Some(2));
}

#[test]
fn short_lines_stay_whole_unless_splicing_may_pay() {
    let mut week = week(&[("A1", 144.0, 72.0, 1, 5)]);
    assert_eq!(sets(&week, &take_off(&week)), (vec![], vec![]));
    week.shop.splice.policy = SplicePolicy::WhereverItPays;
    let (found, _) = sets(&week, &take_off(&week));
    // 4 bays of 56.4: only bays 2 and 3 are open, and each piece wants a bay: one splice may pay.
    assert_eq!((found[0].lines[0].least, found[0].lines[0].most), (0, 1));
}

#[test]
fn a_configuration_meets_every_rule_exactly() {
    let week = long_gate();
    let (found, _) = sets(&week, &take_off(&week));
    let set = &found[0];
    let figures = terms(&week, set, inch(251.5), Lift::Nothing);
    for prefer in [Prefer::Latch, Prefer::Tail] {
        let ways = configure(&set.lines, &[1, 1], &figures, prefer).expect("there is a way");
        let centres: Vec<Length> = ways
            .iter()
            .zip(&set.lines)
            .map(|(pieces, line)| {
                let metal: Length = pieces.iter().copied().sum();
                assert_eq!(metal, (line.long - inch(0.09375)).down_to(inch(0.0625)));
                assert!(
                    pieces
                        .iter()
                        .all(|p| *p <= inch(251.5) && *p >= line.least_piece)
                );
                Length::from_ticks(pieces[0].ticks() + (line.long - metal).ticks() / 2)
            })
            .collect();
        for (c, line) in centres.iter().zip(&set.lines) {
            assert!(line.windows.iter().any(|w| w.lo <= *c && *c <= w.hi));
        }
        assert!((centres[0] - centres[1]).ticks().abs() >= inch(24.0).ticks());
    }
}

#[test]
fn one_more_splice_is_allowed_only_when_the_fewest_leave_no_way() {
    let mut week = long_gate();
    // Bottom and top both squeezed into one bay each: 21 ft joints leave bay 4 and 5 only, shut one.
    week.gates[0].excluded_bays = vec![4];
    let (found, impossible) = sets(&week, &take_off(&week));
    assert_eq!(impossible, []);
    let lines: Vec<(u32, u32)> = found[0].lines.iter().map(|l| (l.least, l.most)).collect();
    assert_eq!(lines, [(1, 2), (1, 2)]);
    // By setting the two may share bay 5 only if one splice more does not do; here it does.
    week.shop.splice.same_bay = true;
    let (found, _) = sets(&week, &take_off(&week));
    assert!(found[0].bays_exclusive);
}

#[test]
fn three_in_a_row_are_over_ten_feet_apart() {
    let week = long_gate();
    let (found, _) = sets(&week, &take_off(&week));
    let set = SpliceSet {
        lines: vec![SpliceLine {
            least_piece: inch(36.0),
            windows: [(59.9, 60.1), (119.0, 121.0), (179.9, 180.1)]
                .iter()
                .zip(2u32..)
                .map(|((lo, hi), bay)| Window {
                    lo: inch(*lo),
                    hi: inch(*hi),
                    bay,
                    roller_bay: false,
                    tolerated: false,
                    class: WindowClass::Plain,
                    charge: crate::measure::Money::ZERO,
                })
                .collect(),
            ..found[0].lines[0].clone()
        }],
        ..found[0].clone()
    };
    let mut figures = terms(&week, &set, inch(270.0), Lift::Nothing);
    let ways = |t: &Terms| configure(&set.lines, &[3], t, Prefer::Latch);
    let pieces = ways(&figures).expect("just over ten feet fits");
    let slack = set.lines[0].long - pieces[0].iter().copied().sum();
    let apart = (pieces[0][1] + pieces[0][2]).ticks() * 3 + 2 * slack.ticks();
    assert!(apart > Length::FOOT.ticks() * 30, "{apart}");
    figures.three_over = inch(120.3);
    assert_eq!(ways(&figures), None);
}
