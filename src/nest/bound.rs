//! What every cost of a pool is a multiple of.

use super::lattice::gcd;
use super::problem::Pool;

/// The greatest money that divides every cost, credit and charge of the pool: any plan's cost is a
/// multiple of it, so a lower bound may be rounded up to one.
pub(super) fn money_step(pool: &Pool) -> i64 {
    let mut step = pool.credit.per_foot;
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
