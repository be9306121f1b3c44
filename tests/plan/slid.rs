//! Splices stand where the gate's bending is least, as far as window, stagger and both joints let them: no splice
//! can be moved by one mark to a better place. Every move is tried here by the rules of the order.

use longpoint::gate::build;
use longpoint::measure::Length;
use longpoint::order::Week;
use longpoint::plan::{Plan, PlannedJoint, SplicedLine};
use longpoint::statics::{Envelopes, Line};

use crate::judge::planned;
use crate::tiny_week::week;

/// The joint that holds a piece of a line.
fn holding<'a>(plan: &'a Plan, line: &SplicedLine, piece: u32) -> &'a PlannedJoint {
    let mine = |j: &&PlannedJoint| {
        let mut pieces = j.pieces.iter();
        pieces.any(|p| (p.part, p.copy, p.piece) == (line.part, line.copy, Some(piece)))
    };
    plan.joints.iter().find(mine).expect("a joint")
}

/// Whether a joint may give away (below zero) or take up metal: nothing of its money changes.
fn bears(week: &Week, joint: &PlannedJoint, by: Length) -> bool {
    let left = joint.leftover - by;
    let drop = (left - week.shop.saw.kerf).max(Length::ZERO);
    let keep = week.shop.money.keep_length;
    let feet = |d: Length| d.ticks() / Length::FOOT.ticks();
    left >= Length::ZERO.max(week.shop.saw.measure_first_under)
        && (drop >= keep) == joint.kept
        && (!joint.kept || feet(drop) == feet(joint.drop))
}

#[test]
fn no_splice_has_a_better_place_one_mark_away() {
    let mut week = week();
    week.gates.retain(|g| !g.kit);
    let (take_off, plan) = planned(&week);
    let mark = week.shop.saw.mark;
    let mut envelopes = Envelopes::new();
    let mut tried = 0;
    for line in &plan.spliced {
        let part = &take_off.parts[line.part];
        let gate = part.gate.expect("a gate's");
        let frame = build(&week, gate).expect("a frame");
        let envelope = envelopes.of_gate(&week, &frame).expect("its bending");
        let which = Line::of(part.role.expect("a role")).expect("a horizontal");
        let partner = |l: &&SplicedLine| {
            l.copy == line.copy && l.part != line.part && take_off.parts[l.part].gate == part.gate
        };
        let others: Vec<f64> = (plan.spliced.iter().filter(partner))
            .flat_map(|l| l.splices.iter().filter_map(|s| s.x))
            .collect();
        for (n, splice) in (1u32..).zip(&line.splices) {
            let (before, behind) = (holding(&plan, line, n), holding(&plan, line, n + 1));
            let x = splice.x.expect("a horizontal");
            let now = envelope.rel(which, x);
            for by in [mark, -mark] {
                let centre = splice.centre + by.geometric();
                let inside =
                    splice.window.0.geometric() <= centre && centre <= splice.window.1.geometric();
                let there = x + by.geometric();
                let apart = week.shop.splice.stagger.geometric();
                let clear = others.iter().all(|o| (o - there).abs() >= apart);
                let room = before.number == behind.number
                    || (bears(&week, before, by) && bears(&week, behind, -by));
                if inside && clear && room && line.splices.len() == 1 {
                    tried += 1;
                    let better = envelope.rel(which, there);
                    assert!(better >= now - 1e-9, "{} {by}: {better} < {now}", part.mark);
                }
            }
        }
    }
    assert!(tried > 0, "no splice has room to move");
}
