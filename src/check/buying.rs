//! The buy list, the spares and the money of each pipe and of the week, to the cent.

use std::collections::BTreeMap;

use super::case::Case;
use super::docket::Docket;
use super::ledger;
use super::rule::Rule;
use super::supply::quote_name;
use super::tariff::{Tariff, line_money, line_tax, new_usable, on_sale};
use crate::measure::{Length, Money};
use crate::order::{PipeId, Quote};
use crate::plan::{JointSource, PipeOutcome, Uncut};

/// Pounds or kilograms: far under any printed digit.
const WEIGHT_WITHIN: f64 = 1e-6;

/// Judges buy list, spares, outcome of each pipe, fees and the ledger; the plan's exact cost, 1/1000
/// cent, `None` when a price is missing.
pub(super) fn judge(case: &Case<'_>, tariff: &Tariff, docket: &mut Docket) -> Option<i64> {
    buy_list(case, docket);
    spares(case, docket);
    let mut cost = 0i64;
    let mut known = true;
    for outcome in &case.plan.pipes {
        cost = cost.saturating_add(pipe(case, tariff, outcome, docket));
        known &= tariff.priced(outcome.pipe);
    }
    pools_listed_once(case, docket);
    let fees = ledger::judge(case, tariff, docket);
    known.then_some(cost.saturating_add(fees))
}

fn buy_list(case: &Case<'_>, docket: &mut Docket) {
    let mut wanted: BTreeMap<usize, u32> = BTreeMap::new();
    for joint in &case.plan.joints {
        if let JointSource::Bought(q) = joint.source {
            *wanted.entry(q).or_default() += 1;
        }
    }
    for whole in &case.plan.uncut {
        *wanted.entry(whole.quote).or_default() += whole.joints;
    }
    for line in &case.plan.buy {
        let name = quote_name(case, line.quote);
        let quote = &case.week.quotes[line.quote];
        let own = wanted.remove(&line.quote).unwrap_or(0);
        docket.same(line.joints, own, Rule::BuyJoints, &name);
        let nominal = quote.nominal * i64::from(own);
        docket.same(line.nominal, nominal, Rule::BuyFeet, &name);
        let weight = weigh(case, quote, nominal);
        docket.near(line.weight, weight, WEIGHT_WITHIN, Rule::BuyWeight, &name);
        let money = line_money(quote.price, own);
        docket.same(line.money, money, Rule::BuyMoney, &name);
        let taxed = line_tax(case.week, quote, own);
        docket.same(line.tax, taxed, Rule::BuyTax, &name);
    }
    for (q, n) in wanted {
        docket.say(
            Rule::BuyJoints,
            &quote_name(case, q),
            format!("{n} joints are cut and none is on the buy list"),
        );
    }
}

/// ASTM F1083 / ASME B36.10M: lb/ft = 10.69 (OD − t) t in inches; kg/m = 0.02466 (OD − t) t in mm.
fn weigh(case: &Case<'_>, quote: &Quote, length: Length) -> f64 {
    let pipe = case.week.pipe(quote.pipe);
    super::parts::weigh(case.week.shop.units, pipe, length)
}

fn per_foot_order(a: &Quote, b: &Quote) -> std::cmp::Ordering {
    let cross = |p: &Quote, n: &Quote| {
        p.price
            .map(|m| m.0 * rust_decimal::Decimal::from(n.nominal.ticks()))
    };
    match (cross(a, b), cross(b, a)) {
        (Some(x), Some(y)) => x.cmp(&y),
        (Some(_), None) => std::cmp::Ordering::Less,
        (None, Some(_)) => std::cmp::Ordering::Greater,
        (None, None) => std::cmp::Ordering::Equal,
    }
}

fn spares(case: &Case<'_>, docket: &mut Docket) {
    let mut seen: Vec<PipeId> = Vec::new();
    for spare in &case.plan.spares {
        let name = quote_name(case, spare.quote);
        let quote = &case.week.quotes[spare.quote];
        let wanted = case.week.shop.money.spares.iter();
        let own = wanted
            .filter(|(p, _)| *p == quote.pipe)
            .map(|(_, n)| *n)
            .sum::<u32>();
        docket.same(spare.joints, own, Rule::SpareJoints, &name);
        docket.demand(!seen.contains(&quote.pipe), Rule::SpareTwice, &name, || {
            "this pipe has more than one line of spares".to_owned()
        });
        seen.push(quote.pipe);
        let cheaper = case.week.quotes.iter().any(|q| {
            let earned = q.terms.from <= own.max(1);
            q.pipe == quote.pipe && earned && per_foot_order(q, quote).is_lt()
        });
        docket.demand(!cheaper, Rule::SpareQuote, &name, || {
            "another joint of this pipe is cheaper per nominal foot".to_owned()
        });
        let money = line_money(quote.price, own);
        docket.same(spare.money, money, Rule::SpareMoney, &name);
        let taxed = line_tax(case.week, quote, own);
        docket.same(spare.tax, taxed, Rule::SpareTax, &name);
    }
    for (pipe, n) in &case.week.shop.money.spares {
        let cut = case.plan.joints.iter().any(|j| j.pipe == *pipe);
        let sold = on_sale(case.week, *pipe).next().is_some();
        let missing = *n > 0 && cut && sold && !seen.contains(pipe);
        docket.demand(
            !missing,
            Rule::SpareJoints,
            &case.week.pipe(*pipe).name,
            || format!("{n} spare joints are wanted and none is listed"),
        );
    }
}

/// Judges one pipe's figures; returns its cost by the judge's own sum, 1/1000 cent.
fn pipe(case: &Case<'_>, tariff: &Tariff, outcome: &PipeOutcome, docket: &mut Docket) -> i64 {
    let name = case.week.pipe(outcome.pipe).title();
    let joints = || case.plan.joints.iter().filter(|j| j.pipe == outcome.pipe);
    let count = |bought: bool| {
        let n = joints()
            .filter(|j| matches!(j.source, JointSource::Bought(_)) == bought)
            .count();
        u32::try_from(n).unwrap_or(u32::MAX)
    };
    let mine = |u: &&Uncut| case.week.quotes[u.quote].pipe == outcome.pipe;
    let uncut = || case.plan.uncut.iter().filter(mine);
    let bought = uncut().fold(count(true), |n, u| n.saturating_add(u.joints));
    docket.same(outcome.bought, bought, Rule::OutcomeBought, &name);
    docket.same(outcome.from_rack, count(false), Rule::OutcomeRack, &name);
    docket.same(
        outcome.priced,
        tariff.priced(outcome.pipe),
        Rule::OutcomePriced,
        &name,
    );
    let add = i64::saturating_add;
    let taken = joints()
        .map(|j| tariff.cost(case.week, j.source))
        .fold(0, add);
    let whole = |u: &Uncut| {
        let each = tariff.cost(case.week, JointSource::Bought(u.quote));
        each.saturating_mul(i64::from(u.joints))
    };
    let taken = uncut().map(whole).fold(taken, add);
    let kerf = case.week.shop.saw.kerf;
    let credits = joints()
        .map(|j| {
            let drop = (j.leftover - kerf).max(Length::ZERO);
            tariff.credit(case.week, j.pipe, drop)
        })
        .fold(0, add);
    let credits = uncut()
        .map(|u| uncut_credit(case, tariff, u, docket))
        .fold(credits, add);
    let cost = taken
        .saturating_sub(credits)
        .saturating_add(splices(case, tariff, outcome.pipe));
    docket.same(outcome.pipe_money, taken, Rule::OutcomePipeMoney, &name);
    docket.same(outcome.cost, cost, Rule::OutcomeCost, &name);
    cost
}

/// What joints left whole are credited: each by its usable length.
fn uncut_credit(case: &Case<'_>, tariff: &Tariff, uncut: &Uncut, docket: &mut Docket) -> i64 {
    let quote = &case.week.quotes[uncut.quote];
    let each = tariff.credit(case.week, quote.pipe, new_usable(case.week, quote));
    let credit = each.saturating_mul(i64::from(uncut.joints));
    let own = Money::from_millicents(credit);
    let name = quote_name(case, uncut.quote);
    docket.same(uncut.credit, own, Rule::UncutCredit, &name);
    credit
}

/// Splices and class charges of one pipe, 1/1000 cent.
fn splices(case: &Case<'_>, tariff: &Tariff, pipe: PipeId) -> i64 {
    let each = tariff.splice(case.week, pipe);
    let of_pipe = |part: usize| case.take_off.parts[part].pipe == pipe;
    case.plan
        .spliced
        .iter()
        .filter(|l| !l.stays)
        .filter(|l| of_pipe(l.part))
        .flat_map(|l| &l.splices)
        .map(|s| each.saturating_add(tariff.class_charge(case.week, pipe, s.class)))
        .fold(0, i64::saturating_add)
}

fn pools_listed_once(case: &Case<'_>, docket: &mut Docket) {
    let plan = case.plan;
    let pipes: Vec<PipeId> = plan.pools.iter().map(|p| p.pipe).collect();
    let outcomes: Vec<PipeId> = plan.pipes.iter().map(|p| p.pipe).collect();
    docket.same(&outcomes, &pipes, Rule::OutcomeOrder, "plan");
    let mut sorted = pipes.clone();
    sorted.sort();
    sorted.dedup();
    docket.same(pipes.len(), sorted.len(), Rule::PoolTwice, "plan");
    for joint in &plan.joints {
        docket.demand(
            sorted.contains(&joint.pipe),
            Rule::OutcomeMissing,
            &super::case::joint_name(joint),
            || "its pipe has no pool".to_owned(),
        );
    }
}
