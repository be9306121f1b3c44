//! Landed prices, classes and terms, with the numbers worked by hand.

use jiff::civil::{Date, date};

use super::*;
use crate::measure::{Length, Money};
use crate::order::{FreightStep, Lift, Quote, Supplier, Week};
use crate::splice::world::{CHORD, WEB, dec, quote, take_off, week};

fn of(supplier: &str, quote: Quote) -> Quote {
    Quote {
        supplier: supplier.to_owned(),
        ..quote
    }
}

/// Two gates due on the 5th and the 20th of January 2027; Ada sells 21s of both pipes and 40s of the
/// chord, Bob 24s of the chord.
fn bought() -> Week {
    let mut week = week(&[("A1", 144.0, 72.0, 1, 5), ("A2", 144.0, 72.0, 1, 20)]);
    week.quotes = vec![
        of("Ada", quote(CHORD, 21, Some(7_350), 2)),
        of("Ada", quote(WEB, 21, Some(5_040), 3)),
        of("Ada", quote(CHORD, 40, Some(13_600), 4)),
        of("Bob", quote(CHORD, 24, Some(8_280), 5)),
    ];
    week
}

fn cents(n: i64) -> Money {
    Money(dec(n, 2))
}

fn freight(feet: Option<i64>, amount: i64) -> FreightStep {
    FreightStep {
        up_to: feet.map(|f| Length::FOOT * f),
        amount: cents(amount),
    }
}

fn ada() -> Supplier {
    Supplier {
        name: "Ada".to_owned(),
        ..Supplier::default()
    }
}

fn all_terms(week: &Week) -> Vec<Term> {
    terms(week, &pools(week, &take_off(week)).expect("sound"))
}

#[test]
fn tax_is_in_the_cost_and_not_in_the_price() {
    let mut week = bought();
    week.suppliers = vec![Supplier {
        tax: dec(825, 4),
        ..ada()
    }];
    week.quotes[2].terms.untaxed = true;
    let all = pools(&week, &take_off(&week)).expect("sound");
    let chord: Vec<_> = all[1].stocks.iter().map(|s| (s.cost, s.price)).collect();
    assert_eq!(
        chord,
        [
            (cents(13_600), None),
            (cents(8_280), None),
            // 73.50 × 1.0825 = 79.56375.
            (Money(dec(7_956_375, 5)), Some(cents(7_350))),
        ]
    );
    // The least landed foot: 136.00 / 40 = 3.40, half of it.
    assert_eq!(all[1].credit_per_foot, cents(170));
    // 50.40 × 1.0825 = 54.558; a foot 2.598, half of it 1.299.
    assert_eq!(all[0].credit_per_foot, Money(dec(1_299, 3)));
}

#[test]
fn freight_by_the_longest_joint_is_nested() {
    let mut week = bought();
    week.suppliers = vec![Supplier {
        freight: vec![freight(Some(21), 6_500), freight(None, 14_000)],
        free_over: Some(cents(150_000)),
        minimum: Some(cents(25_000)),
        ..ada()
    }];
    let said: Vec<_> = all_terms(&week)
        .into_iter()
        .map(|t| (t.name, t.quotes, t.kind))
        .collect();
    assert_eq!(
        said,
        [
            (
                "freight of Ada".to_owned(),
                vec![0, 1, 2],
                TermKind::Freight {
                    amount: cents(6_500),
                    free_over: Some(cents(150_000))
                }
            ),
            (
                "freight of Ada, joints over 21'-0\"".to_owned(),
                vec![2],
                TermKind::Freight {
                    amount: cents(7_500),
                    free_over: None
                }
            ),
            (
                "minimum order of Ada".to_owned(),
                vec![0, 1, 2],
                TermKind::Minimum {
                    least: cents(25_000)
                }
            ),
        ]
    );
}

#[test]
fn breaks_share_lifts_and_what_is_to_be_had() {
    let mut week = bought();
    let lift = Lift {
        joints: 7,
        fee: cents(1_200),
        part_fee: cents(500),
    };
    week.quotes[3].available = Some(30);
    week.quotes[3].terms.lift = Some(lift);
    let mut many = week.quotes[3].clone();
    many.terms.from = 20;
    many.price = Some(cents(8_000));
    week.quotes.push(many);
    let said: Vec<_> = all_terms(&week)
        .into_iter()
        .map(|t| (t.quotes, t.kind))
        .collect();
    let count = |least, most| TermKind::Count { least, most };
    assert_eq!(
        said,
        [
            (
                vec![3, 4],
                TermKind::Lift {
                    joints: 7,
                    fee: cents(1_200),
                    part_fee: cents(500)
                }
            ),
            (vec![4], count(20, None)),
            (vec![3, 4], count(1, Some(30))),
        ]
    );
    // 19 joints at the first price; from the 20th on all of them cost the second.
    let all = pools(&week, &take_off(&week)).expect("sound");
    let limit = |q| {
        let mut stocks = all.iter().flat_map(|p| &p.stocks);
        let stock = stocks.find(|s| s.origin == StockOrigin::Quote(q));
        stock.and_then(|s| s.limit)
    };
    assert_eq!((limit(3), limit(4)), (Some(19), Some(30)));
    week.quotes[3].available = Some(12);
    let all = pools(&week, &take_off(&week)).expect("sound");
    assert!(
        all.iter()
            .flat_map(|p| &p.stocks)
            .any(|s| s.limit == Some(12))
    );
}

#[test]
fn a_pipe_without_prices_pays_no_money_terms() {
    let mut week = bought();
    week.suppliers = vec![Supplier {
        freight: vec![freight(None, 6_500)],
        ..ada()
    }];
    week.quotes[1].price = None;
    let said = all_terms(&week);
    assert_eq!(said.len(), 1);
    assert_eq!(said[0].quotes, [0, 2]);
}

fn dated(days: [u32; 4]) -> Week {
    let mut week = bought();
    week.shop.buying.order_date = Some(date(2027, 1, 1));
    for (quote, days) in week.quotes.iter_mut().zip(days) {
        quote.terms.lead_days = Some(days);
    }
    week
}

fn classes(week: &Week) -> (u8, u8, u8, Vec<u32>) {
    let days = DeliveryDays::of(week, CHORD);
    let serves = |q: &Quote| days.serves(week.arrives(q));
    let chord = week.quotes.iter().filter(|q| q.pipe == CHORD);
    (
        days.class(week, Some(0)),
        days.class(week, Some(1)),
        days.class(week, None),
        chord.map(serves).collect(),
    )
}

#[test]
fn days_that_bind_nobody_make_no_classes() {
    // All here by the 5th, on the day itself too.
    assert_eq!(classes(&dated([0, 2, 4, 3])), (0, 0, 0, vec![u32::MAX; 3]));
    let mut week = dated([9, 9, 9, 9]);
    week.shop.buying.order_date = None;
    assert_eq!(classes(&week), (0, 0, 0, vec![u32::MAX; 3]));
    let mut week = dated([9, 9, 9, 9]);
    week.gates.iter_mut().for_each(|g| g.due = None::<Date>);
    assert_eq!(classes(&week), (0, 0, 0, vec![u32::MAX; 3]));
}

#[test]
fn days_that_are_too_late_for_a_gate_make_classes() {
    // The 21s come on the 4th, the 40s on the 6th, Bob's 24s on the 25th.
    let mut week = dated([3, 0, 5, 24]);
    assert_eq!(
        classes(&week),
        (0, 1, 2, vec![u32::MAX, u32::MAX << 1, u32::MAX << 2])
    );
    let longest = |week: &Week, gate| longest_usable(week, CHORD, gate);
    let usable = |feet: i64| Some(Length::FOOT * feet - Length::from_64ths(32));
    assert_eq!(longest(&week, Some(0)), usable(21));
    assert_eq!(longest(&week, Some(1)), usable(40));
    // The shop wants its pipe two days ahead: now the 21s are late for the first gate as well.
    week.shop.buying.shop_days = 2;
    assert_eq!(
        classes(&week),
        (0, 2, 3, vec![u32::MAX << 1, u32::MAX << 2, u32::MAX << 3])
    );
    assert_eq!(longest(&week, Some(0)), None);
}
