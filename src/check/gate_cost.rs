//! Each gate's share of the plan's money, derived again from the joints, piece by piece.

use std::collections::BTreeMap;

use super::case::Case;
use super::docket::Docket;
use super::tariff::Tariff;
use crate::measure::{Length, Money, cents_that_add, share_out};
use crate::order::PipeId;
use crate::plan::JointSource;

/// Gate or extra part: gates come first, in week order.
type Owner = (bool, Option<usize>, Option<usize>);

/// What one owner bears, 1/1000 cent, and the ticks cut for it from bought joints.
#[derive(Default)]
struct Burden {
    pipe: i64,
    splices: i64,
    bought: i64,
}

/// Judges the rows: one for each owner, each part of its money, and the sum against the plan's total.
pub(super) fn judge(case: &Case<'_>, tariff: &Tariff, docket: &mut Docket) {
    let plan = case.plan;
    let Some(total) = plan.total else {
        docket.same(plan.gate_costs.len(), 0, "gate-cost-rows", "plan");
        return;
    };
    let burdens = burdens(case, tariff);
    let owners: Vec<Owner> = burdens.keys().copied().collect();
    let said: Vec<Owner> = plan
        .gate_costs
        .iter()
        .map(|c| (c.gate.is_none(), c.gate, c.extra))
        .collect();
    docket.same(&said, &owners, "gate-cost-rows", "plan");
    let own: i64 = burdens.values().map(|b| b.pipe + b.splices).sum();
    let whole: i64 = total.millicents().unwrap_or(0);
    let by: Vec<i64> = burdens.values().map(|b| b.bought).collect();
    let shared = share_out(whole - own, &by);
    let exact: Vec<i64> = burdens
        .values()
        .zip(&shared)
        .map(|(b, s)| b.pipe + b.splices + s)
        .collect();
    let totals = cents_that_add(&exact);
    let rows = plan.gate_costs.iter().zip(burdens.values());
    for (((row, burden), shared), total) in rows.zip(&shared).zip(totals) {
        let name = name(case, row.gate, row.extra);
        let cents = |m: i64| Money::from_millicents(m).cents();
        docket.same(row.total, cents(total * 1_000), "gate-cost-total", &name);
        docket.same(
            row.splices,
            cents(burden.splices),
            "gate-cost-splices",
            &name,
        );
        docket.same(row.shared, cents(*shared), "gate-cost-shared", &name);
        let sum = row.pipe + row.splices + row.shared;
        docket.same(sum, row.total, "gate-cost-parts", &name);
    }
    if !plan.gate_costs.is_empty() {
        let sum: Money = plan.gate_costs.iter().map(|c| c.total).sum();
        docket.same(sum.cents(), total.cents(), "gate-cost-sum", "plan");
    }
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
    for line in &case.plan.spliced {
        let pipe: PipeId = case.take_off.parts[line.part].pipe;
        let each = tariff.splice(week, pipe);
        let charge = |class| tariff.class_charge(week, pipe, class);
        let charged = line.splices.iter().map(|s| each + charge(s.class));
        out.entry(owner(line.part)).or_default().splices += charged.sum::<i64>();
    }
    out
}
