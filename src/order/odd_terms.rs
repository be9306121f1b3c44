//! Terms that can hardly be meant beside the price of a joint: a minimum order or a freight worth very many
//! joints, a fee over the joints it is for, a splice dearer than pipe.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::Quote;
use super::faults::{Faults, Spot};
use super::shop_file::ShopFile;
use super::usual;
use crate::measure::{FaultCode, Money};

/// A minimum order of so many joints is asked about: a week of gates takes 10 to 60 (common practice, no source).
const MANY_JOINTS: u32 = 100;
/// A minimum order of more joints cannot be meant: a truck carries some 570 joints of 2-3/8 Schedule 40 in 21 ft
/// (44,000 lb of load, common practice, no source), and nobody must order several truckloads at once.
const TOO_MANY_JOINTS: u32 = 2_000;
/// Freight worth so many joints is asked about; the longest truck costs 20 or so (common practice, no source).
const FREIGHT_JOINTS: u32 = 100;
/// A fee per lift worth so many joints is asked about: banding costs a part of one joint (common practice, no
/// source).
const FEE_JOINTS: u32 = 5;
/// A splice worth so many of the dearest joints is asked about (common practice, no source).
const SPLICE_JOINTS: u32 = 10;

/// The dearest joint of some quotes.
fn dearest<'a>(quotes: impl Iterator<Item = &'a Quote>) -> Option<Money> {
    quotes.filter_map(|q| q.price).max()
}

/// How many joints of that price an amount comes to, rounded up; more than can be counted count as very many.
fn joints(amount: Money, price: Money) -> u32 {
    let ratio = amount.0.checked_div(price.0).map(|r| r.ceil());
    ratio.and_then(|r| r.to_u32()).unwrap_or(u32::MAX)
}

/// A minimum order beside the supplier's dearest joint.
pub(super) fn judge_minimum<'a>(
    minimum: Money,
    spot: &Spot,
    own: impl Iterator<Item = &'a Quote>,
    faults: &mut Faults,
) {
    let Some(price) = dearest(own) else { return };
    let bought = joints(minimum, price);
    if bought <= MANY_JOINTS {
        return;
    }
    let what = format!(
        "a minimum order of {minimum} buys {bought} joints even of his dearest ({} a joint)",
        price.cents()
    );
    if bought > TOO_MANY_JOINTS {
        let mend = "write the least that is billed in one order, such as 250";
        faults.error(
            FaultCode::ValueOutOfRange,
            spot,
            &format!("{what}: that is several truckloads"),
            mend,
        );
    } else {
        faults.ask(
            spot,
            &format!("{what}: usual is up to {MANY_JOINTS}"),
            usual::MEND,
        );
    }
}

/// An amount from which freight is free, that no order comes to.
pub(super) fn judge_free_over<'a>(
    amount: Money,
    spot: &Spot,
    own: impl Iterator<Item = &'a Quote>,
    faults: &mut Faults,
) {
    let Some(price) = dearest(own) else { return };
    let bought = joints(amount, price);
    if bought > TOO_MANY_JOINTS {
        let what =
            format!("freight is free from {bought} joints of his dearest: no order comes to that");
        faults.ask(spot, &what, usual::MEND);
    }
}

/// A freight beside the supplier's dearest joint.
pub(super) fn judge_freight<'a>(
    amount: Money,
    spot: &Spot,
    own: impl Iterator<Item = &'a Quote>,
    faults: &mut Faults,
) {
    let Some(price) = dearest(own) else { return };
    let worth = joints(amount, price);
    if worth > FREIGHT_JOINTS {
        let what = format!(
            "a freight of {amount} is the price of {worth} of his dearest joints: usual is under {FREIGHT_JOINTS}"
        );
        faults.ask(spot, &what, usual::MEND);
    }
}

/// A fee per lift beside its joint's price.
pub(super) fn judge_fee(fee: Money, spot: &Spot, price: Option<Money>, faults: &mut Faults) {
    let Some(price) = price else { return };
    let worth = joints(fee, price);
    if worth > FEE_JOINTS {
        let what = format!(
            "a fee of {fee} a lift is the price of {worth} joints: usual is under {FEE_JOINTS}"
        );
        faults.ask(spot, &what, usual::MEND);
    }
}

/// The money per splice beside the dearest joint on sale, and nothing at all.
pub(super) fn judge_splice_cost(shop: &ShopFile, quotes: &[Quote], faults: &mut Faults) {
    let cost = shop.shop.splice.cost;
    if !shop.splice_cost_given {
        return;
    }
    let spot = &shop.splice_cost_at;
    if cost.0 == Decimal::ZERO {
        let what =
            "a splice for nothing: the plan will splice wherever it may, to save the least of pipe";
        faults.ask(spot, what, usual::MEND);
    }
    let Some(price) = dearest(quotes.iter()) else {
        return;
    };
    let worth = joints(cost, price);
    if worth > SPLICE_JOINTS {
        let what = format!(
            "one splice at {cost} is the price of {worth} of the dearest joints: usual is under {SPLICE_JOINTS}"
        );
        faults.ask(spot, &what, usual::MEND);
    }
}
