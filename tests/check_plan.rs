//! Good plans pass the judge, whatever the shop's settings.

mod judge;
mod tiny;
mod tiny_week;

use judge::{demo, demos, planned, print};
use longpoint::check::violations;
use longpoint::measure::{Length, Money, Units};
use longpoint::order::{Carrier, CutMethod, Lean, SplicePolicy, Variant, Week};
use longpoint::plan::Plan;

fn passes(name: &str, week: &Week) -> Plan {
    let (take_off, plan) = planned(week);
    let found = violations(week, &take_off, &plan);
    assert!(found.is_empty(), "{name}:\n{}", print(&found));
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

const SETTINGS: [(&str, Change); 17] = [
    ("as it is", |_| {}),
    ("wherever it pays", |w| {
        w.shop.splice.policy = SplicePolicy::WhereverItPays;
    }),
    ("tolerated reach", |w| w.shop.splice.allow_tolerated = true),
    ("same bay allowed", |w| w.shop.splice.same_bay = true),
    ("hung from the top", |w| w.shop.gate.carrier = Carrier::Top),
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
    week.gates[2].excluded_bays = (1..20).collect();
    let plan = passes("a kit without windows", &week);
    let whole = plan.kits[0].options.iter().filter(|o| o.refused.is_none());
    assert!(whole.count() > 0, "{:?}", plan.kits[0]);
}
