//! `OrderLine`: one line of an order as it is sent, whatever paper it goes on.

use std::collections::BTreeSet;

use jiff::civil::Date;

use crate::measure::{Length, Money};
use crate::order::{PriceBasis, Quote};
use crate::plan::JointSource;

use super::job::Job;
use super::table::clean;

/// One order line: what the plan wants, or spares on top.
pub(super) struct OrderLine<'a> {
    /// Index into `Week::quotes`.
    pub quote: usize,
    /// The quote.
    pub of: &'a Quote,
    /// Joints.
    pub joints: u32,
    /// Length billed.
    pub nominal: Length,
    /// Weight by nominal length, lb or kg.
    pub weight: f64,
    /// Money before tax, to the cent.
    pub money: Option<Money>,
    /// Tax, to the cent.
    pub tax: Option<Money>,
    /// Spare joints.
    pub spare: bool,
    /// Marks of the gates and extra parts cut from these joints, in week order.
    pub marks: Vec<String>,
    /// Day they must be here; `None`: nothing cut from them has a due date.
    pub needed: Option<Date>,
    /// The price ran out before the order date: its last day.
    pub expired: Option<Date>,
}

/// The order lines of a plan: what it wants, then spares.
pub(super) fn order_lines(job: Job<'_>) -> Vec<OrderLine<'_>> {
    let bought = job.plan.buy.iter().filter(|b| b.joints > 0).map(|b| {
        let line = line(job, b.quote, b.joints, (b.money, b.tax));
        let (marks, needed) = wanted(job, b.quote);
        OrderLine {
            marks,
            needed,
            ..line
        }
    });
    let spares = job.plan.spares.iter().filter(|s| s.joints > 0);
    let spares = spares.map(|s| OrderLine {
        spare: true,
        ..line(job, s.quote, s.joints, (s.money, s.tax))
    });
    bought.chain(spares).collect()
}

fn line(
    job: Job<'_>,
    quote: usize,
    joints: u32,
    (money, tax): (Option<Money>, Option<Money>),
) -> OrderLine<'_> {
    let of = &job.week.quotes[quote];
    let nominal = of.nominal * i64::from(joints);
    let pipe = job.week.pipe(of.pipe);
    OrderLine {
        quote,
        of,
        joints,
        nominal,
        weight: pipe.weight(job.units(), nominal.geometric()),
        money,
        tax,
        spare: false,
        marks: Vec::new(),
        needed: None,
        expired: of.terms.valid_until.filter(|_| job.week.expired(of)),
    }
}

/// What is cut from a quote's joints, and the first day it is wanted.
fn wanted(job: Job<'_>, quote: usize) -> (Vec<String>, Option<Date>) {
    let joints = job.plan.joints.iter();
    let mine = joints.filter(|j| j.source == JointSource::Bought(quote));
    let parts = mine
        .flat_map(|j| &j.pieces)
        .map(|p| &job.take_off.parts[p.part]);
    let owners: BTreeSet<(bool, Option<usize>, Option<usize>)> =
        parts.map(|p| (p.gate.is_none(), p.gate, p.extra)).collect();
    let mark = |(_, gate, extra): &(bool, Option<usize>, Option<usize>)| match (*gate, *extra) {
        (Some(g), _) => Some(job.week.gates[g].mark.clone()),
        (None, Some(e)) => Some(job.week.extras[e].mark.clone()),
        (None, None) => None,
    };
    let days = owners.iter().filter_map(|(_, g, _)| job.week.wanted((*g)?));
    (owners.iter().filter_map(mark).collect(), days.min())
}

/// Suppliers in the order their first line stands.
pub(super) fn suppliers(lines: &[OrderLine<'_>]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for line in lines {
        if !names.contains(&line.of.supplier) {
            names.push(line.of.supplier.clone());
        }
    }
    names
}

/// Sum of amounts; `None` as soon as one is not known.
pub(super) fn sum_known(amounts: impl Iterator<Item = Option<Money>>) -> Option<Money> {
    let known: Option<Vec<Money>> = amounts.collect();
    known.map(|k| k.into_iter().sum())
}

/// The price of one joint with the decimals that a reader needs to multiply it into the line's
/// money; `None` without a price.
pub(super) fn price_each(line: &OrderLine<'_>) -> Option<Money> {
    line.of.price.map(|price| price.to_multiply(line.joints))
}

/// The price as quoted and what it makes a joint: `3.48 / foot, 73.08 a joint`; by weight with the
/// theoretical weight taken; `None` without a price.
pub(super) fn price_words(job: Job<'_>, line: &OrderLine<'_>) -> Option<String> {
    let quote = line.of;
    let price = price_each(line)?;
    let quoted = quote.quoted?;
    let mut words = quoted.to_string();
    if let Some((weight, unit)) = quoted.weight.zip(quoted.per.weight_unit()) {
        words.push_str(&format!(" at {weight} {unit}"));
    }
    if quoted.per != PriceBasis::Joint {
        let money = super::figures::Figures::of(job.week).spoken_price(price);
        words.push_str(&format!(", {money} a joint"));
    }
    if quote.terms.from > 1 {
        words.push_str(&format!(" (from {} joints on)", quote.terms.from));
    }
    Some(words)
}

/// What is asked of every joint ordered, without a full stop.
pub(super) fn ends_words(job: Job<'_>) -> String {
    let tolerance = &job.week.shop.buying.tolerance;
    let rest = if tolerance.is_empty() {
        "State the length tolerance you hold, and tell us before shipping if a joint runs short"
            .to_owned()
    } else {
        format!("Length tolerance {}", clean(tolerance))
    };
    format!("Uniform length, no jointers, plain square ends. {rest}")
}

/// Where and when the shop takes deliveries; `None` when it does not say.
pub(super) fn delivery_words(job: Job<'_>) -> Option<String> {
    let words = clean(&job.week.shop.buying.delivery);
    (!words.is_empty()).then_some(words)
}
