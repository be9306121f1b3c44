//! Where splices may stand by the gate's own bending, each rule on both sides of its limit, on the
//! demo weeks (invented).

use crate::demo;
use longpoint::measure::Length;
use longpoint::order::{Carrier, Week};
use longpoint::part::{TakeOff, take_off};
use longpoint::report::bending::{Bending, drawing, text};
use longpoint::report::svg;
use longpoint::splice::{ReachForm, SpliceSet, WindowClass, inward, places, sets};
use longpoint::statics::{Envelope, Line};
use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive;

fn demo() -> (Week, TakeOff, usize) {
    let week = demo::week("demo_us");
    let (take_off, out) = take_off(&week);
    assert!(out.is_empty());
    let gate = week
        .gates
        .iter()
        .position(|g| g.mark == "A7")
        .expect("A7 is over 40 ft");
    (week, take_off, gate)
}

fn open(week: &Week, take_off: &TakeOff, gate: usize) -> SpliceSet {
    places(week, take_off, gate).expect("it has a frame")
}

fn bending(set: &SpliceSet) -> &Envelope {
    assert_eq!(set.form, ReachForm::Envelope);
    set.bending.as_deref().expect("computed")
}

/// Every window of every horizontal: (line, bay, from x, to x, index).
fn each(set: &SpliceSet, mut look: impl FnMut(Line, &longpoint::splice::Window, f64, f64)) {
    for line in &set.lines {
        for window in &line.windows {
            let x = |p: Length| (line.x_long + p).geometric();
            let which = line.horizontal.expect("a horizontal");
            look(which, window, x(window.lo), x(window.hi));
        }
    }
}

#[test]
fn roller_bays_are_those_that_peak_at_the_settings_share() {
    let (mut week, take_off, gate) = demo();
    let set = open(&week, &take_off, gate);
    let found = bending(&set);
    let share = found.bay_peak(Line::Bottom, 3) / found.peak();
    for (from, expected) in [(share - 1e-6, true), (share + 1e-6, false)] {
        week.shop.splice.roller_bay_from = Decimal::from_f64(from).expect("a share");
        let set = open(&week, &take_off, gate);
        let mut seen = 0;
        each(&set, |line, window, _, _| {
            if line == Line::Bottom && window.bay == 3 {
                assert_eq!(window.roller_bay, expected);
                seen += 1;
            }
        });
        assert!(seen > 0);
    }
}

#[test]
fn windows_of_roller_bays_stay_near_verticals_and_stresses_keep_their_class() {
    for folder in ["demo_us", "demo_metric"] {
        let week = demo::week(folder);
        let (take_off, _) = take_off(&week);
        for gate in 0..week.gates.len() {
            let set = open(&week, &take_off, gate);
            let found = bending(&set);
            each(&set, |line, window, from, to| {
                let bay = usize::try_from(window.bay).expect("small");
                let (start, end) = (found.line_at(bay - 1), found.line_at(bay));
                let peak = found.bay_peak(line, bay) / found.peak();
                assert_eq!(window.roller_bay, peak >= 0.35, "{folder} {gate} bay {bay}");
                if window.roller_bay {
                    let reach = 0.20 * (end - start) + 1.0;
                    assert!(to <= start + reach || from >= end - reach);
                }
                let middle = (from + to) / 2.0;
                for x in [from + 2.0, middle, to - 2.0] {
                    let rel = found.rel(line, x.clamp(from, to));
                    match window.class {
                        WindowClass::Plain => assert!(rel <= 0.35),
                        WindowClass::Charged => assert!(rel <= 0.60),
                        WindowClass::ByOrder => panic!("none is made"),
                    }
                }
                let charged = window.class == WindowClass::Charged;
                let charge = week.shop.splice.class_charge;
                assert_eq!(window.charge == charge, charged);
            });
        }
    }
}

#[test]
fn stress_limits_open_and_close_windows() {
    let (mut week, take_off, gate) = demo();
    let count = |week: &Week| {
        let (mut plain, mut charged) = (0, 0);
        each(
            &open(week, &take_off, gate),
            |_, window, _, _| match window.class {
                WindowClass::Plain => plain += 1,
                _ => charged += 1,
            },
        );
        (plain, charged)
    };
    let normal = count(&week);
    assert!(normal.0 > 0 && normal.1 > 0);
    week.shop.splice.refuse_over = week.shop.splice.charge_over;
    assert_eq!(count(&week).1, 0, "nothing over 0.35 is left");
    week.shop.splice.charge_over = Decimal::ONE;
    week.shop.splice.refuse_over = Decimal::ONE;
    assert_eq!(count(&week).1, 0, "nothing is charged");
    assert!(count(&week).0 >= normal.0);
}

/// Over the refused share only where the order permits it, in a class of its own with its own charge.
#[test]
fn only_an_order_opens_windows_at_high_stress() {
    let (mut week, take_off, gate) = demo();
    let limit = week.shop.splice.charge_over;
    week.shop.splice.refuse_over = limit;
    let seen = |week: &Week| {
        let set = open(week, &take_off, gate);
        let mut high = 0;
        each(&set, |line, window, from, to| {
            let rel = bending(&set).rel_over(line, from + 2.0, to - 2.0);
            let over = rel > 0.35;
            assert_eq!(window.class == WindowClass::ByOrder, over, "rel {rel}");
            if over {
                assert_eq!(window.charge, week.shop.splice.high_stress_charge);
                high += 1;
            }
        });
        high
    };
    assert_eq!(seen(&week), 0);
    week.gates[gate].high_stress = true;
    assert!(seen(&week) > 0);
    week.shop.splice.refuse_over = Decimal::ONE;
    let set = open(&week, &take_off, gate);
    each(&set, |_, window, _, _| {
        assert_ne!(
            window.class,
            WindowClass::ByOrder,
            "nothing is over the peak"
        );
    });
}

/// Text and drawing of a gate whose order permits high stress say so; those of others do not.
#[test]
fn what_an_order_permits_is_shown() {
    let (mut week, take_off, gate) = demo();
    for permitted in [false, true] {
        week.gates[gate].high_stress = permitted;
        let view = Bending::of(&week, &take_off, gate).expect("it has a frame");
        let drawn = svg::file(&drawing(&view));
        assert_eq!(text(&view).contains("high stress by order"), permitted);
        assert_eq!(drawn.contains("by order over"), permitted);
        assert_eq!(drawn.contains("crossed: high stress"), permitted);
        assert_eq!(drawn.contains("none over"), !permitted);
    }
}

/// Printed ends of windows lie inside them, but for windows between two marks.
#[test]
fn printed_windows_are_rounded_inward() {
    let (week, take_off, gate) = demo();
    let mark = week.shop.saw.mark;
    each(&open(&week, &take_off, gate), |_, window, _, _| {
        let (lo, hi) = window.marks(mark);
        assert!(window.hi - window.lo < mark || (window.lo <= lo && hi <= window.hi));
        assert!(lo <= hi && lo == lo.down_to(mark) && hi == hi.down_to(mark));
    });
    let narrow = |a: i64, b: i64| (Length::from_64ths(a), Length::from_64ths(b));
    assert_eq!(inward(narrow(5, 7), mark), narrow(4, 8));
    assert_eq!(inward(narrow(5, 11), mark), narrow(8, 8));
}

/// What an order says of its rollers and loads stands before the shop's.
#[test]
fn an_order_says_its_own_rollers_and_loads() {
    let (mut week, take_off, gate) = demo();
    let plain = open(&week, &take_off, gate);
    let order = &mut week.gates[gate];
    order.rolling.load_factor = Some(Decimal::TWO);
    let heavy = open(&week, &take_off, gate);
    let ratio = bending(&heavy).peak() / bending(&plain).peak();
    assert!((ratio - 2.0).abs() < 1e-9);
    week.gates[gate].rolling.load_factor = None;
    week.gates[gate].rolling.fabric_weight = Some(Decimal::TWO);
    let fabric = open(&week, &take_off, gate);
    assert!(bending(&fabric).weight > bending(&plain).weight + 100.0);
    week.gates[gate].rolling.fabric_weight = None;
    week.gates[gate].rolling.carrier = Some(Carrier::Top);
    let hung = open(&week, &take_off, gate);
    assert!(bending(&hung).worst(Line::Top).stress > bending(&hung).worst(Line::Bottom).stress);
    assert_eq!(
        week.shop.gate.carrier,
        Carrier::Bottom,
        "the shop's stands for the others"
    );
    week.gates[gate].rolling.lead = Some(Length::from_mm(254));
    let frame = longpoint::gate::build(&week, gate).expect("it can be made");
    assert_eq!(frame.rollers.front_open, 254.0 * 320.0);
    let opening = week.gates[gate].opening.geometric();
    assert_eq!(frame.rollers.front_closed, opening + 254.0 * 320.0);
}

#[test]
fn the_carrier_decides_which_horizontal_works() {
    let (mut week, take_off, gate) = demo();
    let peaks = |week: &Week| {
        let set = open(week, &take_off, gate);
        Line::BOTH.map(|line| bending(&set).worst(line).stress)
    };
    let [bottom, top] = peaks(&week);
    assert!(bottom > 2.0 * top);
    week.shop.gate.carrier = Carrier::Top;
    let [bottom, top] = peaks(&week);
    assert!(top > 2.0 * bottom);
    week.shop.gate.carrier = Carrier::Both;
    let [bottom, top] = peaks(&week);
    assert!((0.8..1.25).contains(&(top / bottom)), "{top} {bottom}");
}

#[test]
fn load_factor_scales_stresses_and_moves_no_window() {
    let (mut week, take_off, gate) = demo();
    let one = open(&week, &take_off, gate);
    week.shop.fabric.load_factor = Decimal::TWO;
    let two = open(&week, &take_off, gate);
    let ratio = bending(&two).peak() / bending(&one).peak();
    assert!((ratio - 2.0).abs() < 1e-9);
    for (a, b) in one.lines.iter().zip(&two.lines) {
        assert_eq!(a.windows, b.windows);
    }
}

/// The naive way: a whole joint from the latch end, the rest spliced on.
#[test]
fn a_whole_joint_from_the_latch_end_breaks_the_rules_somewhere() {
    let (week, take_off, _) = demo();
    let (sets, out) = sets(&week, &take_off);
    assert!(out.is_empty());
    let saw = &week.shop.saw;
    let mut broken = 0;
    for line in sets
        .iter()
        .flat_map(|set| &set.lines)
        .filter(|l| l.horizontal.is_some())
    {
        let pipe = take_off.parts[line.part].pipe;
        let quotes = week.quotes.iter().filter(|q| q.pipe == pipe);
        let longest = quotes.map(|q| q.planning).max().expect("on sale");
        let centre = longest - saw.near_trim - saw.far_trim;
        if line.windows.iter().all(|w| centre < w.lo || w.hi < centre) {
            broken += 1;
        }
    }
    assert!(broken >= 2, "{broken} horizontals");
}
