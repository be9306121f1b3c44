//! Rows in turn, the stricter first, so that no row is dearer than one whose plan it could use.
//!
//! The searches stop at a gap, so of two rows the one with more to choose from might come out dearer. Each row
//! is offered the plans of the stages before it; one that is a plan of its own week too, and cheaper, is
//! taken. Within a stage rows run in parallel: the same answer for any number of threads.

use rayon::prelude::*;

use super::break_even::as_text;
use super::row::run_offered;
use super::{Change, How, Row, Variant};
use crate::check::CheckedPlan;
use crate::order::{SplicePolicy, Week};
use crate::plan::Offered;

/// A row and its plan.
type Made = (Row, Option<CheckedPlan>);

/// Every variant's row and plan, in the variants' order; variants that come to one week are planned once.
pub(super) fn in_turn(week: &Week, variants: &[Variant], how: How<'_>) -> Vec<Made> {
    let weeks: Vec<Week> = variants.par_iter().map(|v| v.of(week).0).collect();
    let texts: Vec<String> = weeks.par_iter().map(as_text).collect();
    let first = |i: usize| texts.iter().position(|t| *t == texts[i]).unwrap_or(i);
    let stages: Vec<(u8, usize)> = variants
        .iter()
        .zip(&weeks)
        .map(|(v, w)| (strictness(week, v), w.quotes.len()))
        .collect();
    let mut order = stages.clone();
    order.sort_unstable();
    order.dedup();
    let mut made: Vec<Option<Made>> = vec![None; variants.len()];
    for stage in order {
        let offers = offers(&made);
        let due: Vec<usize> = (0..variants.len())
            .filter(|i| stages[*i] == stage && first(*i) == *i)
            .collect();
        let rows: Vec<(usize, Made)> = due
            .into_par_iter()
            .map(|i| (i, run_offered(week, &variants[i], how, &offers)))
            .collect();
        for (i, row) in rows {
            made[i] = Some(row);
        }
    }
    let as_named = |(i, v): (usize, &Variant)| {
        let (row, plan) = made[first(i)].clone()?;
        let own = Row {
            name: v.name.clone(),
            choice: v.choice(week.shop.units),
            notes: v.of(week).1,
            ..row
        };
        Some((own, plan))
    };
    variants.iter().enumerate().filter_map(as_named).collect()
}

/// The plans made so far.
fn offers(made: &[Option<Made>]) -> Vec<Offered<'_>> {
    let mut out = Vec::new();
    for (row, plan) in made.iter().flatten() {
        if let Some(plan) = plan {
            out.push(Offered {
                name: &row.name,
                week: plan.week(),
                plan: plan.plan(),
            });
        }
    }
    out
}

/// 0: leaves less to choose from than the week as it stands; 1: changes nothing; 2: leaves more, or other
/// work, or counts otherwise.
fn strictness(week: &Week, variant: &Variant) -> u8 {
    let shop = &week.shop;
    let stricter = |change: &Change| match change {
        Change::Lengths(_) | Change::Supplier(_) | Change::Splices(SplicePolicy::Never) => true,
        Change::Splices(SplicePolicy::AsFewAsNeeded) => {
            shop.splice.policy == SplicePolicy::WhereverItPays
        }
        Change::Kerf(entered) => *entered > shop.saw.kerf_entered,
        Change::KeepLength(keep) => *keep > shop.money.keep_length,
        _ => false,
    };
    match variant.changes.as_slice() {
        [] => 1,
        changes if changes.iter().all(stricter) => 0,
        _ => 2,
    }
}
