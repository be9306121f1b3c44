//! The hand reference *longest first, pooled*: all parts of a pipe together, longest first, best fit;
//! fees of its orders included, breaks at the counts it comes to.

use super::Reference;
use super::earn::earn;
use super::fee::fees_of;
use super::problem::Work;
use crate::measure::Money;
use crate::nest::{PoolAnswer, longest_first};
use crate::order::Week;
use crate::stock::{PoolSource, StockOrigin};

/// The week, longest first.
pub(crate) fn pooled(week: &Week, pools: &[PoolSource], work: &Work) -> Reference {
    let mut reference = Reference {
        name: "longest first, pooled".to_owned(),
        joints: 0,
        money: None,
        splices: 0,
        failed: None,
    };
    let mut answers: Vec<PoolAnswer> = Vec::new();
    for pool in &work.problem.pools {
        match longest_first(pool).filter(|a| a.status.has_plan()) {
            Some(answer) => answers.push(answer),
            None => reference.failed = Some(format!("{} cannot be cut so", pool.name)),
        }
    }
    for answer in &answers {
        let joints = answer.patterns.iter().map(|p| p.times);
        reference.joints = joints.fold(reference.joints, u32::saturating_add);
        for c in &answer.configurations {
            let each: usize = c.lines.iter().map(|l| l.len().saturating_sub(1)).sum();
            let each = u32::try_from(each).unwrap_or(u32::MAX);
            let all = each.saturating_mul(c.times);
            reference.splices = reference.splices.saturating_add(all);
        }
    }
    let priced = pools.iter().all(|p| p.priced);
    if reference.failed.is_none() {
        match cost(week, pools, work, answers) {
            Some(cost) => reference.money = priced.then(|| Money::from_millicents(cost)),
            None => {
                let why = "it buys counts that are not to be had so";
                reference.failed = Some(why.to_owned());
            }
        }
    }
    reference
}

/// Landed money of answers, 1/1000 cent; `None` when a count is not to be had.
fn cost(
    week: &Week,
    pools: &[PoolSource],
    work: &Work,
    mut answers: Vec<PoolAnswer>,
) -> Option<i64> {
    earn(week, pools, &work.problem, &mut answers, None);
    let taken: Vec<Vec<u64>> = pools
        .iter()
        .zip(&answers)
        .map(|(source, answer)| {
            let mut taken = vec![0u64; source.stocks.len()];
            for pattern in &answer.patterns {
                taken[pattern.stock] += u64::from(pattern.times);
            }
            taken
        })
        .collect();
    let charges = work.problem.charges.iter();
    let possible: Option<Vec<i128>> = charges.map(|c| c.money(&work.problem, &taken)).collect();
    possible?;
    let count = |quote: usize| {
        let stocks = pools.iter().zip(&taken);
        let mine = stocks.flat_map(|(source, taken)| source.stocks.iter().zip(taken));
        let mine = mine.filter(|(s, _)| s.origin == StockOrigin::Quote(quote));
        let sum: u64 = mine.map(|(_, n)| *n).sum();
        i64::try_from(sum).unwrap_or(i64::MAX)
    };
    let fees = fees_of(week, pools, &count);
    let fees = fees.iter().map(|f| f.millicents);
    let pipes = answers.iter().map(|a| a.cost);
    Some(fees.chain(pipes).fold(0, i64::saturating_add))
}
