//! A small invented week that touches every rule of a plan: splices, rack, kept drops, spares, a kit.
#![allow(dead_code)]

use crate::tiny;
use longpoint::measure::Money;
use longpoint::order::{ExtraPart, Origin, PipeId, Quote, QuoteTerms, RackPiece, Week};

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
        quoted: price.into(),
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
        note: String::new(),
        origin: origin(3),
    }];
    week.extras = vec![ExtraPart {
        mark: "X1".into(),
        pipe: tiny::LIGHT,
        length: tiny::feet(4, 6.0),
        count: 3,
        note: String::new(),
        origin: origin(4),
    }];
    week.shop.money.spares = vec![(tiny::LIGHT, 1)];
    week
}
