//! The judge's limits to the day, the mark and the tick: what stands just at a limit passes, one step further is
//! named. A limit that is loosened by a day or an inch cuts wrong pipe and is seen nowhere else.

use longpoint::check::{Rule, Violation, violations};
use longpoint::measure::Length;
use longpoint::order::{Supplier, Week};
use longpoint::plan::{JointSource, Plan};

use crate::judge::{names, of_parts, planned, print};
use crate::tiny;
use crate::tiny_week::{landed, money, of, quote, week};
use jiff::civil::date;

/// Joints that come on the very day they are wanted serve the gate; a day later they do not, and plan and judge
/// agree on either side of that day.
#[test]
fn a_joint_serves_until_the_day_it_is_wanted_and_no_longer() {
    for shop_days in [0, 1, 3] {
        for late in [0, 1, 2] {
            let mut week = week();
            week.shop.buying.order_date = Some(date(2026, 2, 27));
            week.shop.buying.shop_days = shop_days;
            week.quotes.push(quote(tiny::HEAVY, 40, "120.00"));
            for quote in &mut week.quotes {
                let long = quote.nominal > tiny::feet(24, 0.0);
                quote.terms.lead_days = Some(if long { 8 } else { 1 });
            }
            // The 40s come on 2026-03-07.
            let mut due = date(2026, 3, 7);
            for _ in 0..shop_days {
                due = due.tomorrow().expect("a day");
            }
            for _ in 0..late {
                due = due.yesterday().expect("a day");
            }
            week.gates.iter_mut().for_each(|g| g.due = Some(due));
            let (take_off, plan) = planned(&week);
            let found = violations(&week, &take_off, &plan);
            assert!(found.is_empty(), "{shop_days} {late}: {}", print(&found));
            let long = |j: &longpoint::plan::PlannedJoint| j.length > tiny::feet(24, 0.0);
            let taken = plan.joints.iter().any(long);
            assert_eq!(
                taken,
                late == 0,
                "{shop_days} days in the shop, {late} late"
            );
            if !taken {
                continue;
            }
            // The same plan with the gates wanted a day sooner.
            for gate in &mut week.gates {
                gate.due = Some(due.yesterday().expect("a day"));
            }
            let found = violations(&week, &take_off, &plan);
            assert!(names(&found, Rule::JointLate), "{}", print(&found));
        }
    }
}

/// A long gate out of 21s: each of its horizontals in four pieces or more.
fn long_week() -> Week {
    let mut gate = tiny::gate("A1");
    gate.opening = tiny::feet(52, 0.0);
    gate.tail = tiny::feet(26, 0.0).geometric();
    gate.leaf = tiny::feet(79, 0.0).geometric();
    let mut week = tiny::week(vec![gate]);
    week.quotes = vec![
        quote(tiny::HEAVY, 24, "74.40"),
        quote(tiny::LIGHT, 21, "46.20"),
    ];
    week
}

/// What the judge says of a sound plan where a splice rule is put just there.
fn said(week: &Week, change: impl Fn(&mut Week)) -> Vec<Violation> {
    let (take_off, plan) = planned(week);
    let mut other = week.clone();
    change(&mut other);
    violations(&other, &take_off, &plan)
}

/// Whether a rule speaks of a splice or piece that stands too near or is too short, not of the setting itself.
fn speaks(found: &[Violation], rule: Rule, words: &str) -> bool {
    found
        .iter()
        .any(|v| v.rule == rule && v.detail.contains(words))
}

fn whole_ticks(x: f64) -> Length {
    Length::floor_mark(x, Length::from_ticks(1))
}

/// Least distance of a top splice from a bottom splice of one gate.
fn stagger(plan: &Plan) -> f64 {
    let mut least = f64::INFINITY;
    for a in &plan.spliced {
        let others = plan
            .spliced
            .iter()
            .filter(|b| b.copy == a.copy && b.part != a.part);
        for b in others {
            for (p, q) in a
                .splices
                .iter()
                .flat_map(|s| b.splices.iter().map(move |t| (s, t)))
            {
                if let (Some(x), Some(y)) = (p.x, q.x) {
                    least = least.min((x - y).abs());
                }
            }
        }
    }
    least
}

#[test]
fn splices_may_stand_just_the_stagger_apart_and_not_a_tick_less() {
    let mut week = week();
    week.gates.truncate(1);
    let (_, plan) = planned(&week);
    let apart = whole_ticks(stagger(&plan));
    let found = said(&week, |w| w.shop.splice.stagger = apart);
    assert!(
        !speaks(&found, Rule::SpliceStagger, "in apart"),
        "{}",
        print(&found)
    );
    let found = said(&week, |w| {
        w.shop.splice.stagger = apart + Length::from_ticks(1)
    });
    assert!(
        speaks(&found, Rule::SpliceStagger, "in apart"),
        "{}",
        print(&found)
    );
}

#[test]
fn a_piece_may_be_just_the_least_and_not_a_mark_shorter() {
    let week = long_week();
    let (_, plan) = planned(&week);
    let mark = week.shop.saw.mark;
    let pieces = plan.spliced.iter().flat_map(|l| &l.pieces);
    let shortest = *pieces.min().expect("pieces");
    let found = said(&week, |w| w.shop.splice.least_piece = shortest);
    assert!(
        !speaks(&found, Rule::SpliceLeastPiece, "a piece of"),
        "{}",
        print(&found)
    );
    let found = said(&week, |w| w.shop.splice.least_piece = shortest + mark);
    assert!(
        speaks(&found, Rule::SpliceLeastPiece, "a piece of"),
        "{}",
        print(&found)
    );
}

#[test]
fn a_root_gap_is_no_less_than_asked() {
    let week = long_week();
    let (_, plan) = planned(&week);
    let least = plan
        .spliced
        .iter()
        .map(|l| l.gap)
        .fold(f64::INFINITY, f64::min);
    let found = said(&week, |w| {
        w.shop.splice.root_gap = whole_ticks(least) + Length::MM
    });
    assert!(
        speaks(&found, Rule::SpliceGap, "together"),
        "{}",
        print(&found)
    );
}

/// The nearest first and third splice of a line.
fn three(plan: &Plan) -> f64 {
    let lines = plan.spliced.iter();
    let threes = lines.flat_map(|l| l.splices.windows(3));
    threes
        .map(|w| w[2].centre - w[0].centre)
        .fold(f64::INFINITY, f64::min)
}

/// Three splices must be over the distance apart: just at it they are too near.
#[test]
fn three_splices_just_at_the_distance_are_too_near() {
    let mut just = 0;
    for ticks in 0..4 {
        let mut week = long_week();
        week.gates[0].leaf += f64::from(ticks);
        week.gates[0].tail += f64::from(ticks);
        let (take_off, plan) = planned(&week);
        let found = violations(&week, &take_off, &plan);
        assert!(found.is_empty(), "{}", print(&found));
        let near = three(&plan);
        assert!(near.is_finite(), "a line of three splices");
        let whole = whole_ticks(near);
        let named = |within: Length| {
            let mut other = week.clone();
            other.shop.splice.three_within = within;
            names(&violations(&other, &take_off, &plan), Rule::SpliceThreeNear)
        };
        assert!(!named(whole - Length::from_ticks(1)));
        assert!(named(whole + Length::from_ticks(1)));
        // Splices lie on whole sixths of a tick here: where their distance is a whole tick, it is too near.
        if (whole.geometric() - near).abs() < 0.1 {
            assert!(named(whole));
            just += 1;
            break;
        }
    }
    assert!(just > 0, "no distance is whole");
}

/// Freight at its edges: a joint as long as a step, prices of just the amount from which it is free, a drop of just
/// the keep length, a price from one joint on, which is no break.
#[test]
fn money_at_its_edges_passes() {
    let mut week = landed();
    // One 21 is 63.00; the step goes to just 21 ft.
    week.gates.truncate(1);
    week.gates[0] = tiny::gate("A1");
    week.extras.clear();
    week.rack.clear();
    week.shop.money.spares.clear();
    week.quotes = vec![
        of("Ada", quote(tiny::HEAVY, 21, "63.00")),
        of("Ada", quote(tiny::LIGHT, 21, "46.20")),
    ];
    week.quotes[0].terms.from = 1;
    week.suppliers.truncate(1);
    week.suppliers[0].free_over = None;
    let (take_off, plan) = planned(&week);
    let found = violations(&week, &take_off, &plan);
    assert!(found.is_empty(), "{}", print(&found));
    let ledger = plan.ledger.expect("priced");
    // No joint is longer than 21 ft: the first step, 65.
    assert_eq!(ledger.freight, money("65"));
    // Tax is of the taxed quote alone.
    let mut untaxed = week.clone();
    untaxed.quotes[1].terms.untaxed = true;
    let (take_off, plan) = planned(&untaxed);
    let found = violations(&untaxed, &take_off, &plan);
    assert!(found.is_empty(), "{}", print(&found));
    let line = plan.buy.iter().find(|b| b.quote == 1).expect("light pipe");
    assert_eq!(line.tax, Some(money("0")));
    let heavy = plan.buy.iter().find(|b| b.quote == 0).expect("heavy pipe");
    assert_eq!(plan.ledger.map(|l| l.tax), heavy.tax);
    // Prices before tax that come to just the amount: the first step is free.
    let mut free = week.clone();
    free.suppliers[0].free_over = Some(ledger.pipe);
    let (take_off, plan) = planned(&free);
    let found = violations(&free, &take_off, &plan);
    assert!(found.is_empty(), "{}", print(&found));
    assert_eq!(plan.ledger.expect("priced").freight, money("0"));
    let mut minimum = week.clone();
    minimum.suppliers = vec![Supplier {
        name: "Ada".into(),
        minimum: Some(ledger.pipe),
        ..Supplier::default()
    }];
    let (take_off, plan) = planned(&minimum);
    let found = violations(&minimum, &take_off, &plan);
    assert!(found.is_empty(), "{}", print(&found));
    assert_eq!(plan.ledger.expect("priced").minimum, money("0"));
}

/// A drop is kept from the keep length on: at just it, and a tick under it is scrap.
#[test]
fn a_drop_of_just_the_keep_length_is_kept() {
    let mut week = week();
    week.gates.truncate(2);
    let (_, plan) = planned(&week);
    let drops = plan.joints.iter().map(|j| j.drop);
    let drop = drops
        .filter(|d| *d > Length::INCH * 8)
        .min()
        .expect("a drop");
    for (keep, kept) in [(drop, true), (drop + Length::from_ticks(1), false)] {
        week.shop.money.keep_length = keep;
        let (take_off, plan) = planned(&week);
        let found = violations(&week, &take_off, &plan);
        assert!(found.is_empty(), "{}", print(&found));
        for joint in &plan.joints {
            assert_eq!(joint.kept, joint.drop >= keep, "joint {}", joint.number);
            let just = joint.drop == drop;
            assert!(!just || joint.kept == kept);
        }
    }
}

/// A joint that leaves just the limit need not be measured first; one that leaves a tick less must.
#[test]
fn a_joint_that_leaves_just_the_limit_is_not_measured_first() {
    let mut week = week();
    week.gates.truncate(2);
    let (_, plan) = planned(&week);
    let left = plan.joints.iter().map(|j| j.leftover);
    let left = left.filter(|l| *l > Length::ZERO).min().expect("a rest");
    for (limit, first) in [(left, false), (left + Length::from_ticks(1), true)] {
        week.shop.saw.measure_first_under = limit;
        let (take_off, plan) = planned(&week);
        let found = violations(&week, &take_off, &plan);
        assert!(found.is_empty(), "{}", print(&found));
        let just = plan.joints.iter().filter(|j| j.leftover == left);
        let said: Vec<bool> = just.map(|j| j.measure_first).collect();
        assert!(
            !said.is_empty() && said.iter().all(|s| *s == first),
            "{limit}"
        );
    }
}

/// Spares are bought at a price that their own count earns.
#[test]
fn spares_are_not_bought_at_a_break_they_do_not_reach() {
    let mut week = week();
    let mut many = quote(tiny::LIGHT, 21, "40.00");
    many.terms.from = 50;
    week.quotes.push(many);
    let (take_off, plan) = planned(&week);
    let found = violations(&week, &take_off, &plan);
    assert!(found.is_empty(), "{}", print(&found));
    let spare = plan.spares.first().expect("a spare");
    assert_eq!(spare.money, Some(money("46.20")));
    // At the break its count does reach the spare would be at the dearer price: named.
    week.shop.money.spares = vec![(tiny::LIGHT, 50)];
    let found = violations(&week, &take_off, &plan);
    assert!(names(&found, Rule::SpareQuote), "{}", print(&found));
}

/// What is trimmed from a rack piece is what its row says, at either end.
#[test]
fn clean_ends_of_rack_pieces_are_not_trimmed() {
    for (near, far) in [(true, true), (true, false), (false, true), (false, false)] {
        let mut week = week();
        (week.rack[0].near_trim, week.rack[0].far_trim) = (near, far);
        week.shop.saw.far_trim = Length::INCH;
        let (take_off, plan) = planned(&week);
        let found = violations(&week, &take_off, &plan);
        assert!(found.is_empty(), "{near} {far}: {}", print(&found));
        let of_rack =
            |j: &&longpoint::plan::PlannedJoint| matches!(j.source, JointSource::Rack(..));
        for joint in plan.joints.iter().filter(of_rack) {
            assert_eq!(joint.near > Length::ZERO, near);
            assert_eq!(joint.far > Length::ZERO, far);
        }
    }
}

/// Bays of just the limit are over it, whatever noise their division leaves: plan and judge count alike.
#[test]
fn bays_of_just_the_limit_count_as_over() {
    for n in [3, 7, 9, 11, 13] {
        for limit in [41.1, 55.3, 60.7, 67.9] {
            let mut gate = tiny::gate("A1");
            let od = 2.375 * 8128.0;
            let limit_ticks = tiny::inches(limit);
            gate.leaf = limit_ticks.geometric() * f64::from(n) + od;
            gate.opening = whole_ticks(gate.leaf / 2.0);
            gate.tail = gate.leaf - gate.opening.geometric() - tiny::inches(12.0).geometric();
            let mut week = tiny::week(vec![gate]);
            week.shop.gate.bay_limit = limit_ticks;
            let (take_off, _) = longpoint::part::take_off(&week);
            let found = of_parts(&week, &take_off);
            assert!(found.is_empty(), "{n} of {limit}: {}", print(&found));
            let lines = &take_off.frames[0].bay_lines;
            assert_eq!(
                lines.len(),
                usize::try_from(n).expect("few") + 2,
                "{n} of {limit}"
            );
        }
    }
}
