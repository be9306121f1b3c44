//! Charges of the nest problem derived again from quotes and suppliers' terms; names aside they must be
//! the plan's, else its bound speaks of another week.

use std::collections::BTreeSet;

use super::case::Case;
use super::docket::Docket;
use super::rule::Rule;
use super::tariff::Tariff;
use crate::measure::{Length, Money};
use crate::nest::{Charge, ChargeKind, StockOf};
use crate::order::{Quote, Supplier, Week};
use crate::stock::StockOrigin;

/// A charge without its name: its stocks, and what is asked.
type Bare = (Vec<StockOf>, String);

/// Judges the problem's charges.
pub(super) fn judge(case: &Case<'_>, tariff: &Tariff, docket: &mut Docket) {
    let said = &case.plan.nest.problem.charges;
    let mut names: Vec<&str> = said.iter().map(|c| c.name.as_str()).collect();
    names.sort_unstable();
    names.dedup();
    docket.same(names.len(), said.len(), Rule::NestChargeNames, "problem");
    let own = Sold::of(case, tariff).charges(case.week);
    docket.same(bare(said), bare(&own), Rule::NestCharges, "problem");
}

fn bare(charges: &[Charge]) -> Vec<Bare> {
    let mut out: Vec<Bare> = charges
        .iter()
        .map(|c| {
            let mut over = c.over.clone();
            over.sort_unstable();
            (over, format!("{:?}", c.kind))
        })
        .collect();
    out.sort();
    out
}

/// Quotes that are stocks of the problem: where each stands, and whether its pipe has money.
struct Sold<'a> {
    rows: Vec<(&'a Quote, StockOf, bool)>,
}

impl<'a> Sold<'a> {
    fn of(case: &Case<'a>, tariff: &Tariff) -> Sold<'a> {
        let mut rows = Vec::new();
        for (pool, source) in case.plan.pools.iter().enumerate() {
            for (stock, listed) in source.stocks.iter().enumerate() {
                if let StockOrigin::Quote(q) = listed.origin {
                    let priced = tariff.priced(source.pipe);
                    rows.push((&case.week.quotes[q], StockOf { pool, stock }, priced));
                }
            }
        }
        Sold { rows }
    }

    /// Stocks with money whose quote is so.
    fn paid(&self, wanted: impl Fn(&Quote) -> bool) -> Vec<StockOf> {
        let rows = self
            .rows
            .iter()
            .filter(|(q, _, priced)| *priced && wanted(q));
        rows.map(|(_, at, _)| *at).collect()
    }

    fn charges(&self, week: &Week) -> Vec<Charge> {
        let mut out = Vec::new();
        let mut add = |over: Vec<StockOf>, kind: ChargeKind| {
            if !over.is_empty() {
                out.push(Charge {
                    name: String::new(),
                    over,
                    kind,
                });
            }
        };
        for supplier in &week.suppliers {
            for (beyond, amount, free_over) in rises(supplier) {
                let carried = |q: &Quote| q.supplier == supplier.name && q.nominal > beyond;
                add(self.paid(carried), ChargeKind::Fixed { amount, free_over });
            }
            if let Some(least) = supplier.minimum.and_then(Money::millicents)
                && least > 0
            {
                let own = |q: &Quote| q.supplier == supplier.name;
                add(self.paid(own), ChargeKind::Minimum { least });
            }
        }
        for (quote, at, priced) in &self.rows {
            let least = quote.terms.from;
            if least > 1 {
                add(vec![*at], ChargeKind::Range { least, most: None });
            }
            if !self.first_of_offer(quote, *at) {
                continue;
            }
            let offer = self.offer(quote, *at);
            if let (Some(lift), true) = (quote.terms.lift, *priced) {
                let (fee, part_fee) = (units(lift.fee), units(lift.part_fee));
                if fee > 0 || part_fee > 0 {
                    let lift = lift.joints;
                    add(
                        offer.clone(),
                        ChargeKind::Lift {
                            lift,
                            fee,
                            part_fee,
                        },
                    );
                }
            }
            if let (Some(most), true) = (quote.available, offer.len() > 1) {
                let kind = ChargeKind::Range {
                    least: 1,
                    most: Some(most),
                };
                add(offer, kind);
            }
        }
        out
    }

    /// The row an offer is read from: one without a count, or the lowest break where there is none.
    fn first_of_offer(&self, quote: &Quote, at: StockOf) -> bool {
        if quote.terms.from <= 1 {
            return true;
        }
        let lower = |(q, other, _): &&(&Quote, StockOf, bool)| {
            *other != at && q.same_joint(quote) && q.terms.from < quote.terms.from
        };
        !self.rows.iter().any(|row| lower(&row))
    }

    /// Every row of the same joint that a count leads to from this one.
    fn offer(&self, quote: &Quote, at: StockOf) -> Vec<StockOf> {
        let higher = |(q, other, _): &&(&Quote, StockOf, bool)| {
            *other == at || (q.same_joint(quote) && q.terms.from > quote.terms.from.max(1))
        };
        let rows = self.rows.iter().filter(higher);
        rows.map(|(_, at, _)| *at).collect()
    }
}

/// Where freight rises: over which length, by how much, and free from which sum; the free sum frees
/// the first rise alone.
fn rises(supplier: &Supplier) -> Vec<(Length, i64, Option<i64>)> {
    let mut out = Vec::new();
    let mut below = 0;
    let mut beyond = Length::ZERO;
    for (first, step) in supplier
        .freight
        .iter()
        .enumerate()
        .map(|(i, s)| (i == 0, s))
    {
        let amount = units(step.amount) - below;
        if amount > 0 {
            let free = supplier.free_over.filter(|_| first).map(units);
            out.push((beyond, amount, free));
        }
        below = units(step.amount);
        beyond = step.up_to.unwrap_or(beyond);
    }
    out
}

fn units(money: Money) -> i64 {
    money.millicents().unwrap_or(0)
}

/// Every stock of every charge is one of the problem's, no stock twice.
pub(super) fn sound(case: &Case<'_>, docket: &mut Docket) {
    let problem = &case.plan.nest.problem;
    for charge in &problem.charges {
        let known = |at: &StockOf| {
            let pool = problem.pools.get(at.pool);
            pool.is_some_and(|p| at.stock < p.stocks.len())
        };
        let distinct: BTreeSet<&StockOf> = charge.over.iter().collect();
        let fine = charge.over.iter().all(known) && distinct.len() == charge.over.len();
        docket.demand(fine, Rule::NestCharges, &charge.name, || {
            "it names a stock that is not there, or one twice".to_owned()
        });
    }
}
