//! What every document opens with.

use serde::Serialize;

use super::super::figures::Figures;
use super::quantity::{Exact, exact};
use crate::measure::Units;
use crate::order::Week;

/// Version of the document's form.
const VERSION: u32 = 1;

/// What every document opens with.
#[derive(Serialize)]
pub(in crate::report) struct Opening<'a> {
    format: &'static str,
    version: u32,
    shop: &'a str,
    units: &'static str,
    currency: &'a str,
    saw_mark: Exact,
    kerf: Exact,
}

/// The opening of a document of this format.
pub(in crate::report) fn opening<'a>(week: &'a Week, format: &'static str) -> Opening<'a> {
    let figures = Figures::of(week);
    Opening {
        format,
        version: VERSION,
        shop: &week.shop.name,
        units: match week.shop.units {
            Units::Inch => "in",
            Units::Metric => "mm",
        },
        currency: &week.shop.money.currency,
        saw_mark: exact(figures, week.shop.saw.mark),
        kerf: exact(figures, week.shop.saw.kerf),
    }
}
