//! Good plans pass the judge, whatever the shop's settings.

use std::time::Duration;

use crate::dice::Dice;
use crate::judge::{demo, demos, partly_planned, print};
use crate::{tiny, tiny_week};
use longpoint::check::{check, violations};
use longpoint::measure::{Length, Money, Units};
use longpoint::order::{Carrier, CutMethod, Lean, SplicePolicy, Variant, Week};
use longpoint::plan::Plan;

/// Long enough for a plan with a bound, short enough for many.
const TIME: Option<Duration> = Some(Duration::from_millis(500));

fn passes(name: &str, week: &Week) -> Plan {
    let (take_off, plan) = partly_planned(week, TIME);
    assert!(plan.left_out.is_empty(), "{name}: {:?}", plan.left_out);
    let found = violations(week, &take_off, &plan);
    assert!(found.is_empty(), "{name}:\n{}", print(&found));
    let checked = check(week.clone(), take_off, plan.clone()).expect("no rule is broken");
    crate::spoiled::plan_file::holds(&checked, name);
    plan
}

#[test]
fn the_plans_of_the_demo_weeks_pass() {
    for folder in demos() {
        passes(&folder, &demo(&folder));
    }
}

/// A change to the tiny week.
type Change = fn(&mut Week);

const SETTINGS: [(&str, Change); 22] = [
    ("as it is", |_| {}),
    ("wherever it pays", |w| {
        w.shop.splice.policy = SplicePolicy::WhereverItPays;
    }),
    ("tolerated reach", |w| w.shop.splice.allow_tolerated = true),
    ("same bay allowed", |w| w.shop.splice.same_bay = true),
    ("hung from the top", |w| w.shop.gate.carrier = Carrier::Top),
    ("one gate hung from the top, by its order", |w| {
        w.gates[0].rolling.carrier = Some(Carrier::Top);
        w.gates[0].rolling.lead = Some(tiny::inches(9.0));
    }),
    ("a wide latch part of the overlap", |w| {
        w.gates[0].latch_overlap = tiny::inches(9.0);
        w.gates[0].roller_overlap = tiny::inches(3.0);
    }),
    ("splices at high stress, by order", |w| {
        w.shop.splice.charge_over = tiny::dec("0.05");
        w.shop.splice.refuse_over = tiny::dec("0.05");
        w.gates.iter_mut().for_each(|g| g.high_stress = true);
    }),
    ("reversed lean", |w| w.shop.gate.lean = Lean::HeadToLatch),
    ("through", |w| w.shop.gate.variant = Variant::Through),
    ("radial", |w| w.shop.gate.horizontal_cut = CutMethod::Radial),
    ("moved landings", |w| {
        w.shop.gate.landing_offset = tiny::inches(1.5)
    }),
    ("no prices", |w| w.quotes[0].price = None),
    ("no trims, a hold-back", |w| {
        w.shop.saw.near_trim = Length::ZERO;
        w.shop.saw.far_trim = Length::ZERO;
        w.shop.saw.hold_back = Length::INCH * 3;
    }),
    ("no keeping", |w| {
        w.shop.money.keep_length = tiny::feet(90, 0.0)
    }),
    ("three saws", |w| w.shop.saw.saws = 3),
    ("a bracket", |w| {
        w.shop.splice.brackets = vec![tiny::feet(9, 0.0)];
        w.shop.splice.bracket_half_width = Length::INCH;
    }),
    ("a bracket of one gate", |w| {
        w.gates[0].brackets = vec![tiny::feet(9, 0.0)];
        w.shop.splice.bracket_half_width = Length::INCH;
    }),
    ("a bay line fixed", |w| {
        w.gates[0].bays = longpoint::order::Bays::Fixed(vec![tiny::feet(9, 0.0)]);
    }),
    ("an excluded bay", |w| w.gates[0].excluded_bays = vec![3]),
    ("a long sway brace", |w| {
        w.gates[0].sway = true;
    }),
    ("metric marks", |w| {
        w.shop.units = Units::Metric;
        w.shop.saw.mark = Length::MM;
        w.shop.saw.kerf = Length::from_ticks(880);
        w.shop.splice.root_gap = Length::from_mm(2);
    }),
];

#[test]
fn plans_pass_under_other_settings() {
    for (name, change) in SETTINGS {
        let mut week = tiny_week::week();
        change(&mut week);
        passes(name, &week);
    }
}

fn feet(dice: &mut Dice, n: u64) -> i64 {
    i64::try_from(dice.below(n)).expect("small")
}

/// A random week of gates, due dates, rack pieces and settings.
fn random(dice: &mut Dice) -> Week {
    let mut week = tiny_week::week();
    week.gates.clear();
    for n in 0..=dice.below(3) {
        let mut gate = tiny::gate(&format!("B{n}"));
        gate.count = u32::try_from(dice.below(3)).unwrap_or(1);
        gate.height = dice.inches(60, 79);
        gate.opening = tiny::feet(8 + feet(dice, 22), 0.0) + dice.inches(0, 11);
        gate.tail = gate.opening.geometric() / 2.0;
        gate.leaf = gate.opening.geometric() + tiny::feet(1, 0.0).geometric() + gate.tail;
        gate.due = (dice.below(3) > 0)
            .then(|| jiff::civil::date(2026, 3, 1 + i8::try_from(dice.below(9)).unwrap_or(0)));
        gate.kit = dice.below(6) == 0;
        gate.sway = dice.below(5) == 0;
        gate.barbed = if dice.below(5) == 0 { 3 } else { 0 };
        week.gates.push(gate);
    }
    week.shop.gate.carrier = [Carrier::Bottom, Carrier::Top][usize::from(dice.below(2) > 0)];
    week.shop.gate.lean = [Lean::HeadToTail, Lean::HeadToLatch][usize::from(dice.below(2) > 0)];
    week.quotes[1].available = None;
    week.rack[0].count = u32::try_from(dice.below(3)).unwrap_or(0);
    week.rack[0].length = tiny::feet(6 + feet(dice, 14), 0.0);
    week.shop.saw.saws = 2;
    week
}

#[test]
fn random_weeks_pass_left_out_gates_and_all() {
    let mut dice = Dice(20_260_301);
    let (mut planned, mut left_out) = (0, 0);
    for round in 0..8 {
        let week = random(&mut dice);
        let (take_off, plan) = partly_planned(&week, TIME);
        let found = violations(&week, &take_off, &plan);
        assert!(found.is_empty(), "round {round}:\n{}", print(&found));
        planned += plan.joints.len();
        left_out += plan.left_out.len();
        let checked = check(week, take_off, plan).expect("no rule is broken");
        crate::spoiled::plan_file::holds(&checked, &format!("round {round}"));
    }
    assert!(planned > 30, "{planned} joints");
    println!("{planned} joints, {left_out} left out");
}

#[test]
fn a_kept_drop_never_takes_the_tag_of_a_rack_piece() {
    let mut week = tiny_week::week();
    week.rack[0].tag = "K1".into();
    let plan = passes("a rack piece tagged K1", &week);
    assert!(!plan.kept.is_empty());
}

/// 30 ft at 10.00 is a third per foot; three tenths of it are 0.1, not a hair less.
#[test]
fn the_credit_per_foot_is_rounded_once() {
    let mut week = tiny_week::week();
    week.shop.money.credit_rate = tiny::dec("0.3");
    week.quotes[2].nominal = tiny::feet(30, 0.0);
    week.quotes[2].planning = tiny::feet(30, 0.0);
    week.quotes[2].price = Some(Money(tiny::dec("10.00")));
    let plan = passes("a third per foot", &week);
    let pool = plan.pools.iter().find(|p| p.pipe == tiny::LIGHT);
    let rate = pool.map(|p| p.credit_per_foot);
    assert_eq!(rate, Some(Money(tiny::dec("0.1"))));
}

/// Splices where they pay are an offer: a kit whose horizontals fit whole is not refused for them.
#[test]
fn a_kit_that_fits_whole_is_advised_under_every_policy() {
    let mut week = tiny_week::week();
    week.shop.splice.policy = SplicePolicy::WhereverItPays;
    week.gates[2].excluded_bays = tiny::every_bay(&week, 2);
    let plan = passes("a kit without windows", &week);
    let whole = plan.kits[0].options.iter().filter(|o| o.refused.is_none());
    assert!(whole.count() > 0, "{:?}", plan.kits[0]);
}
