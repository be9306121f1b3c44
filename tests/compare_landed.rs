//! A comparison of a week with suppliers' terms: every row's money is its own plan's ledger, its gap that of the
//! whole.

mod tiny;
mod tiny_week;

use longpoint::check::{CheckedPlan, check};
use longpoint::compare::{Comparison, Figures, How, Question, Turn, Wishes, compare, variants};
use longpoint::measure::Money;
use longpoint::nest::{Limits, Status};
use longpoint::order::Week;
use longpoint::part::take_off;
use longpoint::plan::{PlanOptions, make};

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
    let (mut freight, mut fees, mut checked) = (0, 0, 0);
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
        let gap = made.gap().expect("priced");
        match whole.status {
            Status::Proved => assert_eq!(gap, 0, "{name}"),
            _ => assert_eq!(gap, (split.total() - whole.bound).max(0), "{name}"),
        }
        freight += i64::from(split.freight > 0);
        fees += i64::from(split.fees > 0);
        checked += 1;
    }
    assert!(
        checked >= 8 && freight >= 5 && fees >= 5,
        "{checked} {freight} {fees}"
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
    let found = compare(&week, &Wishes::default(), HOW).expect("rows");
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
    assert!(sheet.contains("RAN OUT"), "{sheet}");
    let bob = row("Bob where sold");
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
    week.quotes[0].price = None;
    let found = compare(&week, &wishes, HOW).expect("rows");
    let first = &found.rows[0];
    let says = format!("{:?}", first.figures().map(|m| &m.asked));
    assert!(
        first.total().is_none() && says.contains("has no price"),
        "{says}"
    );
}
