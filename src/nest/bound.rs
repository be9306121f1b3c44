//! What every cost of a pool is a multiple of.

use super::charge::ChargeKind;
use super::lattice::gcd;
use super::problem::{Pool, Problem};

/// The greatest money that divides every cost and charge of the pool, and its credit where a drop can
/// reach it: any plan's cost is a
/// multiple of it, so a lower bound may be rounded up to one.
pub(super) fn money_step(pool: &Pool) -> i64 {
    let there = pool.stocks.iter().filter(|s| s.limit != Some(0));
    let longest = there.map(|s| s.usable - pool.kerf - 1).max().unwrap_or(0);
    let credited = longest >= pool.credit.keep.max(pool.credit.foot);
    let mut step = if credited { pool.credit.per_foot } else { 0 };
    for stock in &pool.stocks {
        step = gcd(step, stock.cost);
    }
    for group in pool.groups.iter().filter(|g| g.count > 0) {
        step = gcd(step, group.splice_cost);
        for slot in group.lines.iter().flat_map(|l| &l.slots) {
            step = gcd(step, slot.charge);
        }
    }
    step.max(1)
}

/// The greatest money that divides every cost of a whole problem: of its pools, of joints bought uncut
/// and of its charges.
pub(super) fn whole_step(problem: &Problem) -> i64 {
    let mut step = problem.pools.iter().map(money_step).fold(0, gcd);
    for charge in &problem.charges {
        for at in &charge.over {
            let pool = &problem.pools[at.pool];
            let stock = &pool.stocks[at.stock];
            step = gcd(step, pool.credit.of(stock.usable));
            if matches!(charge.kind, ChargeKind::Minimum { .. }) {
                step = gcd(step, stock.price());
            }
        }
        step = match charge.kind {
            ChargeKind::Fixed { amount, .. } => gcd(step, amount),
            ChargeKind::Lift { fee, part_fee, .. } => gcd(gcd(step, fee), part_fee),
            ChargeKind::Minimum { least } => gcd(step, least),
            ChargeKind::Range { .. } => step,
        };
    }
    step.max(1)
}
