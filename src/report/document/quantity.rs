//! Lengths, money and angles as JSON.

use rust_decimal::prelude::ToPrimitive;
use serde::Serialize;

use crate::measure::{INCH, Length, MM, Money, Units};

use super::super::figures::Figures;
use super::super::table::decimal;

/// An exact length.
#[derive(Serialize)]
pub(in crate::report) struct Exact {
    ticks: i64,
    value: Option<f64>,
    print: String,
}

/// A length out of geometry.
#[derive(Serialize)]
pub(in crate::report) struct Geometric {
    value: Option<f64>,
    print: String,
}

/// An exact length, printed as it stands.
pub(in crate::report) fn exact(figures: Figures<'_>, length: Length) -> Exact {
    Exact {
        ticks: length.ticks(),
        value: figures.number(length).to_f64(),
        print: figures.words(length),
    }
}

/// An exact length, printed to the saw mark (running marks): `ticks` stays exact.
pub(in crate::report) fn marked(figures: Figures<'_>, length: Length) -> Exact {
    Exact {
        print: figures.marked(length).printed().to_owned(),
        ..exact(figures, length)
    }
}

/// What is left of a joint, printed as on every sheet: rounded down; `ticks` stays exact.
pub(in crate::report) fn left(figures: Figures<'_>, length: Length, kept: bool) -> Exact {
    Exact {
        print: figures.left(length, kept),
        ..exact(figures, length)
    }
}

/// A length out of geometry, in ticks.
pub(in crate::report) fn geometric(figures: Figures<'_>, ticks: f64) -> Geometric {
    let (unit, places) = match figures.units() {
        Units::Inch => (INCH, 6),
        Units::Metric => (MM, 4),
    };
    Geometric {
        value: rounded(ticks / unit, places),
        print: figures.geometric(ticks).printed().to_owned(),
    }
}

/// A figure rounded to so many decimals; `None` when it is not finite.
pub(in crate::report) fn rounded(value: f64, places: u32) -> Option<f64> {
    decimal(value, places)?.to_f64()
}

/// Radians as degrees.
pub(in crate::report) fn degrees(radians: f64) -> Option<f64> {
    rounded(radians.to_degrees(), 4)
}

/// Money in cents.
pub(in crate::report) fn money(money: Option<Money>) -> Option<f64> {
    money?.cents().0.to_f64()
}

/// 1/1000 cent as money in cents, when prices are known.
pub(in crate::report) fn millicents(amount: i64, priced: bool) -> Option<f64> {
    money(priced.then(|| Money::from_millicents(amount)))
}
