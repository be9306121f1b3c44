//! Landed money of each gate order and each row of extra parts: the plan's money shared out, to the cent.
//!
//! Each joint's money, less the credit of the drop kept from it, goes over its pieces by saw length: kerf,
//! trims and what is scrapped go by the same share, and nobody pays for a drop that is kept.
//! Splices with their class charge go to their gate. What is paid for the order as a whole (freight,
//! fees, what a minimum adds, joints left whole) goes over everything cut from bought joints by saw length.
//! All shares are whole 1/1000 cents by largest remainders; then each column is rounded to cents by largest
//! remainders, so that it comes to what the ledger says, and a row is the sum of its columns.

use super::{JointSource, Ledger, Plan, PlannedJoint};
use crate::measure::{Money, cents_that_add, cents_that_come_to, share_out};
use crate::order::Week;
use crate::part::TakeOff;
use crate::splice::WindowClass;
use crate::stock::StockOrigin;
use serde::Serialize;

/// Money of one gate order (all its copies) or one row of extra parts.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct GateCost {
    /// Index into `Week::gates`.
    pub gate: Option<usize>,
    /// Index into `Week::extras`.
    pub extra: Option<usize>,
    /// Its share of joints and rack pieces, less kept drops.
    pub pipe: Money,
    /// Its splices with their class charges.
    pub splices: Money,
    /// Its share of what is paid for the order as a whole.
    pub shared: Money,
    /// All of it: the rows add up to the plan's total to the cent, and so does each column to its lines of
    /// the ledger.
    pub total: Money,
}

/// A row under way, 1/1000 cent.
#[derive(Clone, Copy, Debug)]
struct Row {
    gate: Option<usize>,
    extra: Option<usize>,
    pipe: i64,
    splices: i64,
    /// Ticks cut for it from bought joints.
    bought: i64,
}

/// The costs of a plan; none where a price is missing.
pub(crate) fn gate_costs(week: &Week, take_off: &TakeOff, plan: &Plan) -> Vec<GateCost> {
    let Some(ledger) = plan.ledger else {
        return Vec::new();
    };
    let mut rows = rows(take_off, plan);
    for joint in &plan.joints {
        share_joint(take_off, plan, joint, &mut rows);
    }
    for line in plan.spliced.iter().filter(|l| !l.stays) {
        let owner = row_of(take_off, line.part, &mut rows);
        if let Some(row) = owner {
            row.splices += line
                .splices
                .iter()
                .map(|s| splice(week, s.class))
                .sum::<i64>();
        }
    }
    finish(&rows, &ledger, as_a_whole(plan, &ledger))
}

/// What is paid for the order as a whole, 1/1000 cent: fees, and joints left whole less their credit.
fn as_a_whole(plan: &Plan, ledger: &Ledger) -> i64 {
    let fees = ledger.freight + ledger.lifts + ledger.minimum;
    let whole = plan.uncut.iter().map(|u| {
        let cost = cost(plan, StockOrigin::Quote(u.quote)).saturating_mul(i64::from(u.joints));
        cost - u.credit.millicents().unwrap_or(0)
    });
    fees.millicents().unwrap_or(0) + whole.sum::<i64>()
}

/// One row for each gate and extra part of which something is cut, gates first, in week order.
fn rows(take_off: &TakeOff, plan: &Plan) -> Vec<Row> {
    let pieces = plan.joints.iter().flat_map(|j| &j.pieces);
    let mut owners: Vec<(bool, Option<usize>, Option<usize>)> = pieces
        .map(|p| &take_off.parts[p.part])
        .map(|p| (p.gate.is_none(), p.gate, p.extra))
        .collect();
    owners.sort_unstable();
    owners.dedup();
    let row = |(_, gate, extra)| Row {
        gate,
        extra,
        pipe: 0,
        splices: 0,
        bought: 0,
    };
    owners.into_iter().map(row).collect()
}

fn row_of<'a>(take_off: &TakeOff, part: usize, rows: &'a mut [Row]) -> Option<&'a mut Row> {
    let part = &take_off.parts[part];
    let key = |gate: Option<usize>, extra| (gate.is_none(), gate, extra);
    let wanted = key(part.gate, part.extra);
    let at = rows.binary_search_by_key(&wanted, |r| key(r.gate, r.extra));
    at.ok().and_then(|at| rows.get_mut(at))
}

/// Joint money less the kept drop's credit over its pieces, by saw length.
fn share_joint(take_off: &TakeOff, plan: &Plan, joint: &PlannedJoint, rows: &mut [Row]) {
    let credit = joint.credit.millicents().unwrap_or(0);
    let lengths: Vec<i64> = joint.pieces.iter().map(|p| p.saw.ticks()).collect();
    let origin = match joint.source {
        JointSource::Bought(quote) => StockOrigin::Quote(quote),
        JointSource::Rack(piece, _) => StockOrigin::Rack(piece),
    };
    let shares = share_out(cost(plan, origin) - credit, &lengths);
    for ((piece, length), share) in joint.pieces.iter().zip(lengths).zip(shares) {
        if let Some(row) = row_of(take_off, piece.part, rows) {
            row.pipe += share;
            if matches!(joint.source, JointSource::Bought(_)) {
                row.bought += length;
            }
        }
    }
}

/// What taking a joint or rack piece costs, 1/1000 cent.
fn cost(plan: &Plan, origin: StockOrigin) -> i64 {
    let mut stocks = plan.pools.iter().flat_map(|p| &p.stocks);
    let stock = stocks.find(|s| s.origin == origin);
    stock.and_then(|s| s.cost.millicents()).unwrap_or(0)
}

/// A splice with its class charge, 1/1000 cent.
fn splice(week: &Week, class: WindowClass) -> i64 {
    let rules = &week.shop.splice;
    let charge = match class {
        WindowClass::Plain => Money::ZERO,
        WindowClass::Charged => rules.class_charge,
        WindowClass::ByOrder => rules.high_stress_charge,
    };
    (rules.cost + charge).millicents().unwrap_or(0)
}

/// Money of the splices that an earlier plan decided: of the lines that stay as it handed them out.
pub fn settled_splices(week: &Week, plan: &Plan) -> Money {
    let stay = plan.spliced.iter().filter(|l| l.stays);
    let each = stay.flat_map(|l| &l.splices).map(|s| splice(week, s.class));
    Money::from_millicents(each.fold(0, i64::saturating_add))
}

/// Cents, column by column: splices and what is shared as the ledger has them, the pipe all the rest of it.
fn finish(rows: &[Row], ledger: &Ledger, as_a_whole: i64) -> Vec<GateCost> {
    let cents = |money: Money| money.millicents().unwrap_or(0) / 1_000;
    let bought: Vec<i64> = rows.iter().map(|r| r.bought).collect();
    let shared = cents_that_add(&share_out(as_a_whole, &bought));
    let exact: Vec<i64> = rows.iter().map(|r| r.splices).collect();
    let welded = cents(ledger.splices + ledger.classes);
    let splices = cents_that_come_to(welded, &exact);
    let exact: Vec<i64> = rows.iter().map(|r| r.pipe).collect();
    let rest = cents(ledger.total()) - welded - shared.iter().sum::<i64>();
    let pipe = cents_that_come_to(rest, &exact);
    let money = |cents: i64| Money::from_millicents(cents.saturating_mul(1_000));
    let columns = pipe.into_iter().zip(splices).zip(shared);
    rows.iter()
        .zip(columns)
        .map(|(row, ((pipe, splices), shared))| GateCost {
            gate: row.gate,
            extra: row.extra,
            pipe: money(pipe),
            splices: money(splices),
            shared: money(shared),
            total: money(pipe + splices + shared),
        })
        .collect()
}
