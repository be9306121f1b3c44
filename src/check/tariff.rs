//! `Tariff`: what joints cost and drops earn, from the quotes, in exact integers of 1/1000 cent.

use std::collections::BTreeMap;

use rust_decimal::Decimal;

use super::delivery;
use crate::measure::{Length, Money};
use crate::order::{PipeId, Quote, Week};
use crate::plan::JointSource;
use crate::splice::WindowClass;

/// Money of each pipe of the week.
#[derive(Clone, Debug)]
pub(super) struct Tariff {
    rates: BTreeMap<PipeId, i64>,
    unpriced: Vec<PipeId>,
}

impl Tariff {
    /// Reads the quotes. A pipe with a quote that has no price is planned by joints, and every pipe of a
    /// week without quotes.
    pub(super) fn of(week: &Week) -> Tariff {
        let mut rates = BTreeMap::new();
        let mut unpriced = Vec::new();
        for index in 0..week.pipes.len() {
            let pipe = PipeId(index);
            let quotes = || on_sale(week, pipe).map(|(_, q)| q);
            let missing = week.quotes.is_empty() || quotes().any(|q| with_tax(week, q).is_none());
            let held = week.shop.money.held_credit(pipe);
            let least = match held {
                Some(credit) => credit.millicents(),
                None => quotes().filter_map(|q| rate(week, q)).min(),
            };
            if missing {
                unpriced.push(pipe);
            }
            rates.insert(pipe, if missing { 0 } else { least.unwrap_or(0) });
        }
        Tariff { rates, unpriced }
    }

    /// Whether money is known for this pipe.
    pub(super) fn priced(&self, pipe: PipeId) -> bool {
        !self.unpriced.contains(&pipe)
    }

    /// Credit per whole foot, 1/1000 cent.
    pub(super) fn rate(&self, pipe: PipeId) -> i64 {
        self.rates.get(&pipe).copied().unwrap_or(0)
    }

    /// Credit of a drop, 1/1000 cent: rate × whole feet when it reaches the keep length.
    pub(super) fn credit(&self, week: &Week, pipe: PipeId, drop: Length) -> i64 {
        if drop < week.shop.money.keep_length || drop <= Length::ZERO {
            return 0;
        }
        let feet = drop.ticks() / Length::FOOT.ticks();
        self.rate(pipe).saturating_mul(feet)
    }

    /// Cost of a splice, 1/1000 cent; planned by joints: one cent, never worth a joint.
    pub(super) fn splice(&self, week: &Week, pipe: PipeId) -> i64 {
        if self.priced(pipe) {
            week.shop.splice.cost.millicents().unwrap_or(0)
        } else {
            Money::MILLICENTS_PER_UNIT / 100
        }
    }

    /// Charge of a class, 1/1000 cent. Planned by joints: none, but a place that only the order permits
    /// counts as one more splice.
    pub(super) fn class_charge(&self, week: &Week, pipe: PipeId, class: WindowClass) -> i64 {
        let rules = &week.shop.splice;
        let charge = match (self.priced(pipe), class) {
            (true, WindowClass::Charged) => rules.class_charge,
            (true, WindowClass::ByOrder) => rules.high_stress_charge,
            (false, WindowClass::ByOrder) => return self.splice(week, pipe),
            _ => return 0,
        };
        charge.millicents().unwrap_or(0)
    }

    /// Cost of taking one joint or rack piece, 1/1000 cent: price, or credit of its usable length.
    /// Planned by joints: a joint counts as ten units of money and its feet, begun ones whole, as
    /// 1/1000 cent each, so that fewest joints come first and least pipe second; the rack is free.
    pub(super) fn cost(&self, week: &Week, source: JointSource) -> i64 {
        match source {
            JointSource::Bought(q) if !self.priced(week.quotes[q].pipe) => {
                let foot = Length::FOOT.ticks();
                let feet = (week.quotes[q].planning.ticks() + foot - 1).div_euclid(foot);
                10 * Money::MILLICENTS_PER_UNIT + feet
            }
            JointSource::Bought(q) => with_tax(week, &week.quotes[q]).unwrap_or(0),
            JointSource::Rack(r, _) => {
                let row = &week.rack[r];
                self.credit(week, row.pipe, rack_usable(week, r))
            }
        }
    }
}

/// Quotes of a pipe that can be had and hold something.
pub(super) fn on_sale(week: &Week, pipe: PipeId) -> impl Iterator<Item = (usize, &Quote)> {
    let quotes = week.quotes.iter().enumerate();
    quotes.filter(move |(_, q)| {
        let to_be_had = q.available.is_none_or(|n| n > 0);
        q.pipe == pipe && to_be_had && new_usable(week, q) > Length::ZERO
    })
}

/// Usable length of a new joint.
pub(super) fn new_usable(week: &Week, quote: &Quote) -> Length {
    let saw = &week.shop.saw;
    quote.planning - saw.near_trim - saw.far_trim - saw.hold_back
}

/// Usable length of the longest joint on sale that a gate (none: an extra part) can wait for; with none
/// such, of the longest rack piece.
pub(super) fn longest_usable(week: &Week, pipe: PipeId, gate: Option<usize>) -> Option<Length> {
    let needed = gate.and_then(|g| delivery::needed(week, g));
    let waits = |q: &Quote| match (delivery::day(week, q), needed) {
        (Some(here), Some(needed)) => here <= needed,
        _ => true,
    };
    let sold = on_sale(week, pipe)
        .filter(|(_, q)| waits(q))
        .map(|(_, q)| new_usable(week, q))
        .max();
    let lying = (0..week.rack.len())
        .filter(|r| week.rack[*r].pipe == pipe && week.rack[*r].count > 0)
        .filter(|r| match (week.rack[*r].arrives, needed) {
            (Some(here), Some(needed)) => here <= needed,
            _ => true,
        })
        .map(|r| rack_usable(week, r))
        .filter(|u| *u > Length::ZERO);
    sold.or_else(|| lying.max())
}

/// Usable length of a rack piece: less the trims its ends still want and the hold-back.
pub(super) fn rack_usable(week: &Week, rack: usize) -> Length {
    let (row, saw) = (&week.rack[rack], &week.shop.saw);
    let near = if row.near_trim {
        saw.near_trim
    } else {
        Length::ZERO
    };
    let far = if row.far_trim {
        saw.far_trim
    } else {
        Length::ZERO
    };
    row.length - near - far - saw.hold_back
}

/// Fraction × landed price per nominal foot, down to 1/1000 cent, in exact integers.
fn rate(week: &Week, quote: &Quote) -> Option<i64> {
    let product = quote
        .price?
        .0
        .checked_mul(Decimal::ONE.checked_add(tax(week, quote))?)?
        .checked_mul(week.shop.money.credit_rate)?
        .normalize();
    let ten = 10i128.checked_pow(product.scale())?;
    let top = product
        .mantissa()
        .checked_mul(i128::from(Money::MILLICENTS_PER_UNIT))?
        .checked_mul(i128::from(Length::FOOT.ticks()))?;
    let bottom = ten.checked_mul(i128::from(quote.nominal.ticks()))?;
    if bottom <= 0 {
        return None;
    }
    i64::try_from(top.div_euclid(bottom)).ok()
}

/// Tax on a quote's joints as a fraction: the supplier's rate, unless the quote is untaxed.
pub(super) fn tax(week: &Week, quote: &Quote) -> Decimal {
    let rates = week.suppliers.iter().filter(|s| s.name == quote.supplier);
    let rate = rates.map(|s| s.tax).next();
    rate.filter(|_| !quote.terms.untaxed).unwrap_or_default()
}

/// Price of one joint with its tax, 1/1000 cent, half up: amounts are never below zero.
fn with_tax(week: &Week, quote: &Quote) -> Option<i64> {
    let rate = Decimal::ONE.checked_add(tax(week, quote))?;
    let exact = quote.price?.0.checked_mul(rate)?.normalize();
    let bottom = 10i128.checked_pow(exact.scale())?;
    let top = exact
        .mantissa()
        .checked_mul(i128::from(Money::MILLICENTS_PER_UNIT))?;
    i64::try_from((2 * top + bottom).div_euclid(2 * bottom)).ok()
}

/// An amount times a whole number of joints, rounded once to cents.
pub(super) fn line_money(price: Option<Money>, joints: u32) -> Option<Money> {
    let total = price?.0.checked_mul(Decimal::from(joints))?;
    Some(Money(total).cents())
}

/// The tax of an order line: of what the joints cost together, rounded once to cents.
pub(super) fn line_tax(week: &Week, quote: &Quote, joints: u32) -> Option<Money> {
    let joints = quote.price?.0.checked_mul(Decimal::from(joints))?;
    Some(Money(joints.checked_mul(tax(week, quote))?).cents())
}
