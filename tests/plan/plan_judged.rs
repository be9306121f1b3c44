//! Seeded random weeks under random rules: whatever the plan room makes, the judge passes.
//!
//! Gates of the demo week with openings, heights, counts and excluded bays drawn anew; lean,
//! carrier, policy, clear distances, offsets, brackets, hold-back and prices too. What is
//! impossible is left out by name.

use crate::demo;
use crate::dice::Dice;
use longpoint::check::violations;
use longpoint::measure::{INCH, Length};
use longpoint::nest::Limits;
use longpoint::order::{Carrier, Lean, SplicePolicy, Variant, Week};
use longpoint::part::take_off;
use longpoint::plan::{PlanOptions, make};

fn shop(week: &mut Week, dice: &mut Dice) {
    let shop = &mut week.shop;
    if dice.whether(2) {
        shop.gate.lean = Lean::HeadToLatch;
    }
    shop.gate.carrier = [Carrier::Bottom, Carrier::Top, Carrier::Both][dice.below(3) as usize];
    if dice.whether(3) {
        shop.splice.policy = SplicePolicy::WhereverItPays;
    }
    shop.splice.allow_tolerated = dice.whether(2);
    shop.splice.same_bay = dice.whether(2);
    if dice.whether(3) {
        shop.gate.landing_offset = dice.sixteenths(1, 3);
    }
    if dice.whether(3) {
        shop.splice.brackets = vec![dice.sixteenths(60, 300)];
    }
    if dice.whether(4) {
        shop.saw.hold_back = dice.sixteenths(2, 9);
    }
    if dice.whether(4) {
        shop.gate.variant = Variant::Through;
    }
    shop.splice.root_gap = Length::from_64ths(i64::try_from(dice.below(9)).expect("small"));
    shop.saw.saws = u32::try_from(1 + dice.below(3)).expect("small");
}

fn gates(week: &mut Week, dice: &mut Dice) {
    let keep = usize::try_from(1 + dice.below(4)).expect("small");
    while week.gates.len() > keep {
        let out = dice.below(week.gates.len() as u64) as usize;
        week.gates.remove(out);
    }
    let overlap = week.shop.gate.latch_overlap + week.shop.gate.roller_overlap;
    for gate in &mut week.gates {
        gate.opening = dice.sixteenths(120, 420);
        gate.height = dice.sixteenths(48, 96);
        gate.tail = (gate.opening.geometric() / 2.0).max(48.0 * INCH);
        gate.latch_overlap = week.shop.gate.latch_overlap;
        gate.roller_overlap = week.shop.gate.roller_overlap;
        gate.leaf = gate.opening.geometric() + overlap.geometric() + gate.tail;
        gate.bays = longpoint::order::Bays::Least;
        gate.count = u32::try_from(1 + dice.below(3)).expect("small");
        gate.sway = dice.whether(3);
        gate.kit = dice.whether(6);
        gate.excluded_bays.clear();
        gate.brackets.clear();
        if dice.whether(4) {
            gate.brackets = vec![dice.sixteenths(60, 180)];
        }
        if dice.whether(4) {
            gate.excluded_bays = vec![u32::try_from(2 + dice.below(4)).expect("small")];
        }
    }
}

fn stock(week: &mut Week, dice: &mut Dice) {
    if dice.whether(4) {
        week.rack.clear();
    }
    for quote in &mut week.quotes {
        if dice.whether(5) {
            quote.available = Some(u32::try_from(dice.below(12)).expect("small"));
        }
        if dice.whether(12) {
            quote.price = None;
        }
    }
}

#[test]
fn whatever_is_planned_the_judge_passes() {
    let base = demo::week("demo_us");
    let (mut planned, mut spliced, mut left_out) = (0, 0, 0);
    for seed in 0..30 {
        let mut dice = Dice(seed);
        let mut week = base.clone();
        shop(&mut week, &mut dice);
        gates(&mut week, &mut dice);
        stock(&mut week, &mut dice);
        let (parts, impossible) = take_off(&week);
        let options = PlanOptions {
            partial: true,
            limits: Limits {
                work: 100_000,
                time: None,
            },
            left_out: impossible,
            ..PlanOptions::default()
        };
        let Ok(plan) = make(&week, &parts, &options) else {
            continue;
        };
        let found = violations(&week, &parts, &plan);
        assert!(found.is_empty(), "seed {seed}: {found:#?}");
        planned += 1;
        spliced += plan.spliced.len();
        left_out += plan.left_out.len();
    }
    println!("{planned} weeks planned, {spliced} lines spliced, {left_out} left out");
    assert!(planned >= 25 && spliced >= 40 && left_out > 0);
}
