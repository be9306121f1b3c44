//! The freight of one supplier's order in words: what it is by their terms, and whether this order makes it free.

use rust_decimal::Decimal;

use crate::measure::Money;

use super::figures::Figures;
use super::job::Job;
use super::order_line::{OrderLine, sum_known};

/// How the freight follows from the supplier's terms; `whose`: "your" in a letter, "their" in the shop's lists.
pub(super) fn freight_words(
    job: Job<'_>,
    supplier: &str,
    lines: &[&OrderLine<'_>],
    whose: &str,
) -> String {
    let figures = Figures::of(job.week);
    let terms = job
        .week
        .supplier(supplier)
        .filter(|t| !t.freight.is_empty());
    let Some(terms) = terms else {
        return format!("Freight by {whose} terms: none is quoted, none is in this total.");
    };
    let money = |m: Money| {
        if m == Money::ZERO {
            return "free".to_owned();
        }
        figures.spoken_money(Some(m))
    };
    let steps = terms.freight.iter().map(|step| match step.up_to {
        Some(length) => format!(
            "joints up to {} {}",
            figures.spoken(length),
            money(step.amount)
        ),
        None if terms.freight.len() > 1 => format!("longer ones {}", money(step.amount)),
        None => money(step.amount),
    });
    let steps: Vec<String> = steps.collect();
    let free = terms.free_over.map(|over| {
        let first = if terms.freight.len() > 1 {
            "the first step is free"
        } else {
            "free"
        };
        let reached = if reaches(lines, over) {
            ": this order reaches it"
        } else {
            ""
        };
        format!("; {first} from {} of joints{reached}", money(over))
    });
    format!(
        "Freight by {whose} terms: {}{}.",
        steps.join(", "),
        free.unwrap_or_default()
    )
}

/// Whether a freight is quoted that this order does not pay, because its joints come to enough.
pub(super) fn free_by_amount(job: Job<'_>, supplier: &str, lines: &[&OrderLine<'_>]) -> bool {
    use crate::plan::FeeKind::Freight;
    let terms = job.week.supplier(supplier);
    let over = terms.and_then(|t| t.free_over.filter(|_| !t.freight.is_empty()));
    let mut fees = job.plan.fees.iter();
    let billed = fees.any(|f| f.supplier == supplier && f.kind == Freight);
    over.is_some_and(|over| reaches(lines, over)) && !billed
}

/// Whether the joints ordered, spares aside, come to an amount before tax: exactly, as fees are judged.
fn reaches(lines: &[&OrderLine<'_>], amount: Money) -> bool {
    let wanted = lines.iter().filter(|l| !l.spare);
    let price = |l: &&OrderLine<'_>| {
        let each = l.of.price?;
        each.0.checked_mul(Decimal::from(l.joints)).map(Money)
    };
    sum_known(wanted.map(price)).is_some_and(|sum| sum >= amount)
}
