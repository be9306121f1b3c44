//! The judge's own parts against the take-off: every variant agrees, every spoiled figure is named.

use crate::judge::{demo, names, of_parts, print};
use crate::{judge, tiny};
use longpoint::gate::Role;
use longpoint::measure::Length;
use longpoint::order::{Bays, CutMethod, GateOrder, Lean, Variant, Week};
use longpoint::part::{CopeEnd, TakeOff, take_off};

fn taken(week: &Week) -> TakeOff {
    let (take_off, impossible) = take_off(week);
    assert!(impossible.is_empty(), "{impossible:?}");
    take_off
}

fn agrees(week: &Week) {
    let found = of_parts(week, &taken(week));
    assert!(found.is_empty(), "{}", print(&found));
}

fn long(mark: &str, feet: i64) -> GateOrder {
    let mut gate = tiny::gate(mark);
    gate.opening = tiny::feet(feet, 0.0);
    gate.tail = gate.opening.geometric() / 2.0;
    gate.leaf = gate.opening.geometric() + tiny::feet(1, 0.0).geometric() + gate.tail;
    gate
}

#[test]
fn the_worked_gate_and_longer_ones_agree() {
    agrees(&tiny::week(vec![
        tiny::gate("A1"),
        long("A2", 20),
        long("A3", 30),
    ]));
}

#[test]
fn radial_cuts_agree() {
    let mut week = tiny::week(vec![long("A2", 20)]);
    week.shop.gate.horizontal_cut = CutMethod::Radial;
    week.shop.gate.vertical_cut = CutMethod::Radial;
    week.shop.gate.diagonal_cut = CutMethod::Radial;
    agrees(&week);
}

#[test]
fn both_leans_agree() {
    let mut week = tiny::week(vec![long("A2", 20)]);
    week.shop.gate.lean = Lean::HeadToLatch;
    agrees(&week);
}

#[test]
fn moved_landings_agree() {
    for inches in [0.5, 1.5, 4.0] {
        let mut week = tiny::week(vec![long("A2", 20)]);
        week.shop.gate.landing_offset = tiny::inches(inches);
        agrees(&week);
    }
}

#[test]
fn through_horizontals_stops_and_risers_agree() {
    let mut barbed = long("A2", 20);
    barbed.barbed = 3;
    let mut week = tiny::week(vec![barbed]);
    week.shop.gate.variant = Variant::Through;
    agrees(&week);
    week.shop.gate.barbed_risers = true;
    week.shop.gate.roller_on_top = false;
    agrees(&week);
    week.shop.gate.variant = Variant::PostsRunPast;
    agrees(&week);
}

#[test]
fn unequal_posts_and_given_bay_lines_agree() {
    let mut week = tiny::week(vec![tiny::gate("A1")]);
    week.pipes.push(tiny::pipe("2-7/8 SS40", "2.875", "0.203"));
    week.gates[0].pipes.tail_post = longpoint::order::PipeId(2);
    agrees(&week);
    let at = [50.0, 105.0, 160.0, 200.0].map(tiny::inches).to_vec();
    week.gates[0].bays = Bays::Lines(at);
    agrees(&week);
    week.gates[0].bays = Bays::Count(6);
    agrees(&week);
}

#[test]
fn a_sway_brace_agrees() {
    let mut week = tiny::week(vec![long("A3", 30)]);
    week.gates[0].sway = true;
    agrees(&week);
}

#[test]
fn the_demo_weeks_agree() {
    let folders = judge::demos();
    assert!(folders.contains(&"demo_us".to_owned()), "{folders:?}");
    for folder in folders {
        agrees(&demo(&folder));
    }
}

/// A change to a sound take-off.
type Spoil = fn(&mut TakeOff);

fn cope(t: &mut TakeOff) -> &mut longpoint::part::Cope {
    let diagonal = t.parts.iter_mut().find(|p| p.top_line.is_some());
    match &mut diagonal.expect("the gate has diagonals").ends[0] {
        CopeEnd::Coped(cope) => cope,
        CopeEnd::Square { .. } => panic!("a diagonal is coped"),
    }
}

fn diagonal(t: &mut TakeOff) -> &mut longpoint::gate::Member {
    let members = t.frames[0].members.iter_mut();
    let found = members.into_iter().find(|m| m.role == Role::Diagonal);
    found.expect("the gate has diagonals")
}

const SPOILED: [(&str, Spoil); 31] = [
    ("cope-setback", |t| cope(t).cut.s_long += 1.0),
    ("cope-setback", |t| cope(t).at_pi += 1.0),
    ("cope-cutback", |t| cope(t).cut.cutback += 1.0),
    ("cope-clock", |t| cope(t).cut.theta_long += 0.1),
    ("cope-meets", |t| cope(t).meets[0].phi += 0.1),
    ("cope-meets", |t| cope(t).meets[0].beta += 0.1),
    ("cope-end", |t| {
        t.parts[0].ends[0] = CopeEnd::Square { capped: true }
    }),
    ("bay-angle", |t| t.frames[0].bays[1].alpha += 0.01),
    ("frame-member", |t| {
        let member = diagonal(t);
        std::mem::swap(&mut member.start.x, &mut member.end.x);
    }),
    ("frame-member", |t| {
        t.frames[0].members.pop();
    }),
    ("part-long-point", |t| t.parts[0].long_exact += 1.0),
    ("part-saw", |t| t.parts[0].saw += Length::from_64ths(4)),
    ("part-throat", |t| t.parts[0].throat_exact -= 1.0),
    ("part-throat", |t| {
        t.parts[0].throat += Length::from_64ths(4)
    }),
    ("part-axis", |t| t.parts[0].axis += 1.0),
    ("part-weight", |t| t.parts[0].weight *= 1.01),
    ("part-ours", |t| t.parts[0].ours = false),
    ("part-count", |t| t.parts[0].count += 1),
    ("part-count", |t| t.parts[0].per_gate += 1),
    ("part-mark", |t| t.parts[0].mark = "A1-X".into()),
    ("part-mark", |t| t.parts[0].mark = t.parts[1].mark.clone()),
    ("part-missing", |t| {
        t.parts.remove(0);
    }),
    ("part-top-line", |t| {
        let d = t.parts.iter_mut().find(|p| p.top_line.is_some());
        if let Some(line) = d.and_then(|p| p.top_line.as_mut()) {
            *line += 2.0;
        }
    }),
    ("part-under-line", |t| {
        let d = t.parts.iter_mut().find(|p| p.under_line.is_some());
        if let Some(line) = d.and_then(|p| p.under_line.as_mut()) {
            *line += 2.0;
        }
    }),
    ("bay-line", |t| t.frames[0].bay_lines[1] += 10.0),
    ("bay-count", |t| {
        t.frames[0].bay_lines.pop();
    }),
    ("frame-leaf", |t| t.frames[0].leaf += 10.0),
    ("frame-height", |t| t.frames[0].axis_height += 10.0),
    ("check-measure", |t| t.frames[0].check_measure += 10.0),
    ("rollers", |t| t.frames[0].rollers.spacing += 10.0),
    ("frame-twice", |t| t.frames.push(t.frames[0].clone())),
];

#[test]
fn every_spoiled_figure_is_named() {
    let week = tiny::week(vec![tiny::gate("A1")]);
    for (rule, spoil) in SPOILED {
        let mut spoiled = taken(&week);
        spoil(&mut spoiled);
        let found = of_parts(&week, &spoiled);
        assert!(
            names(&found, rule),
            "{rule} not named in:\n{}",
            print(&found)
        );
    }
}
