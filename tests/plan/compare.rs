//! A comparison's rows are ordinary plans, its figures add up, and its break-even figures turn where it says.

use crate::{tiny, tiny_week};
use longpoint::check::{CheckedPlan, check};
use longpoint::compare::{
    Change, Comparison, Figures, How, NoSuch, Offer, Outcome, Question, Turn, Variant, Wishes,
    compare,
};
use longpoint::measure::{Length, Money};
use longpoint::nest::Limits;
use longpoint::order::{SplicePolicy, TailRule, Week};
use longpoint::part::take_off;
use longpoint::plan::{PlanOptions, make};

const HOW: How<'static> = How::unwatched(Limits {
    work: 200_000_000,
    time: None,
});

/// Two spliced gates and the worked gate out of two joint lengths of each pipe.
fn week() -> Week {
    let mut week = tiny_week::week();
    week.gates.truncate(2);
    week.quotes = vec![
        tiny_week::quote(tiny::HEAVY, 21, "73.50"),
        tiny_week::quote(tiny::HEAVY, 40, "136.00"),
        tiny_week::quote(tiny::LIGHT, 21, "55.02"),
        tiny_week::quote(tiny::LIGHT, 40, "104.00"),
    ];
    for (line, quote) in (2..).zip(&mut week.quotes) {
        quote.origin = tiny_week::origin(line);
    }
    week
}

fn compared(week: &Week) -> Comparison {
    compare(week, &Wishes::default(), HOW).expect("the week as it stands is a row")
}

/// The ordinary rooms, without the comparison.
fn planned(week: Week) -> CheckedPlan {
    let (taken, left_out) = take_off(&week);
    let options = PlanOptions {
        limits: HOW.limits,
        left_out,
        ..PlanOptions::default()
    };
    let plan = make(&week, &taken, &options).expect("the tiny week can be made");
    check(week, taken, plan).expect("a sound plan")
}

fn named<'a>(comparison: &'a Comparison, name: &str) -> &'a Figures {
    let row = comparison.rows.iter().find(|r| r.name == name);
    let names: Vec<&str> = comparison.rows.iter().map(|r| r.name.as_str()).collect();
    row.and_then(|r| r.figures())
        .unwrap_or_else(|| panic!("{name} is made; rows: {names:?}"))
}

#[test]
fn a_row_is_the_plan_that_the_changed_week_has_by_itself() {
    let week = week();
    let found = compared(&week);
    let mut short = week.clone();
    short.quotes.retain(|q| q.nominal == tiny::feet(21, 0.0));
    // A kept foot counts as with all on sale: half of 136.00 / 40 and of 104.00 / 40.
    short.shop.money.held_credits = vec![
        (tiny::LIGHT, tiny_week::money("1.3")),
        (tiny::HEAVY, tiny_week::money("1.7")),
    ];
    let mut kerf = week.clone();
    kerf.shop.saw.kerf_entered = tiny::inches(0.125);
    kerf.shop.saw.kerf = tiny::inches(0.125);
    let mut tail = week.clone();
    tail.shop.gate.tail = TailRule::Fraction {
        fraction: tiny::dec("0.4"),
        least: tiny::feet(4, 0.0),
    };
    for gate in &mut tail.gates {
        let shorter = (gate.opening.geometric() * 0.4).max(tiny::feet(4, 0.0).geometric());
        gate.leaf = (gate.opening + tiny::feet(1, 0.0)).geometric() + shorter;
        gate.tail = shorter;
    }
    let mut pays = week.clone();
    pays.shop.splice.policy = SplicePolicy::WhereverItPays;
    let mut free = week.clone();
    free.shop.money.credit_rate = tiny::dec("0");
    for (name, changed) in [
        ("as it stands", week),
        ("21 ft alone", short),
        ("kerf 1/8\"", kerf),
        ("tail 0.4 of the opening", tail),
        ("splice wherever it pays", pays),
        ("remnants at 0 %", free),
    ] {
        let (row, own) = (named(&found, name), Figures::of(&planned(changed)));
        // A row may take another's plan, where that is cheaper; it says so.
        match row.remarks.as_slice() {
            [] => assert_eq!(*row, own, "{name}"),
            [said] => assert!(said.contains("cut as found for") && row.total() < own.total()),
            more => panic!("{name}: {more:?}"),
        }
    }
}

#[test]
fn money_splits_without_a_rest_and_joints_add_up() {
    for row in &compared(&week()).rows {
        let Some(made) = row.figures() else { continue };
        let money = made.money.expect("every joint has a price");
        assert_eq!(Some(money.total()), row.total(), "{}", row.name);
        let feet: Length = made.joints.iter().map(|(l, n)| *l * i64::from(*n)).sum();
        assert_eq!(feet, made.bought, "{}", row.name);
        assert!(made.bound <= money.total(), "{}", row.name);
        let waste = made.waste;
        assert_eq!(waste.all_in, waste.lost + waste.kept, "{}", row.name);
    }
}

#[test]
fn a_week_that_cannot_be_made_names_its_gates_in_its_row() {
    let mut week = week();
    week.quotes.retain(|q| q.nominal == tiny::feet(21, 0.0));
    let found = compared(&week);
    let row = found.rows.iter().find(|r| r.name == "no splice");
    let Some(Outcome::Cannot(why)) = row.map(|r| &r.outcome) else {
        panic!("31 ft leaves do not come out of 21 ft joints whole");
    };
    assert!(why.iter().all(|i| i.mark == "A1"), "{why:?}");
    assert!(why[0].reason.contains("may not be spliced"), "{why:?}");
}

#[test]
fn one_and_two_threads_give_one_comparison() {
    let week = week();
    let on = |threads| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads);
        let pool = pool.build().expect("a small pool");
        let found = pool.install(|| compared(&week));
        longpoint::report::comparison::results(&found, Some("2026-03-02")).expect("a small folder")
    };
    assert!(on(1) == on(2));
}

/// Money of both sides at a value of a question's parameter, planned for itself.
fn sides(week: &Week, change: &Change) -> (i64, i64) {
    let side = |feet| {
        let variant = Variant {
            name: String::new(),
            changes: vec![change.clone(), Change::Lengths(vec![tiny::feet(feet, 0.0)])],
        };
        let checked = planned(variant.of(week).0);
        checked.plan().pipes.iter().map(|p| p.cost).sum()
    };
    (side(21), side(40))
}

#[test]
fn the_ranking_turns_just_where_it_says() {
    // Splices dear enough that 40s win as they stand, and cheap enough for the ranking to turn.
    let week = week();
    let found = compared(&week);
    let (mut turned, mut asked) = (0, 0);
    for question in &found.break_evens {
        let Turn::At { value, settled, .. } = question.turn else {
            continue;
        };
        assert!(settled, "{question:?}");
        let change = |x: i64| match question.question {
            Question::Premium => Some(Change::Premium {
                short: question.pair.0,
                long: question.pair.1,
                millionths: x,
            }),
            Question::SpliceCost => Some(Change::SpliceCost(Money::from_millicents(x * 1_000))),
            Question::Freight => None,
        };
        let step = 20;
        let (Some(below), Some(above)) = (change(value - step), change(value + step)) else {
            continue;
        };
        asked += 1;
        let (below, above) = (sides(&week, &below), sides(&week, &above));
        let order = |s: (i64, i64)| (s.0 - s.1).signum();
        assert_ne!(
            order(below),
            order(above),
            "{question:?}: {below:?} {above:?}"
        );
        turned += 1;
    }
    assert!(turned >= 1 && turned == asked, "{:?}", found.break_evens);
}

#[test]
fn freight_may_eat_just_what_the_long_joints_save() {
    let week = week();
    let found = compared(&week);
    let freight = &found.break_evens[0];
    assert_eq!(freight.question, Question::Freight);
    let saved = named(&found, "21 ft alone").total().unwrap_or(0)
        - named(&found, "40 ft alone").total().unwrap_or(0);
    match freight.turn {
        Turn::At { value, .. } => assert_eq!(value, saved.div_euclid(1_000)),
        Turn::Never { short, .. } => assert!(short && saved <= 0),
        Turn::Unknown => panic!("both rows are made"),
    }
}

#[test]
fn an_unknown_reference_names_the_rows() {
    let wishes = Wishes {
        reference: Some("22 ft alone".to_owned()),
        ..Wishes::default()
    };
    let names = compare(&week(), &wishes, HOW).expect_err("no such row");
    let NoSuch::Row(names) = names else {
        panic!("{names:?}");
    };
    assert!(names.contains(&"21 ft alone".to_owned()), "{names:?}");
}

/// 21 ft against 40 ft is the question, also where most pipes are sold in 24 ft too.
#[test]
fn the_pair_is_the_shortest_and_the_longest_sold_unless_told() {
    let feet = |n| Length::FOOT * n;
    let mut week = week();
    let quotes = [(tiny::HEAVY, 24, "84.00"), (tiny::LIGHT, 24, "62.88")];
    week.quotes
        .extend(quotes.map(|(pipe, length, price)| tiny_week::quote(pipe, length, price)));
    let (taken, _) = take_off(&week);
    let pair = |asked| Offer::of(&week, &taken, asked).map(|o| o.pair);
    assert_eq!(pair(None), Ok(Some((feet(21), feet(40)))));
    assert_eq!(
        pair(Some((feet(40), feet(24)))),
        Ok(Some((feet(24), feet(40))))
    );
    let sold = Err(vec![feet(21), feet(24), feet(40)]);
    assert_eq!(pair(Some((feet(21), feet(30)))), sold);
    assert_eq!(pair(Some((feet(21), feet(21)))), sold);
}

#[test]
fn a_price_that_is_missing_leaves_the_other_rows_their_money() {
    let mut week = week();
    week.quotes[1].price = None;
    let found = compared(&week);
    let row = |name: &str| found.rows.iter().find(|r| r.name == name).expect("a row");
    assert_eq!(row("as it stands").total(), None);
    assert_eq!(row("40 ft alone").total(), None);
    assert!(row("21 ft alone").total().is_some());
    assert_eq!(found.reference().name, "21 ft alone");
}
