//! The judge's own parts against the take-off: every variant agrees.

use crate::judge;
use crate::judge::{demo, of_parts, print};
use crate::tiny;
use longpoint::order::{Bays, CutMethod, GateOrder, Lean, Variant, Week};
use longpoint::part::{TakeOff, take_off};

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
    week.gates[0].bays = Bays::Fixed([100.0, 160.0].map(tiny::inches).to_vec());
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
