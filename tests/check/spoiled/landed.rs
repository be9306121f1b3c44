//! Landed money, gate costs and days of delivery, spoiled in one place at a time; the judge names each.

use longpoint::check::Rule;
use longpoint::measure::Money;
use longpoint::nest::{Charge, ChargeKind};
use longpoint::plan::Uncut;

use super::spoil::{Spoil, all_named};
use crate::tiny;
use crate::tiny_week::{landed, money, week};

pub const LANDED: &[(Rule, Spoil)] = &[
    (Rule::Fees, |p, _, _| {
        p.fees.pop();
    }),
    (Rule::Fees, |p, _, _| p.fees[0].millicents += 1),
    (Rule::FeeMoney, |p, _, _| p.fees[0].money = money("1")),
    (Rule::Ledger, |p, _, _| {
        if let Some(l) = &mut p.ledger {
            l.tax = Money::ZERO;
        }
    }),
    (Rule::TotalMoney, |p, _, _| {
        p.total = p.total.map(|t| t + money("0.01"))
    }),
    (Rule::BuyTax, |p, _, _| p.buy[0].tax = Some(money("0.01"))),
    (Rule::SpareTax, |p, _, _| {
        p.spares[0].tax = Some(money("0.01"))
    }),
    (Rule::CertificateStatus, |p, _, _| {
        // A bound of the whole over what it costs.
        let whole = p.nest.whole.as_mut().expect("charges");
        whole.status = longpoint::nest::Status::Within;
        whole.bound = whole.cost + 1;
    }),
    (Rule::NestCharges, |p, _, _| {
        p.nest.problem.charges.pop();
    }),
    (Rule::NestCharges, |p, _, _| {
        p.nest.problem.charges[0].over[0].stock = 99
    }),
    (Rule::NestChargeNames, |p, _, _| {
        p.nest.problem.charges[1].name = p.nest.problem.charges[0].name.clone();
    }),
    (Rule::NestStockPrice, |p, _, _| {
        p.nest.problem.pools[0].stocks[0].price = Some(1)
    }),
    (Rule::NestCharges, |_, w, _| {
        w.suppliers[0].freight[0].amount = money("66")
    }),
    (Rule::Fees, |_, w, _| {
        w.suppliers[0].freight[1].amount = money("150")
    }),
    (Rule::NestStockCost, |_, w, _| {
        w.suppliers[0].tax = tiny::dec("0.09")
    }),
    (Rule::BreakMissed, |_, w, _| {
        let mut many = w.quotes[3].clone();
        many.terms.from = 6;
        w.quotes.push(many);
    }),
    (Rule::UncutCredit, |p, _, _| {
        p.uncut.push(Uncut {
            quote: 0,
            joints: 1,
            credit: Money::ZERO,
        });
    }),
    (Rule::CertificateCharges, |p, _, _| p.nest.whole = None),
    (Rule::CertificateCharges, |p, _, _| {
        let several = |c: &&mut Charge| c.over.len() > 1;
        let charge = p.nest.problem.charges.iter_mut().find(several);
        charge.expect("freight on two joints").over.reverse();
    }),
    (Rule::CertificateRange, |p, _, _| {
        let most = |c: &mut Charge| {
            if let ChargeKind::Range { least, .. } = &mut c.kind {
                *least = 99;
            }
        };
        p.nest.problem.charges.iter_mut().for_each(most);
    }),
    (Rule::BreakCount, |_, w, _| w.quotes[3].terms.from = 99),
    (Rule::WholeCharges, |p, _, _| {
        if let Some(w) = &mut p.nest.whole {
            w.charges[0] += 1;
        }
    }),
];

/// Days of delivery.
pub const LATE: &[(Rule, Spoil)] = &[(Rule::JointLate, |_, w, _| {
    w.shop.buying.order_date = Some(jiff::civil::date(2026, 2, 27));
    for quote in &mut w.quotes {
        quote.terms.lead_days = Some(40);
    }
})];

pub const SHARES: &[(Rule, Spoil)] = &[
    (Rule::GateCostTotal, |p, _, _| {
        p.gate_costs[0].total = p.gate_costs[0].total + money("0.01");
        p.gate_costs[1].total = p.gate_costs[1].total - money("0.01");
    }),
    (Rule::GateCostSum, |p, _, _| {
        p.gate_costs[0].total = p.gate_costs[0].total + money("0.01");
    }),
    (Rule::GateCostSplices, |p, _, _| {
        p.gate_costs[0].splices = p.gate_costs[0].splices + money("0.01");
    }),
    (Rule::GateCostShared, |p, _, _| {
        p.gate_costs[0].shared = p.gate_costs[0].shared + money("0.01");
    }),
    (Rule::GateCostPipe, |p, _, _| {
        p.gate_costs[0].pipe = p.gate_costs[0].pipe + money("0.01");
    }),
    (Rule::GateCostRows, |p, _, _| {
        p.gate_costs.pop();
    }),
];

#[test]
fn spoiled_landed_money_is_named() {
    all_named(landed, LANDED);
}

#[test]
fn joints_that_come_too_late_are_named() {
    all_named(week, LATE);
}

#[test]
fn a_wrong_share_is_named() {
    all_named(week, SHARES);
}
