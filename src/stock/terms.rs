//! What hangs on more than one joint: freight, lifts, minimum orders, breaks, what is to be had.
//!
//! Freight by the longest joint is written as nested sets: every joint of the supplier carries the
//! first step, the joints over its length what the next step adds, and so on; the sum over the sets
//! that are touched is the step of the longest joint.

use serde::Serialize;

use super::{PoolSource, StockOrigin};
use crate::measure::{Length, Money};
use crate::order::{Quote, Supplier, Week};

/// A term over the joints bought of some quotes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Term {
    /// For sheets and messages.
    pub name: String,
    /// Supplier it is paid to; empty where the quote names none.
    pub supplier: String,
    /// Indices into `Week::quotes`, ascending.
    pub quotes: Vec<usize>,
    /// What is asked.
    pub kind: TermKind,
}

/// What is asked. Sums of prices are before tax, credits and fees.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum TermKind {
    /// `amount` when any joint is bought, but nothing when their prices reach `free_over`.
    Freight {
        /// Money of the step, or what it adds to the step before.
        amount: Money,
        /// Sum of prices from which it is not billed.
        free_over: Option<Money>,
    },
    /// `fee` per started lift, `part_fee` more when the last is broken.
    Lift {
        /// Joints in a lift.
        joints: u32,
        /// Money per started lift.
        fee: Money,
        /// Money for a broken one.
        part_fee: Money,
    },
    /// What the prices fall short of `least`, when any joint is bought.
    Minimum {
        /// Least sum of prices.
        least: Money,
    },
    /// No money: none bought, or from `least` to `most` joints.
    Count {
        /// Fewest joints when any is bought.
        least: u32,
        /// Most joints.
        most: Option<u32>,
    },
}

/// The terms of all quotes that are stocks of these pools. Money is asked of priced pools alone;
/// counts of all.
pub fn terms(week: &Week, pools: &[PoolSource]) -> Vec<Term> {
    let of = |priced: bool| {
        let pools = pools.iter().filter(move |p| p.priced || !priced);
        let stocks = pools.flat_map(|p| &p.stocks);
        let mut quotes: Vec<usize> = stocks
            .filter_map(|s| match s.origin {
                StockOrigin::Quote(q) => Some(q),
                StockOrigin::Rack(_) => None,
            })
            .collect();
        quotes.sort_by_cached_key(|q| fixed_order(&week.quotes[*q]));
        quotes
    };
    let priced = of(true);
    let mut out = Vec::new();
    let mut suppliers: Vec<&Supplier> = week.suppliers.iter().collect();
    suppliers.sort_by(|a, b| a.name.cmp(&b.name));
    for supplier in suppliers {
        out.extend(of_supplier(week, supplier, &priced));
    }
    for offer in offers(week, &priced) {
        out.extend(lift(week, &offer));
    }
    for offer in offers(week, &of(false)) {
        out.extend(counts(week, &offer));
    }
    out.iter_mut().for_each(|term| term.quotes.sort_unstable());
    out
}

/// An order of quotes that does not depend on the order of rows.
fn fixed_order(quote: &Quote) -> impl Ord + use<> {
    (
        quote.pipe,
        quote.supplier.clone(),
        std::cmp::Reverse(quote.nominal),
        quote.terms.from,
        quote.quoted_words(),
    )
}

fn of_supplier(week: &Week, supplier: &Supplier, priced: &[usize]) -> Vec<Term> {
    let quote = |q: &usize| &week.quotes[*q];
    let own: Vec<usize> = priced
        .iter()
        .copied()
        .filter(|q| quote(q).supplier == supplier.name)
        .collect();
    let mut out = Vec::new();
    let mut add = |name: String, quotes: Vec<usize>, kind: TermKind| {
        if !quotes.is_empty() {
            out.push(Term {
                name,
                supplier: supplier.name.clone(),
                quotes,
                kind,
            });
        }
    };
    let mut before = (Length::ZERO, Money::ZERO);
    for (number, step) in supplier.freight.iter().enumerate() {
        let over = |q: &usize| number == 0 || quote(q).nominal > before.0;
        let amount = step.amount - before.1;
        let name = if number == 0 {
            format!("freight of {}", supplier.name)
        } else {
            format!(
                "freight of {}, joints over {}",
                supplier.name,
                before.0.print(week.shop.units)
            )
        };
        if amount > Money::ZERO {
            let free_over = supplier.free_over.filter(|_| number == 0);
            let carried = own.iter().copied().filter(over).collect();
            add(name, carried, TermKind::Freight { amount, free_over });
        }
        before = (step.up_to.unwrap_or(before.0), step.amount);
    }
    if let Some(least) = supplier.minimum.filter(|m| *m > Money::ZERO) {
        let name = format!("minimum order of {}", supplier.name);
        add(name, own.clone(), TermKind::Minimum { least });
    }
    out
}

/// Rows of one joint of one supplier, fewest joints first; rows that are no breaks stand alone.
fn offers(week: &Week, quotes: &[usize]) -> Vec<Vec<usize>> {
    let mut out: Vec<Vec<usize>> = Vec::new();
    for index in quotes.iter().copied() {
        let quote = &week.quotes[index];
        let joins = |offer: &&mut Vec<usize>| {
            quote.terms.from > 1
                && offer
                    .first()
                    .is_some_and(|first| week.quotes[*first].same_joint(quote))
        };
        match out.iter_mut().find(joins) {
            Some(offer) => offer.push(index),
            None => out.push(vec![index]),
        }
    }
    out
}

fn offer_name(week: &Week, quote: &Quote) -> String {
    let joint = quote.nominal.print(week.shop.units);
    let pipe = week.pipe(quote.pipe).title();
    if quote.supplier.is_empty() {
        format!("{joint} {pipe}")
    } else {
        format!("{joint} {pipe} of {}", quote.supplier)
    }
}

fn lift(week: &Week, offer: &[usize]) -> Option<Term> {
    let quote = &week.quotes[*offer.first()?];
    let lift = quote.terms.lift?;
    if lift.fee == Money::ZERO && lift.part_fee == Money::ZERO {
        return None;
    }
    Some(Term {
        name: format!("lifts of {}", offer_name(week, quote)),
        supplier: quote.supplier.clone(),
        quotes: offer.to_vec(),
        kind: TermKind::Lift {
            joints: lift.joints,
            fee: lift.fee,
            part_fee: lift.part_fee,
        },
    })
}

/// A break's fewest joints each, and what is to be had over all of them.
fn counts(week: &Week, offer: &[usize]) -> Vec<Term> {
    let mut out = Vec::new();
    let mut add = |index: usize, quotes: &[usize], name: &str, kind: TermKind| {
        let quote = &week.quotes[index];
        out.push(Term {
            name: format!("{name}{}", offer_name(week, quote)),
            supplier: quote.supplier.clone(),
            quotes: quotes.to_vec(),
            kind,
        });
    };
    for index in offer.iter().copied() {
        let least = week.quotes[index].terms.from;
        if least > 1 {
            let name = format!("from {least} joints on, ");
            add(
                index,
                &[index],
                &name,
                TermKind::Count { least, most: None },
            );
        }
    }
    if let (Some(first), Some(most)) = (
        offer.first().filter(|_| offer.len() > 1),
        offer.first().and_then(|q| week.quotes[*q].available),
    ) {
        let kind = TermKind::Count {
            least: 1,
            most: Some(most),
        };
        add(*first, offer, "to be had: ", kind);
    }
    out
}
