//! The nest answer against the joints, and the status against the bound.

use std::collections::BTreeMap;

use super::case::{Case, joint_name};
use super::certificate;
use super::docket::Docket;
use super::rule::Rule;
use crate::nest::{Cut, Pool, PoolAnswer};
use crate::plan::JointSource;
use crate::stock::{PoolSource, StockOrigin};

/// A joint's stock and the lengths cut from it, longest first.
type Content = (usize, Vec<i64>);

/// Judges answers, outcomes and certificates.
pub(super) fn judge(case: &Case<'_>, docket: &mut Docket) {
    let plan = case.plan;
    let nest = &plan.nest;
    for (outcome, answer) in plan.pipes.iter().zip(&nest.answers) {
        let name = case.week.pipe(outcome.pipe).title();
        docket.same(outcome.cost, answer.cost, Rule::OutcomeCost, &name);
        docket.same(outcome.bound, answer.bound, Rule::OutcomeBound, &name);
        docket.same(outcome.status, answer.status, Rule::OutcomeStatus, &name);
        docket.same(outcome.stop, answer.stop, Rule::OutcomeStatus, &name);
        let short = !answer.short.is_empty() || !answer.short_groups.is_empty();
        docket.demand(
            !short || !plan.left_out.is_empty(),
            Rule::ShortUnnamed,
            &name,
            || "pieces are missing and nothing is left out by name".to_owned(),
        );
    }
    if let Some(whole) = &nest.whole {
        let sum = |money: &mut dyn Iterator<Item = i64>| money.fold(0, i64::saturating_add);
        let charges = sum(&mut whole.charges.iter().copied());
        let fees = sum(&mut plan.fees.iter().map(|f| f.millicents));
        docket.same(charges, fees, Rule::WholeCharges, "plan");
    }
    let pools = plan
        .pools
        .iter()
        .zip(&nest.problem.pools)
        .zip(&nest.answers);
    for ((source, pool), answer) in pools {
        patterns(case, source, pool, answer, docket);
    }
    if let Err(found) = certificate::verify(&nest.problem, &nest.answers, nest.whole.as_ref()) {
        docket.extend(found);
    }
}

/// Joints hold just what the patterns say.
fn patterns(
    case: &Case<'_>,
    source: &PoolSource,
    pool: &Pool,
    answer: &PoolAnswer,
    docket: &mut Docket,
) {
    let mut balance: BTreeMap<Content, i64> = BTreeMap::new();
    for joint in case.plan.joints.iter().filter(|j| j.pipe == source.pipe) {
        let origin = match joint.source {
            JointSource::Bought(q) => StockOrigin::Quote(q),
            JointSource::Rack(r, _) => StockOrigin::Rack(r),
        };
        let Some(stock) = source.stocks.iter().position(|s| s.origin == origin) else {
            let what = "it comes from no stock of the problem".to_owned();
            docket.say(Rule::NestPatterns, &joint_name(joint), what);
            continue;
        };
        let mut lengths: Vec<i64> = joint.pieces.iter().map(|p| p.saw.ticks()).collect();
        lengths.sort_unstable_by(|a, b| b.cmp(a));
        *balance.entry((stock, lengths)).or_default() += 1;
    }
    for whole in &case.plan.uncut {
        let origin = StockOrigin::Quote(whole.quote);
        if let Some(stock) = source.stocks.iter().position(|s| s.origin == origin) {
            *balance.entry((stock, Vec::new())).or_default() += i64::from(whole.joints);
        }
    }
    for pattern in &answer.patterns {
        let mut lengths: Vec<i64> = pattern
            .cuts
            .iter()
            .map(|cut| match cut {
                Cut::Item(i) => pool.items.get(*i).map_or(0, |item| item.length),
                Cut::Piece { length, .. } => *length,
            })
            .collect();
        lengths.sort_unstable_by(|a, b| b.cmp(a));
        *balance.entry((pattern.stock, lengths)).or_default() -= i64::from(pattern.times);
    }
    for ((stock, lengths), n) in balance {
        docket.demand(n == 0, Rule::NestPatterns, &pool.name, || {
            format!("stock {stock} with {lengths:?}: {n} more joints than the answer's patterns")
        });
    }
}
