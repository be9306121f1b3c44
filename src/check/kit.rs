//! Advice for kits: every local joint length is answered, splices meet the rules, running marks carry
//! the assumed kerf and trims, a refusal is true.

use std::collections::BTreeMap;

use super::case::Case;
use super::docket::Docket;
use super::outline::Outline;
use super::rule::Rule;
use super::splice;
use super::splice_set::{self, Set};
use crate::measure::Length;
use crate::plan::{KitAdvice, KitJoint, KitOption};

/// Judges the advice of every kit gate.
pub(super) fn judge(case: &Case<'_>, docket: &mut Docket) {
    let wanted: Vec<usize> = case
        .take_off
        .frames
        .iter()
        .map(|f| f.gate)
        .filter(|g| case.week.gates[*g].kit && case.week.gates[*g].count > 0)
        .filter(|g| !case.gate_left_out(*g))
        .collect();
    let given: Vec<usize> = case.plan.kits.iter().map(|k| k.gate).collect();
    docket.same(&given, &wanted, Rule::KitMissing, "plan");
    for advice in &case.plan.kits {
        one(case, advice, docket);
    }
}

fn one(case: &Case<'_>, advice: &KitAdvice, docket: &mut Docket) {
    let order = &case.week.gates[advice.gate];
    let Some(outline) = Outline::of(case.week, order) else {
        return;
    };
    let lengths: Vec<Length> = advice.options.iter().map(|o| o.joint).collect();
    docket.same(
        &lengths,
        &case.week.shop.kit.local_joints,
        Rule::KitJoints,
        &order.mark,
    );
    for option in &advice.options {
        let name = format!("{} of {}", order.mark, option.joint);
        let trim = case.week.shop.kit.trim;
        let usable = option.joint - trim - trim;
        docket.same(option.usable, usable, Rule::KitUsable, &name);
        let own = (usable > Length::ZERO)
            .then(|| splice_set::kit(case, advice.gate, &outline, usable))
            .flatten();
        match (&option.refused, own) {
            (Some(_), None) => docket.same(option.joints_per_gate, 0, Rule::KitCount, &name),
            (Some(why), Some(_)) => docket.say(
                Rule::KitRefused,
                &name,
                format!("refused (\"{why}\"), but there is a way"),
            ),
            (None, None) => docket.say(
                Rule::KitImpossible,
                &name,
                "advised, but the rules leave no way".to_owned(),
            ),
            (None, Some(set)) => advised(case, option, &set, &name, docket),
        }
    }
}

fn advised(case: &Case<'_>, option: &KitOption, set: &Set, name: &str, docket: &mut Docket) {
    let joints = u32::try_from(option.cuts.len()).unwrap_or(u32::MAX);
    docket.same(option.joints_per_gate, joints, Rule::KitCount, name);
    for (index, joint) in option.cuts.iter().enumerate() {
        let name = format!("{name}, joint {}", index + 1);
        cut(case, option, joint, &name, docket);
    }
    cover(case, option, set, name, docket);
    for spliced in &option.lines {
        match set.lines.iter().find(|l| l.part == spliced.part) {
            Some(own) => {
                docket.same(spliced.form, set.form, Rule::SpliceReachForm, name);
                splice::line(case, own, spliced, docket);
            }
            None => docket.say(
                Rule::KitPieces,
                name,
                format!("{} is no horizontal of this gate", spliced.part),
            ),
        }
    }
    if let [a, b] = set.lines.as_slice() {
        splice::stagger(case, set, (a, b), &option.lines, docket);
    }
}

/// Running marks, fit and floor of one local joint.
fn cut(case: &Case<'_>, option: &KitOption, joint: &KitJoint, name: &str, docket: &mut Docket) {
    let kit = &case.week.shop.kit;
    let mut at = kit.trim;
    let mut end = kit.trim;
    for piece in &joint.pieces {
        docket.same(piece.start, at, Rule::KitPieceStart, name);
        docket.same(piece.end, piece.start + piece.saw, Rule::KitPieceEnd, name);
        end = at + piece.saw;
        at = end + kit.kerf;
    }
    docket.demand(!joint.pieces.is_empty(), Rule::KitJointEmpty, name, || {
        "nothing is cut from it".to_owned()
    });
    docket.demand(
        end <= option.joint - kit.trim,
        Rule::KitOverfull,
        name,
        || format!("cut to {end} of {}, trim {}", option.joint, kit.trim),
    );
    let rest = option.joint - end;
    docket.same(joint.floor, rest - rest.min(kit.kerf), Rule::KitFloor, name);
}

/// Both horizontals, whole or piece by piece, each once.
fn cover(case: &Case<'_>, option: &KitOption, set: &Set, name: &str, docket: &mut Docket) {
    let mut balance: BTreeMap<(usize, u32, Length, String), i32> = BTreeMap::new();
    for line in &set.lines {
        let mark = case.take_off.parts[line.part].mark.clone();
        match option.lines.iter().find(|s| s.part == line.part) {
            None => {
                docket.same(line.least, 0, Rule::KitPieces, name);
                *balance.entry((line.part, 0, line.whole, mark)).or_default() += 1;
            }
            Some(spliced) => {
                for (n, length) in (1u32..).zip(&spliced.pieces) {
                    let key = (line.part, n, *length, format!("{mark}/{n}"));
                    *balance.entry(key).or_default() += 1;
                }
            }
        }
    }
    for piece in option.cuts.iter().flat_map(|j| &j.pieces) {
        let number = piece.piece.unwrap_or(0);
        let key = (piece.part, number, piece.saw, piece.mark.clone());
        *balance.entry(key).or_default() -= 1;
    }
    for ((_, _, length, mark), n) in balance {
        docket.demand(n == 0, Rule::KitPieces, name, || {
            format!("{mark} of {length}: {n} missing (negative: too many)")
        });
    }
    docket.demand(
        option.lines.len() <= set.lines.len(),
        Rule::KitPieces,
        name,
        || format!("{} spliced lines", option.lines.len()),
    );
}
