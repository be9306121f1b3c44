//! Splices of a kit's advice stand at the least stress that their windows, their joints and the rules
//! leave them, as the shop's own do.

use crate::judge::planned;
use crate::{tiny, tiny_week};
use longpoint::measure::Length;
use longpoint::order::Week;
use longpoint::plan::{KitOption, SplicedLine};
use longpoint::splice::{SpliceSet, places};

/// One saw mark of the tiny shop.
const MARK: Length = Length::from_64ths(4);

/// Ticks that the joint holding a piece has left.
fn left(week: &Week, option: &KitOption, line: &SplicedLine, piece: usize) -> i64 {
    let number = u32::try_from(piece).ok().map(|n| n + 1);
    let holds = |p: &longpoint::plan::PieceCut| p.part == line.part && p.piece == number;
    let joint = option.cuts.iter().find(|j| j.pieces.iter().any(holds));
    let pieces = &joint.expect("every piece lies on a joint").pieces;
    let load: i64 = pieces.iter().map(|p| p.saw.ticks()).sum();
    let kerfs = week.shop.kit.kerf.ticks() * (i64::try_from(pieces.len()).expect("few") - 1);
    option.usable.ticks() - load - kerfs
}

/// Whether a splice could move by one mark: its window, its pieces, its joints, the other horizontal.
fn could_move(
    (week, set): (&Week, &SpliceSet),
    option: &KitOption,
    (line, index): (&SplicedLine, usize),
    by: Length,
) -> bool {
    let splice = &line.splices[index];
    let at = splice.centre + by.geometric();
    let inside = splice.window.0.geometric() <= at && at <= splice.window.1.geometric();
    let spec = set.lines.iter().find(|l| l.part == line.part);
    let least = spec.expect("a horizontal").least_piece;
    let (longer, shorter) = if by > Length::ZERO {
        (index, index + 1)
    } else {
        (index + 1, index)
    };
    let spare = week.shop.saw.measure_first_under.ticks() + MARK.ticks();
    let others = option.lines.iter().filter(|l| l.part != line.part);
    let apart = others
        .flat_map(|l| &l.splices)
        .all(|other| (other.centre - at).abs() >= week.shop.splice.stagger.geometric());
    inside
        && line.pieces[shorter] - MARK >= least
        && left(week, option, line, longer) >= spare
        && apart
}

#[test]
fn no_kit_splice_could_stand_calmer_one_mark_on() {
    let mut week = tiny_week::week();
    week.shop
        .kit
        .local_joints
        .extend([16, 18].map(|f| tiny::feet(f, 0.0)));
    let (take_off, plan) = planned(&week);
    let set = places(&week, &take_off, 2).expect("the kit has a frame");
    let bent = set.bending.as_deref().expect("the bending is computed");
    let mut judged = 0;
    for option in &plan.kits[0].options {
        for line in &option.lines {
            let spec = set.lines.iter().find(|l| l.part == line.part);
            let which = spec.and_then(|l| l.horizontal).expect("a horizontal");
            for (index, splice) in line.splices.iter().enumerate() {
                let x = splice.x.expect("measured from the latch face");
                let here = bent.rel(which, x);
                for by in [MARK, Length::ZERO - MARK] {
                    if could_move((&week, &set), option, (line, index), by) {
                        let there = bent.rel(which, x + by.geometric());
                        assert!(
                            there >= here - 1e-12,
                            "{} of {}: {here} here, {there} beside it",
                            splice.bay,
                            option.joint
                        );
                        judged += 1;
                    }
                }
            }
        }
    }
    assert!(judged >= 6, "{judged} moves that could be made");
}
