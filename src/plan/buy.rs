//! What to buy: joints, billed length, weight and money per quote; spares on top, shown apart.

use rust_decimal::Decimal;

use super::uncut::left_whole;
use super::{Bought, JointSource, PlannedJoint, Spare, Uncut};
use crate::measure::{Length, Money};
use crate::order::{PipeId, Quote, Week};
use crate::stock::{PoolSource, on_sale, tax_rate};

/// One line per quote bought from, in file order.
pub(crate) fn buy(week: &Week, joints: &[PlannedJoint], uncut: &[Uncut]) -> Vec<Bought> {
    let mut out = Vec::new();
    for (index, quote) in week.quotes.iter().enumerate() {
        let mine = |j: &&PlannedJoint| j.source == JointSource::Bought(index);
        let count = u32::try_from(joints.iter().filter(mine).count()).unwrap_or(u32::MAX);
        let count = count.saturating_add(left_whole(uncut, index));
        if count == 0 {
            continue;
        }
        let nominal = quote.nominal * i64::from(count);
        out.push(Bought {
            quote: index,
            joints: count,
            nominal,
            weight: week
                .pipe(quote.pipe)
                .weight(week.shop.units, nominal.geometric()),
            money: times(quote.price, count),
            tax: tax(week, quote, count),
        });
    }
    out
}

/// Spares of every pipe that the plan uses: the cheapest joint per nominal foot (unpriced: the
/// longest).
pub(crate) fn spares(week: &Week, pools: &[PoolSource]) -> Vec<Spare> {
    let wanted = week.shop.money.spares.iter().filter(|(_, n)| *n > 0);
    wanted
        .filter(|(pipe, _)| pools.iter().any(|p| p.pipe == *pipe))
        .filter_map(|(pipe, joints)| {
            let quote = cheapest(week, *pipe, *joints)?;
            Some(Spare {
                quote,
                joints: *joints,
                money: times(week.quotes[quote].price, *joints),
                tax: tax(week, &week.quotes[quote], *joints),
            })
        })
        .collect()
}

/// The joint on sale at the least price per nominal length, breaks only where so many joints earn them;
/// without prices the longest.
pub(crate) fn cheapest(week: &Week, pipe: PipeId, joints: u32) -> Option<usize> {
    let rank = |index: usize| {
        let q = &week.quotes[index];
        let nominal = Decimal::from(q.nominal.ticks().max(1));
        let per = q.price.and_then(|p| p.0.checked_div(nominal));
        (
            per.is_none(),
            per,
            std::cmp::Reverse(q.planning),
            q.supplier.clone(),
            q.origin.line,
        )
    };
    on_sale(week, pipe)
        .filter(|(_, q)| q.terms.from <= joints.max(1))
        .map(|(index, _)| index)
        .min_by_key(|index| rank(*index))
}

/// The money of an order line, rounded once to cents; `None` without a price.
pub(crate) fn times(price: Option<Money>, count: u32) -> Option<Money> {
    let exact = price?.0.checked_mul(Decimal::from(count))?;
    Some(Money(exact).cents())
}

/// The tax of an order line: rate × price × count, rounded once to cents; `None` without a price.
pub(crate) fn tax(week: &Week, quote: &Quote, count: u32) -> Option<Money> {
    let line = quote.price?.0.checked_mul(Decimal::from(count))?;
    Some(Money(line.checked_mul(tax_rate(week, quote))?).cents())
}

/// Sum of the planning lengths of whole joints, for tests and references.
pub(crate) fn taken(joints: &[PlannedJoint]) -> Length {
    joints.iter().map(|j| j.length).sum()
}
