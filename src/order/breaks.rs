//! Price breaks: rows of one joint of one supplier, each from more joints on, at no higher price.

use super::Quote;
use super::faults::{Faults, Spot};
use crate::measure::FaultCode;

/// A quote as its row says it, and what the row left empty.
pub(super) struct QuoteRow {
    pub quote: Quote,
    pub planning_given: bool,
    pub from: Spot,
    pub length: Spot,
    pub price: Spot,
}

/// The quotes of all rows, in file order; a break takes over what its row leaves empty from the row
/// of the fewest joints.
pub(super) fn settle_breaks(mut rows: Vec<QuoteRow>, faults: &mut Faults) -> Vec<Quote> {
    let mut done = vec![false; rows.len()];
    for first in 0..rows.len() {
        if done[first] {
            continue;
        }
        let mut offer: Vec<usize> = (first..rows.len())
            .filter(|r| rows[*r].quote.same_joint(&rows[first].quote))
            .collect();
        offer.iter().for_each(|r| done[*r] = true);
        offer.sort_by_key(|r| (rows[*r].quote.terms.from, *r));
        if offer.iter().any(|r| rows[*r].quote.terms.from > 1) {
            settle_offer(&mut rows, &offer, faults);
        } else {
            say_doubled(&rows, &offer, faults);
        }
    }
    rows.into_iter().map(|r| r.quote).collect()
}

/// Rows without counts that price the same joint: both are taken, and said.
fn say_doubled(rows: &[QuoteRow], offer: &[usize], faults: &mut Faults) {
    let Some((first, others)) = offer.split_first() else {
        return;
    };
    let line = rows[*first].quote.origin.line_words();
    for other in others {
        faults.warn(
            FaultCode::GivenTwice, &rows[*other].length,
            &format!("{line} quotes the same joint of the same supplier"),
            "keep one row, unless both prices are to be had; a price break says its count under from",
        );
    }
}

fn settle_offer(rows: &mut [QuoteRow], offer: &[usize], faults: &mut Faults) {
    for pair in offer.windows(2) {
        let [few, many] = [pair[0], pair[1]];
        let line = rows[few].quote.origin.line_words();
        if rows[many].quote.terms.from.max(1) == rows[few].quote.terms.from.max(1) {
            faults.error(
                FaultCode::GivenTwice,
                &rows[many].from,
                &format!("{line} has another price from the same count on"),
                "give each break a count of its own",
            );
            continue;
        }
        let prices = (rows[few].quote.price, rows[many].quote.price);
        if let (Some(before), Some(after)) = prices
            && after > before
        {
            faults.error(
                FaultCode::ValuesDisagree,
                &rows[many].price,
                &format!(
                    "from {} joints on a joint costs {after}, more than the {before} of {line}",
                    rows[many].quote.terms.from
                ),
                "a break never costs more: check counts and prices",
            );
        }
    }
    let Some((base, breaks)) = offer.split_first() else {
        return;
    };
    for row in breaks {
        take_over(rows, *base, *row, faults);
    }
}

/// What a break leaves empty is as the base row says; what it says must agree.
fn take_over(rows: &mut [QuoteRow], base: usize, row: usize, faults: &mut Faults) {
    let from = rows[base].quote.clone();
    let line = from.origin.line_words();
    let to = &mut rows[row];
    let mut other: Vec<&str> = Vec::new();
    if !to.planning_given {
        to.quote.planning = from.planning;
    } else if to.quote.planning != from.planning {
        other.push("planning length");
    }
    let mut agree = |name, differ: bool| {
        if differ {
            other.push(name);
        }
    };
    let quote = &mut to.quote;
    quote.available = quote.available.or(from.available);
    agree("available", quote.available != from.available);
    quote.terms.lift = quote.terms.lift.or(from.terms.lift);
    agree("lift", quote.terms.lift != from.terms.lift);
    quote.terms.lead_days = quote.terms.lead_days.or(from.terms.lead_days);
    agree("lead_days", quote.terms.lead_days != from.terms.lead_days);
    quote.terms.valid_until = quote.terms.valid_until.or(from.terms.valid_until);
    quote.terms.untaxed |= from.terms.untaxed;
    if !other.is_empty() {
        faults.error(
            FaultCode::ValuesDisagree,
            &to.from,
            &format!(
                "this is a price break of {line}, but says another {}",
                other.join(", ")
            ),
            "leave those cells of a break empty: they are as in the first row of the joint",
        );
    }
}
