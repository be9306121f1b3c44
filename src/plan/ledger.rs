//! The plan's money line by line, each rounded once to cents; the total is the sum of the lines.

use rust_decimal::Decimal;
use serde::Serialize;

use super::{Bought, Fee, FeeKind, JointSource, Kept, PlannedJoint, SplicedLine, Uncut};
use crate::measure::Money;
use crate::order::Week;
use crate::splice::WindowClass;
use crate::stock::{PoolSource, StockOrigin};

/// Money of a plan by what it is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Ledger {
    /// Joints bought, before tax: the sum of the order lines.
    pub pipe: Money,
    /// Tax of the order lines.
    pub tax: Money,
    /// Freight.
    pub freight: Money,
    /// Lift and part-lift fees.
    pub lifts: Money,
    /// What orders fall short of a supplier's least.
    pub minimum: Money,
    /// Rack pieces cut, at their credit.
    pub rack: Money,
    /// Splices, without class charges.
    pub splices: Money,
    /// Class charges of splices.
    pub classes: Money,
    /// Credit of the drops kept and of joints left whole, taken off.
    pub kept: Money,
}

impl Ledger {
    /// What the plan costs.
    pub fn total(&self) -> Money {
        self.pipe
            + self.tax
            + self.freight
            + self.lifts
            + self.minimum
            + self.rack
            + self.splices
            + self.classes
            - self.kept
    }
}

/// What the ledger is drawn from.
pub(crate) struct Books<'a> {
    pub week: &'a Week,
    pub pools: &'a [PoolSource],
    pub joints: &'a [PlannedJoint],
    pub spliced: &'a [SplicedLine],
    pub buy: &'a [Bought],
    pub fees: &'a [Fee],
    pub kept: &'a [Kept],
    pub uncut: &'a [Uncut],
}

/// The ledger; `None` when any pipe has no price.
pub(crate) fn ledger(books: &Books<'_>) -> Option<Ledger> {
    if books.pools.iter().any(|p| !p.priced) {
        return None;
    }
    let lines = books.buy.iter();
    let pipe: Option<Vec<Money>> = lines.clone().map(|b| b.money).collect();
    let tax: Option<Vec<Money>> = lines.map(|b| b.tax).collect();
    let fee = |kind: FeeKind| {
        let fees = books.fees.iter().filter(|f| f.kind == kind);
        fees.map(|f| f.money).sum()
    };
    let splices: Vec<WindowClass> = books
        .spliced
        .iter()
        .filter(|l| !l.stays)
        .flat_map(|l| &l.splices)
        .map(|s| s.class)
        .collect();
    let of = |class: WindowClass| splices.iter().filter(|c| **c == class).count();
    let rules = &books.week.shop.splice;
    Some(Ledger {
        pipe: pipe?.into_iter().sum(),
        tax: tax?.into_iter().sum(),
        freight: fee(FeeKind::Freight),
        lifts: fee(FeeKind::Lift),
        minimum: fee(FeeKind::Minimum),
        rack: rack(books).cents(),
        splices: many(rules.cost, splices.len()),
        classes: many(rules.class_charge, of(WindowClass::Charged))
            + many(rules.high_stress_charge, of(WindowClass::ByOrder)),
        kept: kept(books).cents(),
    })
}

/// Credits of kept drops and of joints left whole, exact.
fn kept(books: &Books<'_>) -> Money {
    let drops: Money = books.kept.iter().map(|k| k.credit).sum();
    drops + books.uncut.iter().map(|u| u.credit).sum()
}

fn many(each: Money, count: usize) -> Money {
    let exact = each.0.checked_mul(Decimal::from(count));
    Money(exact.unwrap_or_default()).cents()
}

/// Rack pieces cut, at what taking them costs, exact.
fn rack(books: &Books<'_>) -> Money {
    let cost = |joint: &PlannedJoint| match joint.source {
        JointSource::Bought(_) => None,
        JointSource::Rack(piece, _) => {
            let mut stocks = books.pools.iter().flat_map(|p| &p.stocks);
            let stock = stocks.find(|s| s.origin == StockOrigin::Rack(piece))?;
            Some(stock.cost)
        }
    };
    books.joints.iter().filter_map(cost).sum()
}
