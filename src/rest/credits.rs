//! Credits as they were at the week's first issue.

use super::{frozen, pipe_of};
use crate::measure::{Length, Money};
use crate::order::{PipeId, Week};
use crate::stock::{landed_price, on_sale, usable_of_new};
use crate::yard::WeekStand;

/// Holds every pipe's credit at what it was; where a joint on sale now costs no more than it would be credited, the
/// credit is lowered until it costs more, which is said.
pub(super) fn freeze(week: &mut Week, known: &WeekStand, said: &mut Vec<String>) {
    for key in known.credit.keys() {
        let (Some(pipe), Some(then)) = (pipe_of(week, key), frozen(known, key)) else {
            continue;
        };
        let most = most_credit(week, pipe);
        let held = most.map_or(then, |most| most.min(then));
        if held < then {
            said.push(format!(
                "{}: a joint on sale now costs less than its length was credited when the week was handed out; a \
                 kept foot counts {}{held} instead of {}{then}.",
                week.pipe(pipe).title(),
                week.shop.money.currency,
                week.shop.money.currency,
            ));
        }
        let held_credits = &mut week.shop.money.held_credits;
        held_credits.retain(|(of, _)| *of != pipe);
        held_credits.push((pipe, held));
    }
    week.shop.money.held_credits.sort();
}

/// The largest credit of a foot at which no joint on sale would be bought for the rack.
fn most_credit(week: &Week, pipe: PipeId) -> Option<Money> {
    let most = |quote: &crate::order::Quote| {
        let price = landed_price(week, quote)?.millicents()?;
        let usable = usable_of_new(&week.shop.saw, quote.planning);
        let feet = usable.ticks().div_euclid(Length::FOOT.ticks()).max(1);
        Some(Money::from_millicents(((price - 1) / feet).max(0)))
    };
    on_sale(week, pipe).filter_map(|(_, q)| most(q)).min()
}
