//! Each gate's share of the plan's money, derived again from the joints, piece by piece.

use std::collections::BTreeMap;

use super::case::Case;
use super::docket::Docket;
use super::rule::Rule;
use super::tariff::{Tariff, new_usable};
use crate::measure::{Length, Money, cents_that_add, cents_that_come_to, share_out};
use crate::order::PipeId;
use crate::plan::{JointSource, Ledger};

/// Gate or extra part: gates come first, in week order.
type Owner = (bool, Option<usize>, Option<usize>);

/// What one owner bears, 1/1000 cent, and the ticks cut for it from bought joints.
#[derive(Default)]
struct Burden {
    pipe: i64,
    splices: i64,
    bought: i64,
}

/// Judges the rows: one for each owner, each column of its money, and the sums against the plan's ledger (which
/// is judged by itself).
pub(super) fn judge(case: &Case<'_>, tariff: &Tariff, docket: &mut Docket) {
    let plan = case.plan;
    let Some(ledger) = plan.ledger else {
        docket.same(plan.gate_costs.len(), 0, Rule::GateCostRows, "plan");
        return;
    };
    let burdens = burdens(case, tariff);
    let owners: Vec<Owner> = burdens.keys().copied().collect();
    let said: Vec<Owner> = plan
        .gate_costs
        .iter()
        .map(|c| (c.gate.is_none(), c.gate, c.extra))
        .collect();
    docket.same(&said, &owners, Rule::GateCostRows, "plan");
    let columns = columns(&burdens, &ledger, as_a_whole(case, tariff, &ledger));
    for (row, own) in plan.gate_costs.iter().zip(columns) {
        let name = name(case, row.gate, row.extra);
        let cents = |n: i64| Money::from_millicents(n.saturating_mul(1_000));
        let [pipe, splices, shared] = own.map(cents);
        docket.same(row.pipe, pipe, Rule::GateCostPipe, &name);
        docket.same(row.splices, splices, Rule::GateCostSplices, &name);
        docket.same(row.shared, shared, Rule::GateCostShared, &name);
        let sum = pipe + splices + shared;
        docket.same(row.total, sum, Rule::GateCostTotal, &name);
    }
    if !plan.gate_costs.is_empty() {
        let sum: Money = plan.gate_costs.iter().map(|c| c.total).sum();
        docket.same(sum, ledger.total(), Rule::GateCostSum, "plan");
        let splices: Money = plan.gate_costs.iter().map(|c| c.splices).sum();
        let welded = ledger.splices + ledger.classes;
        docket.same(splices, welded, Rule::GateCostSum, "splices");
    }
}

/// Pipe, splices and share of each owner in cents.
fn columns(burdens: &BTreeMap<Owner, Burden>, ledger: &Ledger, whole: i64) -> Vec<[i64; 3]> {
    let of = |what: fn(&Burden) -> i64| burdens.values().map(what).collect::<Vec<i64>>();
    let cents = |money: Money| money.millicents().unwrap_or(0) / 1_000;
    let shared = cents_that_add(&share_out(whole, &of(|b| b.bought)));
    let welded = cents(ledger.splices + ledger.classes);
    let splices = cents_that_come_to(welded, &of(|b| b.splices));
    let left = cents(ledger.total()) - welded - shared.iter().sum::<i64>();
    let pipe = cents_that_come_to(left, &of(|b| b.pipe));
    let row = |((pipe, splices), shared)| [pipe, splices, shared];
    pipe.into_iter().zip(splices).zip(shared).map(row).collect()
}

/// Fees, and joints left whole less their credit, 1/1000 cent.
fn as_a_whole(case: &Case<'_>, tariff: &Tariff, ledger: &Ledger) -> i64 {
    let week = case.week;
    let whole = case.plan.uncut.iter().map(|u| {
        let quote = &week.quotes[u.quote];
        let credit = tariff.credit(week, quote.pipe, new_usable(week, quote));
        let each = tariff.cost(week, JointSource::Bought(u.quote)) - credit;
        each.saturating_mul(i64::from(u.joints))
    });
    let fees = ledger.freight + ledger.lifts + ledger.minimum;
    whole.sum::<i64>() + fees.millicents().unwrap_or(0)
}

fn name(case: &Case<'_>, gate: Option<usize>, extra: Option<usize>) -> String {
    let gate = gate.and_then(|g| case.week.gates.get(g)).map(|g| &g.mark);
    let extra = extra.and_then(|e| case.week.extras.get(e)).map(|e| &e.mark);
    gate.or(extra).cloned().unwrap_or_default()
}

fn burdens(case: &Case<'_>, tariff: &Tariff) -> BTreeMap<Owner, Burden> {
    let week = case.week;
    let owner = |part: usize| {
        let part = &case.take_off.parts[part];
        (part.gate.is_none(), part.gate, part.extra)
    };
    let mut out: BTreeMap<Owner, Burden> = BTreeMap::new();
    for joint in &case.plan.joints {
        let drop = (joint.leftover - week.shop.saw.kerf).max(Length::ZERO);
        let net = tariff.cost(week, joint.source) - tariff.credit(week, joint.pipe, drop);
        let lengths: Vec<i64> = joint.pieces.iter().map(|p| p.saw.ticks()).collect();
        for ((piece, share), length) in joint
            .pieces
            .iter()
            .zip(share_out(net, &lengths))
            .zip(lengths)
        {
            let burden = out.entry(owner(piece.part)).or_default();
            burden.pipe += share;
            if matches!(joint.source, JointSource::Bought(_)) {
                burden.bought += length;
            }
        }
    }
    for line in case.plan.spliced.iter().filter(|l| !l.stays) {
        let pipe: PipeId = case.take_off.parts[line.part].pipe;
        let each = tariff.splice(week, pipe);
        let charge = |class| tariff.class_charge(week, pipe, class);
        let charged = line.splices.iter().map(|s| each + charge(s.class));
        out.entry(owner(line.part)).or_default().splices += charged.sum::<i64>();
    }
    out
}
