//! A comparison of a week with suppliers' terms: every row's money is its own plan's ledger, its gap that of the
//! whole.

use crate::tiny_week;
use longpoint::check::{CheckedPlan, check};
use longpoint::compare::{
    Change, Comparison, Figures, How, Question, Turn, Variant, Wishes, compare, variants,
};
use longpoint::measure::{Length, Money};
use longpoint::nest::{Limits, Status};
use longpoint::order::Week;
use longpoint::part::take_off;
use longpoint::plan::{PlanOptions, make};
use longpoint::report::summary;

const HOW: How<'static> = How::unwatched(Limits {
    work: 20_000_000,
    time: None,
});

/// Short gates out of two suppliers, with freight by length, lifts, a break, tax and a minimum order.
fn week() -> Week {
    let mut week = tiny_week::landed();
    week.gates.remove(0);
    for (line, quote) in (2..).zip(&mut week.quotes) {
        quote.origin = tiny_week::origin(line);
    }
    week
}

/// A variant's week through the ordinary rooms, without the comparison.
fn planned(week: Week) -> CheckedPlan {
    let (taken, left_out) = take_off(&week);
    let options = PlanOptions {
        limits: HOW.limits,
        left_out,
        ..PlanOptions::default()
    };
    let plan = make(&week, &taken, &options).expect("the row is made");
    check(week, taken, plan).expect("a sound plan")
}

fn exact(money: Money) -> i64 {
    money.millicents().expect("small")
}

#[test]
fn every_rows_money_is_its_ledger_to_the_cent_and_its_gap_the_wholes() {
    let week = week();
    let wishes = Wishes {
        rows_only: true,
        ..Wishes::default()
    };
    let found = compare(&week, &wishes, HOW).expect("rows");
    let all = variants(&week, &found.offer, &wishes);
    let (mut freight, mut fees, mut checked, mut within) = (0, 0, 0, 0);
    for (variant, row) in all.iter().zip(&found.rows) {
        assert_eq!(variant.name, row.name);
        let Some(made) = row.figures() else { continue };
        let own = planned(variant.of(&week).0);
        let (plan, name) = (own.plan(), &row.name);
        let ledger = plan.ledger.expect("priced");
        let split = made.money.expect("priced");
        assert_eq!(split.pipe, exact(ledger.pipe), "{name}");
        assert_eq!(split.freight, exact(ledger.freight), "{name}");
        let extra = ledger.tax + ledger.lifts + ledger.minimum;
        assert_eq!(split.fees, exact(extra), "{name}");
        let labour = ledger.splices + ledger.classes;
        assert_eq!(split.splices, exact(labour), "{name}");
        assert_eq!(split.rack, exact(ledger.rack), "{name}");
        assert_eq!(split.kept, exact(ledger.kept), "{name}");
        assert_eq!(plan.total.map(exact), Some(split.total()), "{name}");
        assert_eq!(split.total() % 1_000, 0, "{name}: whole cents");
        let whole = plan.nest.whole.as_ref().expect("charges");
        assert_eq!(made.bound, whole.bound, "{name}");
        let gap = made.gap.expect("priced");
        let open = match whole.status {
            Status::Proved | Status::ProvedBySearch => 0,
            _ => whole.cost - whole.bound,
        };
        assert_eq!(gap.millicents(), open, "{name}");
        // The row's gap and the plan's own summary are one figure.
        if whole.status == Status::Within {
            let said = summary(&own, "x");
            let figure = format!("within ${} (", gap.money());
            assert!(said.contains(&figure), "{name}: {figure} in {said}");
            within += 1;
        }
        freight += i64::from(split.freight > 0);
        fees += i64::from(split.fees > 0);
        checked += 1;
    }
    assert!(
        checked >= 8 && freight >= 5 && fees >= 5 && within >= 1,
        "{checked} {freight} {fees} {within}"
    );
}

/// The prices of plans already found are those of the rows, fees and tax included: freight's break-even is the
/// rows' difference, but for the cents to which a ledger's lines are rounded.
#[test]
fn plans_are_repriced_with_their_fees() {
    let mut week = week();
    week.quotes[4].price = Some(tiny_week::money("52"));
    week.suppliers[1].minimum = Some(tiny_week::money("150"));
    week.suppliers[1].freight[0].amount = tiny_week::money("40");
    let wishes = Wishes {
        pair: Some((Length::FOOT * 21, Length::FOOT * 24)),
        ..Wishes::default()
    };
    let found = compare(&week, &wishes, HOW).expect("rows");
    let freight = found
        .break_evens
        .iter()
        .find(|b| b.question == Question::Freight)
        .expect("two lengths are on sale");
    let total = |name: &str| total(&found, name);
    let saved = total(&freight.names.0) - total(&freight.names.1);
    let Turn::At { value, .. } = freight.turn else {
        panic!("{freight:?} {saved}");
    };
    assert!((value - saved / 1_000).abs() <= 10, "{value} {saved}");
}

fn total(found: &Comparison, name: &str) -> i64 {
    let row = found.rows.iter().find(|r| r.name == name);
    row.and_then(|r| r.figures())
        .and_then(Figures::total)
        .unwrap_or_else(|| panic!("{name} is made"))
}

/// A price that ran out, and joints without a price, are marked in the rows that buy them and in no other.
#[test]
fn prices_to_ask_for_are_marked_in_their_rows() {
    let mut week = week();
    week.shop.buying.order_date = Some(jiff::civil::date(2026, 3, 2));
    for quote in week.quotes.iter_mut().filter(|q| q.supplier == "Bob") {
        quote.terms.valid_until = Some(jiff::civil::date(2026, 2, 20));
    }
    let wishes = Wishes {
        rows_only: true,
        ..Wishes::default()
    };
    let found = compare(&week, &wishes, HOW).expect("rows");
    let row = |name: &str| {
        let row = found.rows.iter().find(|r| r.name == name);
        row.unwrap_or_else(|| panic!("{name} is a row"))
    };
    let sheet = longpoint::report::comparison::text(&found, None).replace("\n   ", " ");
    assert!(sheet.contains("ON A PRICE"), "{sheet}");
    let bob = row("Bob (else as it stands)");
    assert_eq!(bob.figures().map(|m| m.expired), Some(1));
    let says = &sheet;
    assert!(
        says.contains("24 ft from Bob: its price ran out on 2026-02-20"),
        "{says}"
    );
    assert!(says.contains("is not sold by Bob: as on sale"), "{says}");
    let ada = row("Ada alone");
    assert_eq!(
        (ada.figures().map(|m| m.expired), ada.notes.len()),
        (Some(0), 0)
    );
    week.quotes[..2].iter_mut().for_each(|q| q.price = None);
    let found = compare(&week, &wishes, HOW).expect("rows");
    let first = &found.rows[0];
    let says = format!("{:?}", first.figures().map(|m| &m.remarks));
    assert!(
        first.total().is_none() && says.matches("has no price").count() == 2,
        "{says}"
    );
}

/// Without a search, and offered what a search found with one supplier alone: the offer is taken, checked and
/// no dearer, though the week knows more days of delivery than the one the plan was made for.
#[test]
fn a_plan_of_fewer_quotes_is_taken_where_it_is_cheaper() {
    let mut week = tiny_week::landed();
    week.shop.buying.order_date = Some(jiff::civil::date(2026, 3, 2));
    week.gates[0].due = Some(jiff::civil::date(2026, 3, 16));
    week.gates[1].due = Some(jiff::civil::date(2026, 3, 5));
    for (line, quote) in (2..).zip(&mut week.quotes) {
        quote.origin = tiny_week::origin(line);
        quote.terms.lead_days = Some(if quote.supplier == "Bob" { 7 } else { 1 });
    }
    let (ada, _) = Variant::one("Ada alone", Change::Supplier("Ada".into())).of(&week);
    let found = planned(ada);
    let offer = longpoint::plan::Offered {
        name: "Ada alone",
        week: found.week(),
        plan: found.plan(),
    };
    let quick = |offers: &[longpoint::plan::Offered<'_>]| {
        let (taken, left_out) = take_off(&week);
        let options = PlanOptions {
            limits: Limits {
                work: 0,
                time: None,
            },
            left_out,
            offers,
            ..PlanOptions::default()
        };
        let plan = make(&week, &taken, &options).expect("it can be made");
        check(week.clone(), taken, plan).expect("a sound plan")
    };
    let (alone, offered) = (quick(&[]), quick(&[offer]));
    let total = |c: &CheckedPlan| c.plan().total.map(exact).expect("priced");
    assert!(
        total(&offered) < total(&alone),
        "{} {}",
        total(&offered),
        total(&alone)
    );
    assert_eq!(total(&offered), total(&found));
    let classes = |c: &CheckedPlan| {
        let items = &c.plan().nest.problem.pools[1].items;
        items.iter().map(|i| i.class).max()
    };
    assert_ne!(classes(&offered), classes(&found), "days of delivery");
}

/// Searches cut very short, so that gaps are wide: still no row is dearer than one it has more choice than.
#[test]
fn no_row_is_dearer_than_one_with_less_to_choose_from() {
    let mut week = tiny_week::landed();
    for (line, quote) in (2..).zip(&mut week.quotes) {
        quote.origin = tiny_week::origin(line);
    }
    let wishes = Wishes {
        rows_only: true,
        ..Wishes::default()
    };
    let how = How::unwatched(Limits {
        work: 30_000,
        time: None,
    });
    let found = compare(&week, &wishes, how).expect("rows");
    let named = |name: &str| found.rows.iter().find(|r| r.name == name);
    let mut held = 0;
    for (less, more) in [
        (
            "21 ft (else as it stands)",
            "21 ft + 24 ft (else as it stands)",
        ),
        (
            "24 ft (else as it stands)",
            "21 ft + 24 ft (else as it stands)",
        ),
        ("21 ft alone", "as it stands"),
        ("21 ft + 24 ft", "as it stands"),
        ("21 ft + 40 ft", "as it stands"),
        ("24 ft (else as it stands)", "as it stands"),
        ("40 ft (else as it stands)", "as it stands"),
        ("Ada alone", "as it stands"),
        ("Bob (else as it stands)", "as it stands"),
        ("keep from 6'-0\"", "as it stands"),
        ("kerf 1/8\"", "as it stands"),
        ("as it stands", "splice wherever it pays"),
    ] {
        let (Some(less), Some(more)) = (named(less), named(more)) else {
            continue;
        };
        let (Some(least), Some(most)) = (less.total(), more.total()) else {
            continue;
        };
        assert!(most <= least, "{} {least}, {} {most}", less.name, more.name);
        held += 1;
    }
    assert!(held >= 7, "{held}");
}
