//! `[buying]`.

use super::Context;
use crate::measure::{Misread, parse_count, parse_date_in};
use crate::order::BuyingRules;
use crate::order::faults::Faults;

/// Most days a shop can want its pipe ahead of a due date.
const MOST_DAYS: u32 = 366;

/// Reads `[buying]`.
pub(super) fn read_buying(context: &Context<'_>, faults: &mut Faults) -> BuyingRules {
    let mut s = context.section("buying", faults);
    let rules = BuyingRules {
        order_date: s.read("order_date", faults, |t| {
            parse_date_in(t, context.date_order)
        }),
        shop_days: s.read("shop_days", faults, parse_days).unwrap_or(0),
        tolerance: s.text("tolerance", faults).unwrap_or_default(),
        delivery: s.text("delivery", faults).unwrap_or_default(),
    };
    s.done(faults);
    rules
}

/// Whole days, 0 to 366.
pub(in crate::order) fn parse_days(text: &str) -> Result<u32, Misread> {
    let days = parse_count(text)?;
    if days > MOST_DAYS {
        return Err(Misread::beyond(
            &format!("{text} days is over a year"),
            "write whole days, such as 3",
        ));
    }
    Ok(days)
}
