//! Fees and the ledger, from the joints bought: freight by the longest joint carried, lifts counted, minimum
//! orders made up; every line to the cent, the total their sum.

use std::collections::BTreeMap;

use super::case::Case;
use super::docket::Docket;
use super::rule::Rule;
use super::tariff::{Tariff, new_usable, tax};
use crate::measure::{Length, Money};
use crate::order::{Quote, Supplier};
use crate::plan::{FeeKind, JointSource, Ledger};
use crate::splice::WindowClass;

/// Joints bought by quote index.
type Bought = BTreeMap<usize, u32>;

/// Judges fees, ledger and total; the fees' exact sum, 1/1000 cent.
pub(super) fn judge(case: &Case<'_>, tariff: &Tariff, docket: &mut Docket) -> i64 {
    let mut bought = Bought::new();
    for joint in &case.plan.joints {
        if let JointSource::Bought(q) = joint.source
            && tariff.priced(case.week.quotes[q].pipe)
        {
            *bought.entry(q).or_default() += 1;
        }
    }
    for whole in &case.plan.uncut {
        if tariff.priced(case.week.quotes[whole.quote].pipe) {
            *bought.entry(whole.quote).or_default() += whole.joints;
        }
    }
    counts(case, docket);
    let mut own: BTreeMap<(FeeKind, String), i64> = BTreeMap::new();
    let mut owe = |kind, supplier: &str, amount: i64| {
        if amount > 0 {
            *own.entry((kind, supplier.to_owned())).or_default() += amount;
        }
    };
    for supplier in &case.week.suppliers {
        let (freight, minimum) = of_supplier(case, supplier, &bought);
        owe(FeeKind::Freight, &supplier.name, freight);
        owe(FeeKind::Minimum, &supplier.name, minimum);
    }
    for (supplier, amount) in lifts(case, &bought) {
        owe(FeeKind::Lift, &supplier, amount);
    }
    let mut said: BTreeMap<(FeeKind, String), i64> = BTreeMap::new();
    for fee in &case.plan.fees {
        let printed = Money::from_millicents(fee.millicents).cents();
        docket.same(fee.money, printed, Rule::FeeMoney, &fee.name);
        *said.entry((fee.kind, fee.supplier.clone())).or_default() += fee.millicents;
    }
    docket.same(&said, &own, Rule::Fees, "plan");
    ledger(case, tariff, docket);
    own.values().copied().fold(0, i64::saturating_add)
}

fn units(money: Money) -> i64 {
    money.millicents().unwrap_or(0)
}

/// Freight of the longest joint carried, less the first step where the prices free it; and what the
/// prices fall short of the least.
fn of_supplier(case: &Case<'_>, supplier: &Supplier, bought: &Bought) -> (i64, i64) {
    let mut prices = 0i64;
    let mut longest = None;
    for (q, n) in bought {
        let quote = &case.week.quotes[*q];
        if quote.supplier == supplier.name {
            let each = units(quote.price.unwrap_or_default());
            prices = prices.saturating_add(each.saturating_mul(i64::from(*n)));
            longest = longest.max(Some(quote.nominal));
        }
    }
    let Some(longest) = longest else {
        return (0, 0);
    };
    let carries = |up_to: Option<Length>| up_to.is_none_or(|l| longest <= l);
    let step = supplier.freight.iter().find(|s| carries(s.up_to));
    let mut freight = step.map_or(0, |s| units(s.amount));
    if supplier.free_over.is_some_and(|over| prices >= units(over)) {
        freight -= supplier.freight.first().map_or(0, |s| units(s.amount));
    }
    let minimum = supplier.minimum.map_or(0, units).saturating_sub(prices);
    (freight, minimum.max(0))
}

/// Fees of started and broken lifts, offer by offer.
fn lifts(case: &Case<'_>, bought: &Bought) -> Vec<(String, i64)> {
    let mut offers: Vec<(&Quote, u32)> = Vec::new();
    for (q, n) in bought {
        let quote = &case.week.quotes[*q];
        let breaks = |other: &Quote| {
            other.same_joint(quote) && (other.terms.from > 1 || quote.terms.from > 1)
        };
        match offers.iter_mut().find(|(other, _)| breaks(other)) {
            Some((_, sum)) => *sum += n,
            None => offers.push((quote, *n)),
        }
    }
    let fee = |(quote, n): (&Quote, u32)| {
        let lift = quote.terms.lift?;
        let full = n / lift.joints.max(1);
        let broken = n % lift.joints.max(1) > 0;
        let (fee, part) = (units(lift.fee), units(lift.part_fee));
        let amount = if broken {
            fee.saturating_mul(i64::from(full) + 1).saturating_add(part)
        } else {
            fee.saturating_mul(i64::from(full))
        };
        Some((quote.supplier.clone(), amount))
    };
    offers.into_iter().filter_map(fee).collect()
}

/// Breaks only from their counts on, no dearer row where a count earns a cheaper one, and no more of an
/// offer than is to be had.
fn counts(case: &Case<'_>, docket: &mut Docket) {
    let quotes = &case.week.quotes;
    let number = |wanted: &dyn Fn(usize) -> bool| {
        let joints = case.plan.joints.iter();
        let from = joints.filter(|j| matches!(j.source, JointSource::Bought(q) if wanted(q)));
        let whole = case.plan.uncut.iter().filter(|u| wanted(u.quote));
        let whole: u32 = whole.map(|u| u.joints).sum();
        u32::try_from(from.count())
            .unwrap_or(u32::MAX)
            .saturating_add(whole)
    };
    for (index, quote) in quotes.iter().enumerate() {
        let own = number(&|q| q == index);
        if own == 0 {
            continue;
        }
        let name = super::supply::quote_name(case, index);
        let offer = number(&|q| q == index || (quotes[q].same_joint(quote) && is_break(case, q)));
        docket.demand(own >= quote.terms.from, Rule::BreakCount, &name, || {
            format!("{own} joints at a price from {} on", quote.terms.from)
        });
        let missed = quotes.iter().find(|q| {
            let from = q.terms.from;
            q.same_joint(quote) && from > quote.terms.from.max(1) && from <= offer
        });
        docket.demand(missed.is_none(), Rule::BreakMissed, &name, || {
            format!("{offer} joints earn the price of a break")
        });
        let within = quote.available.is_none_or(|most| offer <= most);
        docket.demand(within, Rule::OverAvailable, &name, || {
            format!("{offer} joints over all breaks are more than can be had")
        });
    }
}

fn is_break(case: &Case<'_>, quote: usize) -> bool {
    let own = &case.week.quotes[quote];
    let others = case.week.quotes.iter();
    own.terms.from > 1
        || others
            .filter(|q| q.same_joint(own))
            .any(|q| q.terms.from > 1)
}

fn ledger(case: &Case<'_>, tariff: &Tariff, docket: &mut Docket) {
    let plan = case.plan;
    let known = plan.pipes.iter().all(|p| tariff.priced(p.pipe));
    let own = known.then(|| lines(case, tariff));
    docket.same(plan.ledger, own, Rule::Ledger, "plan");
    let sum = own.map(|l| {
        let paid = [
            l.pipe, l.tax, l.freight, l.lifts, l.minimum, l.rack, l.splices, l.classes,
        ];
        let paid: Money = paid.into_iter().sum();
        paid - l.kept
    });
    docket.same(plan.total, sum, Rule::TotalMoney, "plan");
}

fn lines(case: &Case<'_>, tariff: &Tariff) -> Ledger {
    let plan = case.plan;
    let fee = |kind: FeeKind| {
        let fees = plan.fees.iter().filter(|f| f.kind == kind);
        fees.map(|f| f.money).sum()
    };
    let (mut pipe, mut taxes) = (Money::ZERO, Money::ZERO);
    let mut bought = Bought::new();
    let mut rack = 0i64;
    for joint in &plan.joints {
        match joint.source {
            JointSource::Bought(q) => *bought.entry(q).or_default() += 1,
            JointSource::Rack(..) => rack += tariff.cost(case.week, joint.source),
        }
    }
    for whole in &plan.uncut {
        *bought.entry(whole.quote).or_default() += whole.joints;
    }
    for (q, n) in &bought {
        let quote = &case.week.quotes[*q];
        let exact = quote.price.unwrap_or_default().0 * rust_decimal::Decimal::from(*n);
        pipe = pipe + Money(exact).cents();
        taxes = taxes + Money(exact * tax(case.week, quote)).cents();
    }
    let open = plan.spliced.iter().filter(|l| !l.stays);
    let splices = open.flat_map(|l| &l.splices);
    let all = i64::try_from(splices.clone().count()).unwrap_or(0);
    let of = |class: WindowClass| {
        let such = splices.clone().filter(|s| s.class == class).count();
        i64::try_from(such).unwrap_or(0)
    };
    let rules = &case.week.shop.splice;
    let times = |each: Money, n: i64| Money(each.0 * rust_decimal::Decimal::from(n)).cents();
    let kept = plan.joints.iter().filter(|j| j.kept);
    let kept: i64 = kept.map(|j| tariff.credit(case.week, j.pipe, j.drop)).sum();
    let whole = plan.uncut.iter().map(|u| {
        let quote = &case.week.quotes[u.quote];
        let each = tariff.credit(case.week, quote.pipe, new_usable(case.week, quote));
        each * i64::from(u.joints)
    });
    let kept = kept + whole.sum::<i64>();
    Ledger {
        pipe,
        tax: taxes,
        freight: fee(FeeKind::Freight),
        lifts: fee(FeeKind::Lift),
        minimum: fee(FeeKind::Minimum),
        rack: Money::from_millicents(rack).cents(),
        splices: times(rules.cost, all),
        classes: times(rules.class_charge, of(WindowClass::Charged))
            + times(rules.high_stress_charge, of(WindowClass::ByOrder)),
        kept: Money::from_millicents(kept).cents(),
    }
}
