//! What one joint costs landed, before anything that hangs on the whole shipment.

use rust_decimal::Decimal;

use crate::measure::Money;
use crate::order::{Quote, Week};

/// Tax rate on a quote's joints; 0 where nothing is taxed.
pub fn tax_rate(week: &Week, quote: &Quote) -> Decimal {
    if quote.terms.untaxed {
        return Decimal::ZERO;
    }
    week.supplier(&quote.supplier)
        .map_or(Decimal::ZERO, |s| s.tax)
}

/// Price of one joint with its tax, exact; `None` without a price (or past what a decimal holds).
pub fn landed_price(week: &Week, quote: &Quote) -> Option<Money> {
    let with_tax = Decimal::ONE.checked_add(tax_rate(week, quote))?;
    quote.price?.0.checked_mul(with_tax).map(Money)
}
