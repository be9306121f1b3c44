//! Splices of a good plan, and a kit's advice, spoiled in one place at a time; the judge names each.

use super::spoil::{MARK, Spoil, all_named};
use crate::tiny;
use crate::tiny_week::week;
use longpoint::check::Rule;
use longpoint::measure::Length;
use longpoint::plan::Plan;
use longpoint::splice::{ReachForm, WindowClass};

/// Where the first splice of a spliced horizontal stands, from the latch face.
fn at(plan: &Plan, line: usize) -> f64 {
    plan.spliced[line].splices[0].x.expect("a horizontal")
}

/// Moves metal from the second piece of the first spliced line to its first, everywhere.
fn move_splice(plan: &mut Plan, by: Length) {
    let line = &mut plan.spliced[0];
    line.pieces[0] += by;
    line.pieces[1] -= by;
    line.splices[0].centre += by.geometric();
    let x = line.splices[0].x.as_mut();
    *x.expect("a horizontal") += by.geometric();
    line.splices[0].from_latch_side += by.geometric();
    line.splices[0].from_tail_side -= by.geometric();
}

pub const SPLICES: &[(Rule, Spoil)] = &[
    (Rule::Magnitude, |p, _, _| {
        p.spliced[0].pieces[0] = Length::from_ticks(1 << 41)
    }),
    (Rule::SpliceClearOfToes, |p, _, _| {
        // Onto the nearer vertical.
        let splice = &p.spliced[0].splices[0];
        let by = if splice.from_latch_side < splice.from_tail_side {
            -splice.from_latch_side
        } else {
            splice.from_tail_side
        };
        move_splice(p, Length::nearest_mark(by, MARK));
    }),
    (Rule::SpliceRollerBayReach, |p, _, _| {
        // To mid-bay.
        let s = &p.spliced[0].splices[0];
        let by = (s.from_tail_side - s.from_latch_side) / 2.0;
        move_splice(p, Length::nearest_mark(by, MARK));
    }),
    (Rule::SpliceEndBay, |p, _, _| {
        let x = at(p, 0);
        move_splice(
            p,
            Length::nearest_mark(tiny::inches(30.0).geometric() - x, MARK),
        );
    }),
    (Rule::SpliceLeastPiece, |p, _, _| {
        let x = at(p, 0);
        move_splice(
            p,
            Length::nearest_mark(tiny::inches(30.0).geometric() - x, MARK),
        );
    }),
    (Rule::SpliceExcludedBay, |p, w, _| {
        w.gates[0].excluded_bays = vec![p.spliced[0].splices[0].bay];
    }),
    (Rule::SpliceParkedRoller, |p, w, _| {
        let x = at(p, 0);
        let front = w.gates[0].latch_overlap.geometric();
        w.gates[0].rolling.spacing = Some(Length::nearest_tick(x - front));
    }),
    (Rule::SpliceClearOfBracket, |p, w, _| {
        w.shop.splice.brackets = vec![Length::nearest_tick(at(p, 0))];
    }),
    (Rule::SpliceStagger, |p, _, _| {
        // The bottom's splice over the top's, whatever the windows say.
        let by = at(p, 1) - at(p, 0);
        move_splice(p, Length::nearest_mark(by, MARK));
    }),
    (Rule::SpliceSharedBay, |p, _, _| {
        let bay = p.spliced[1].splices[0].bay;
        p.spliced[0].splices[0].bay = bay;
    }),
    (Rule::SpliceCount, |p, _, _| {
        let line = &mut p.spliced[0];
        let half = Length::from_64ths(4 * 600);
        line.pieces[0] -= half;
        line.pieces.insert(0, half);
        let second = line.splices[0].clone();
        line.splices.insert(0, second);
    }),
    (Rule::SplicePieceMark, |p, _, _| {
        move_splice(p, Length::from_64ths(1))
    }),
    (Rule::SplicePiecesSum, |p, _, _| {
        p.spliced[0].pieces[0] += MARK
    }),
    (Rule::SpliceGap, |p, _, _| p.spliced[0].gap += 10.0),
    (Rule::SpliceCentre, |p, _, _| {
        p.spliced[0].splices[0].centre += 10.0
    }),
    (Rule::SpliceX, |p, _, _| {
        p.spliced[0].splices[0].x = Some(at(p, 0) + 10.0);
    }),
    (Rule::SpliceBay, |p, _, _| p.spliced[0].splices[0].bay += 1),
    (Rule::SpliceBayLines, |p, _, _| {
        p.spliced[0].splices[0].from_latch_side += 10.0;
    }),
    (Rule::SpliceWindow, |p, _, _| {
        p.spliced[0].splices[0].window.1 += Length::FOOT;
    }),
    (Rule::SpliceTolerated, |p, _, _| {
        p.spliced[0].splices[0].tolerated ^= true
    }),
    (Rule::SpliceRollerBay, |p, _, _| {
        p.spliced[0].splices[0].roller_bay ^= true
    }),
    (Rule::SpliceClass, |p, _, _| {
        p.spliced[0].splices[0].class = WindowClass::ByOrder;
    }),
    (Rule::SpliceReachForm, |p, _, _| {
        p.spliced[0].form = ReachForm::EveryInteriorBay
    }),
    (Rule::SpliceReachForm, |p, _, _| {
        p.splice_sets[0].form = ReachForm::EveryInteriorBay;
    }),
    (Rule::SpliceStress, |p, _, _| {
        let rel = &mut p.spliced[0].splices[0].rel;
        *rel = rel.map(|r| r - 0.01);
    }),
    (Rule::SpliceStress, |p, _, _| {
        p.spliced[0].splices[0].rel = None
    }),
    (Rule::SpliceClass, |p, _, _| {
        let window = &mut p.splice_sets[0].lines[0].windows[0];
        window.class = match window.class {
            WindowClass::Plain => WindowClass::Charged,
            _ => WindowClass::Plain,
        };
    }),
    (Rule::SpliceNeeded, |p, _, _| {
        p.spliced.remove(0);
    }),
    (Rule::SpliceNotNeeded, |p, _, t| {
        let part = t.parts.iter().position(|x| x.mark == "A2-HB");
        p.spliced[0].part = part.expect("A2 has a bottom horizontal");
    }),
    (Rule::SplicedLineTwice, |p, _, _| {
        let again = p.spliced[0].clone();
        p.spliced.push(again);
    }),
    (Rule::SplicePieceCount, |p, _, _| {
        p.spliced[0].splices.clear()
    }),
    (Rule::SpliceWindows, |p, _, _| {
        p.splice_sets[0].lines[0].windows[0].hi += Length::FOOT;
    }),
    (Rule::SpliceCap, |p, _, _| {
        p.splice_sets[0].lines[0].most += 1
    }),
    (Rule::SpliceFewest, |p, _, _| {
        p.splice_sets[0].lines[0].least = 0
    }),
    (Rule::SpliceSetMissing, |p, _, _| p.splice_sets.clear()),
    (Rule::SpliceOffTheLine, |p, _, _| {
        p.spliced[0].pieces[0] += Length::FOOT * 90;
    }),
    (Rule::SpliceOnePerBay, |p, _, _| in_pieces(p, 3)),
    (Rule::SpliceThreeNear, |p, _, _| in_pieces(p, 4)),
    (Rule::SplicedLineUnknown, |p, _, _| p.spliced[0].copy = 9),
    (Rule::BegunLine, |p, _, _| p.spliced[0].stays = true),
    (Rule::SpliceLineLong, |p, _, _| {
        p.splice_sets[0].lines[0].long += MARK
    }),
    (Rule::SpliceLineWhole, |p, _, _| {
        p.splice_sets[0].lines[0].whole += MARK
    }),
    (Rule::SpliceLineX, |p, _, _| {
        p.splice_sets[0].lines[0].x_long += MARK
    }),
    (Rule::SpliceSetGate, |p, _, _| {
        p.splice_sets[0].copies.push(9)
    }),
    (Rule::SpliceSetLines, |p, _, _| {
        p.splice_sets[0].lines.pop();
    }),
    (Rule::SpliceLeastPiece, |p, _, _| {
        p.splice_sets[0].lines[0].least_piece -= MARK;
    }),
    (Rule::SpliceStagger, |p, _, _| {
        p.splice_sets[0].apart -= Length::INCH
    }),
    (Rule::SpliceSharedBay, |p, _, _| {
        p.splice_sets[0].bays_exclusive ^= true
    }),
    (Rule::SpliceHighStress, |p, w, _| {
        // To the middle of the leaf, where roller bays are open and only stress forbids it.
        w.shop.splice.roller_bay_reach = tiny::dec("0.50");
        w.shop.splice.tolerated_reach = tiny::dec("0.50");
        let by = tiny::inches(186.0).geometric() - at(p, 0);
        move_splice(p, Length::nearest_mark(by, MARK));
    }),
    (Rule::SpliceImpossible, |_, w, _| {
        w.gates[0].excluded_bays = tiny::every_bay(w, 0);
    }),
];

/// Cuts the first spliced line into this many pieces, all but the outer two of six inches.
fn in_pieces(plan: &mut Plan, count: usize) {
    let line = &mut plan.spliced[0];
    let short = Length::from_64ths(64 * 6);
    for _ in 2..count {
        line.pieces[0] -= short;
        line.pieces.insert(1, short);
    }
    line.splices = vec![line.splices[0].clone(); count - 1];
}

pub const KITS: &[(Rule, Spoil)] = &[
    (Rule::KitMissing, |p, _, _| p.kits.clear()),
    (Rule::KitJoints, |p, _, _| {
        p.kits[0].options.pop();
    }),
    (Rule::KitUsable, |p, _, _| {
        p.kits[0].options[0].usable += MARK
    }),
    (Rule::KitCount, |p, _, _| {
        p.kits[0].options[0].joints_per_gate += 1
    }),
    (Rule::KitRefused, |p, _, _| {
        p.kits[0].options[0].refused = Some("no".into());
    }),
    (Rule::KitImpossible, |p, w, _| {
        w.gates[2].excluded_bays = tiny::every_bay(w, 2);
        let advised = p.kits[0].options.iter().filter(|o| !o.lines.is_empty());
        assert!(advised.count() > 0);
    }),
    (Rule::KitPieceStart, |p, _, _| {
        p.kits[0].options[0].cuts[0].pieces[0].start += MARK
    }),
    (Rule::KitPieceEnd, |p, _, _| {
        p.kits[0].options[0].cuts[0].pieces[0].end += MARK
    }),
    (Rule::KitFloor, |p, _, _| {
        p.kits[0].options[0].cuts[0].floor += MARK
    }),
    (Rule::KitJointEmpty, |p, _, _| {
        p.kits[0].options[0].cuts[0].pieces.clear()
    }),
    (Rule::KitPieces, |p, _, _| {
        p.kits[0].options[0].cuts.pop();
    }),
    (Rule::KitOverfull, |p, _, _| {
        let more = p.kits[0].options[0].cuts[0].pieces.clone();
        p.kits[0].options[0].cuts[1].pieces.extend(more.clone());
        p.kits[0].options[0].cuts[1].pieces.extend(more);
    }),
    (Rule::SpliceCentre, |p, _, _| {
        p.kits[0].options[0].lines[0].splices[0].centre += 10.0;
    }),
    (Rule::SpliceSharedBay, |p, _, _| {
        let bay = p.kits[0].options[0].lines[1].splices[0].bay;
        p.kits[0].options[0].lines[0].splices[0].bay = bay;
    }),
];

#[test]
fn spoiled_splices_are_named() {
    all_named(week, SPLICES);
}

#[test]
fn spoiled_kit_advice_is_named() {
    all_named(week, KITS);
}
