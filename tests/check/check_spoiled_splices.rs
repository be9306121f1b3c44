//! Splices of a good plan, and a kit's advice, spoiled in one place at a time; the judge names each.

use crate::spoil::{MARK, Spoil, all_named};
use crate::tiny;
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

const SPLICES: [(&str, Spoil); 34] = [
    ("splice-clear-of-toes", |p, _, _| {
        // Onto the nearer vertical.
        let splice = &p.spliced[0].splices[0];
        let by = if splice.from_latch_side < splice.from_tail_side {
            -splice.from_latch_side
        } else {
            splice.from_tail_side
        };
        move_splice(p, Length::nearest_mark(by, MARK));
    }),
    ("splice-roller-bay-reach", |p, _, _| {
        // To mid-bay.
        let s = &p.spliced[0].splices[0];
        let by = (s.from_tail_side - s.from_latch_side) / 2.0;
        move_splice(p, Length::nearest_mark(by, MARK));
    }),
    ("splice-end-bay", |p, _, _| {
        let x = at(p, 0);
        move_splice(
            p,
            Length::nearest_mark(tiny::inches(30.0).geometric() - x, MARK),
        );
    }),
    ("splice-least-piece", |p, _, _| {
        let x = at(p, 0);
        move_splice(
            p,
            Length::nearest_mark(tiny::inches(30.0).geometric() - x, MARK),
        );
    }),
    ("splice-excluded-bay", |p, w, _| {
        w.gates[0].excluded_bays = vec![p.spliced[0].splices[0].bay];
    }),
    ("splice-parked-roller", |p, w, _| {
        let x = at(p, 0);
        let front = w.gates[0].latch_overlap.geometric();
        w.gates[0].rolling.spacing = Some(Length::nearest_tick(x - front));
    }),
    ("splice-clear-of-bracket", |p, w, _| {
        w.shop.splice.brackets = vec![Length::nearest_tick(at(p, 0))];
    }),
    ("splice-stagger", |p, _, _| {
        // The bottom's splice over the top's, whatever the windows say.
        let by = at(p, 1) - at(p, 0);
        move_splice(p, Length::nearest_mark(by, MARK));
    }),
    ("splice-shared-bay", |p, _, _| {
        let bay = p.spliced[1].splices[0].bay;
        p.spliced[0].splices[0].bay = bay;
    }),
    ("splice-count", |p, _, _| {
        let line = &mut p.spliced[0];
        let half = Length::from_64ths(4 * 600);
        line.pieces[0] -= half;
        line.pieces.insert(0, half);
        let second = line.splices[0].clone();
        line.splices.insert(0, second);
    }),
    ("splice-piece-mark", |p, _, _| {
        move_splice(p, Length::from_64ths(1))
    }),
    ("splice-pieces-sum", |p, _, _| {
        p.spliced[0].pieces[0] += MARK
    }),
    ("splice-gap", |p, _, _| p.spliced[0].gap += 10.0),
    ("splice-centre", |p, _, _| {
        p.spliced[0].splices[0].centre += 10.0
    }),
    ("splice-x", |p, _, _| {
        p.spliced[0].splices[0].x = Some(at(p, 0) + 10.0);
    }),
    ("splice-bay", |p, _, _| p.spliced[0].splices[0].bay += 1),
    ("splice-bay-lines", |p, _, _| {
        p.spliced[0].splices[0].from_latch_side += 10.0;
    }),
    ("splice-window", |p, _, _| {
        p.spliced[0].splices[0].window.1 += Length::FOOT;
    }),
    ("splice-tolerated", |p, _, _| {
        p.spliced[0].splices[0].tolerated ^= true
    }),
    ("splice-roller-bay", |p, _, _| {
        p.spliced[0].splices[0].roller_bay ^= true
    }),
    ("splice-class", |p, _, _| {
        p.spliced[0].splices[0].class = WindowClass::ByOrder;
    }),
    ("splice-reach-form", |p, _, _| {
        p.spliced[0].form = ReachForm::EveryInteriorBay
    }),
    ("splice-reach-form", |p, _, _| {
        p.splice_sets[0].form = ReachForm::EveryInteriorBay;
    }),
    ("splice-stress", |p, _, _| {
        let rel = &mut p.spliced[0].splices[0].rel;
        *rel = rel.map(|r| r - 0.01);
    }),
    ("splice-stress", |p, _, _| {
        p.spliced[0].splices[0].rel = None
    }),
    ("splice-class", |p, _, _| {
        let window = &mut p.splice_sets[0].lines[0].windows[0];
        window.class = match window.class {
            WindowClass::Plain => WindowClass::Charged,
            _ => WindowClass::Plain,
        };
    }),
    ("splice-needed", |p, _, _| {
        p.spliced.remove(0);
    }),
    ("splice-not-needed", |p, _, t| {
        let part = t.parts.iter().position(|x| x.mark == "A2-HB");
        p.spliced[0].part = part.expect("A2 has a bottom horizontal");
    }),
    ("spliced-line-twice", |p, _, _| {
        let again = p.spliced[0].clone();
        p.spliced.push(again);
    }),
    ("splice-piece-count", |p, _, _| p.spliced[0].splices.clear()),
    ("splice-windows", |p, _, _| {
        p.splice_sets[0].lines[0].windows[0].hi += Length::FOOT;
    }),
    ("splice-cap", |p, _, _| p.splice_sets[0].lines[0].most += 1),
    ("splice-fewest", |p, _, _| {
        p.splice_sets[0].lines[0].least = 0
    }),
    ("splice-set-missing", |p, _, _| p.splice_sets.clear()),
];

const KITS: [(&str, Spoil); 14] = [
    ("kit-missing", |p, _, _| p.kits.clear()),
    ("kit-joints", |p, _, _| {
        p.kits[0].options.pop();
    }),
    ("kit-usable", |p, _, _| p.kits[0].options[0].usable += MARK),
    ("kit-count", |p, _, _| {
        p.kits[0].options[0].joints_per_gate += 1
    }),
    ("kit-refused", |p, _, _| {
        p.kits[0].options[0].refused = Some("no".into());
    }),
    ("kit-impossible", |p, w, _| {
        w.gates[2].excluded_bays = tiny::every_bay(w, 2);
        let advised = p.kits[0].options.iter().filter(|o| !o.lines.is_empty());
        assert!(advised.count() > 0);
    }),
    ("kit-piece-start", |p, _, _| {
        p.kits[0].options[0].cuts[0].pieces[0].start += MARK
    }),
    ("kit-piece-end", |p, _, _| {
        p.kits[0].options[0].cuts[0].pieces[0].end += MARK
    }),
    ("kit-floor", |p, _, _| {
        p.kits[0].options[0].cuts[0].floor += MARK
    }),
    ("kit-joint-empty", |p, _, _| {
        p.kits[0].options[0].cuts[0].pieces.clear()
    }),
    ("kit-pieces", |p, _, _| {
        p.kits[0].options[0].cuts.pop();
    }),
    ("kit-overfull", |p, _, _| {
        let more = p.kits[0].options[0].cuts[0].pieces.clone();
        p.kits[0].options[0].cuts[1].pieces.extend(more.clone());
        p.kits[0].options[0].cuts[1].pieces.extend(more);
    }),
    ("splice-centre", |p, _, _| {
        p.kits[0].options[0].lines[0].splices[0].centre += 10.0;
    }),
    ("splice-shared-bay", |p, _, _| {
        let bay = p.kits[0].options[0].lines[1].splices[0].bay;
        p.kits[0].options[0].lines[0].splices[0].bay = bay;
    }),
];

#[test]
fn spoiled_splices_are_named() {
    all_named(&SPLICES);
}

#[test]
fn spoiled_kit_advice_is_named() {
    all_named(&KITS);
}
