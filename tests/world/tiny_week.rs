//! A small invented week that touches every rule of a plan: splices, rack, kept drops, spares, a kit.
#![allow(dead_code, reason = "a binary may use only some of it")]

use crate::tiny;
use longpoint::measure::Money;
use longpoint::order::{
    ExtraPart, FreightStep, Lift, Origin, PipeId, PriceBasis, Quote, QuoteTerms, QuotedPrice,
    RackPiece, Supplier, Week,
};

/// Where an invented row stands.
pub fn origin(line: u32) -> Origin {
    Origin {
        file: "invented.csv".into(),
        line,
    }
}

/// A joint length on sale.
pub fn quote(pipe: PipeId, feet: i64, price: &str) -> Quote {
    Quote {
        pipe,
        supplier: "invented".into(),
        nominal: tiny::feet(feet, 0.0),
        planning: tiny::feet(feet, 0.0),
        price: Some(Money(tiny::dec(price))),
        quoted: Some(QuotedPrice {
            amount: Money(tiny::dec(price)),
            per: PriceBasis::Joint,
            weight: None,
        }),
        available: None,
        terms: QuoteTerms::default(),
        origin: origin(2),
    }
}

/// Two long gates that must be spliced (due late), the worked gate (due early), an extra part, a kit gate, a
/// rack with two pieces of one length, two joint lengths, spares.
pub fn week() -> Week {
    let mut long = tiny::gate("A1");
    long.count = 2;
    long.opening = tiny::feet(20, 0.0);
    long.tail = tiny::feet(10, 0.0).geometric();
    long.leaf = tiny::feet(31, 0.0).geometric();
    long.due = Some(jiff::civil::date(2026, 3, 9));
    let mut early = tiny::gate("A2");
    early.due = Some(jiff::civil::date(2026, 3, 2));
    let mut kit = tiny::gate("A3");
    kit.kit = true;
    kit.opening = tiny::feet(16, 0.0);
    kit.tail = tiny::feet(8, 0.0).geometric();
    kit.leaf = tiny::feet(25, 0.0).geometric();
    let mut week = tiny::week(vec![long, early, kit]);
    week.quotes = vec![
        quote(tiny::HEAVY, 21, "63.00"),
        quote(tiny::HEAVY, 24, "74.40"),
        quote(tiny::LIGHT, 21, "46.20"),
    ];
    week.quotes[1].available = Some(6);
    week.rack = vec![RackPiece {
        tag: "R7".into(),
        pipe: tiny::LIGHT,
        length: tiny::feet(15, 3.0),
        count: 2,
        near_trim: true,
        far_trim: false,
        arrives: None,
        note: String::new(),
        origin: origin(3),
    }];
    week.extras = vec![ExtraPart {
        mark: "X1".into(),
        pipe: tiny::LIGHT,
        length: tiny::feet(4, 6.0),
        count: 3,
        paperwork: Default::default(),
        note: String::new(),
        origin: origin(4),
    }];
    week.shop.money.spares = vec![(tiny::LIGHT, 1)];
    week
}

/// An amount.
pub fn money(text: &str) -> Money {
    Money(tiny::dec(text))
}

/// A quote of a supplier.
pub fn of(supplier: &str, quote: Quote) -> Quote {
    Quote {
        supplier: supplier.into(),
        ..quote
    }
}

/// The invented week bought from Ada (freight by length, tax, banded 21s, a break) and Bob (a minimum).
pub fn landed() -> Week {
    let mut week = week();
    let lift = Lift {
        joints: 7,
        fee: money("6"),
        part_fee: money("4.50"),
    };
    let mut light = of("Ada", quote(tiny::LIGHT, 21, "46.205"));
    light.terms.lift = Some(lift);
    let mut many = of("Ada", quote(tiny::LIGHT, 21, "45.10"));
    many.terms.lift = Some(lift);
    many.terms.from = 5;
    week.quotes = vec![
        of("Ada", quote(tiny::HEAVY, 21, "63.00")),
        of("Ada", quote(tiny::HEAVY, 40, "124.00")),
        light,
        many,
        of("Bob", quote(tiny::HEAVY, 24, "70.40")),
    ];
    week.suppliers = vec![
        Supplier {
            name: "Ada".into(),
            freight: vec![
                FreightStep {
                    up_to: Some(tiny::feet(21, 0.0)),
                    amount: money("65"),
                },
                FreightStep {
                    up_to: None,
                    amount: money("140"),
                },
            ],
            free_over: Some(money("5000")),
            tax: tiny::dec("0.0825"),
            ..Supplier::default()
        },
        Supplier {
            name: "Bob".into(),
            minimum: Some(money("400")),
            freight: vec![FreightStep {
                up_to: None,
                amount: money("90"),
            }],
            ..Supplier::default()
        },
    ];
    week
}
