//! How many joints of a stock an answer of least cost can take.
//!
//! Every joint but those bought uncut holds a piece. A joint bought uncut costs more than it is credited,
//! so it is only there because one less would miss a minimum, free freight or a range, or break a lift.
//! Take away as many as make whole lifts of every lift charge on the stock: beyond the most that any
//! of the others wants, nothing is missed and the answer is cheaper. So of a stock no more than that most
//! plus that multiple stay uncut. Free freight wants no more than pays: beyond what the other charges want, joints
//! left uncut for its sake cost together no more than the freight they save.

use super::super::charge::{Charge, ChargeKind, StockOf};
use super::super::lattice::gcd;
use super::super::master::pieces_at_most;
use super::super::problem::Problem;

/// May joints of such a charge's set be bought and stay uncut (at credit)?
pub(in crate::nest) fn may_stay_uncut(kind: &ChargeKind) -> bool {
    match *kind {
        ChargeKind::Fixed { free_over, .. } => free_over.is_some(),
        ChargeKind::Lift { part_fee, .. } => part_fee > 0,
        ChargeKind::Minimum { least } => least > 0,
        ChargeKind::Range { least, .. } => least > 1,
    }
}

/// Which stocks may be taken uncut: `[pool][stock]`.
pub(in crate::nest) fn uncut(problem: &Problem) -> Vec<Vec<bool>> {
    let of = |pool: usize, stock: usize| {
        let at = StockOf { pool, stock };
        let over = |c: &&Charge| c.over.binary_search(&at).is_ok();
        let mut charges = problem.charges.iter().filter(over);
        charges.any(|c| may_stay_uncut(&c.kind))
    };
    let pools = problem.pools.iter().enumerate();
    pools
        .map(|(p, pool)| (0..pool.stocks.len()).map(|s| of(p, s)).collect())
        .collect()
}

/// Most joints of each stock in an answer of least cost: `[pool][stock]`.
pub(in crate::nest) fn most_joints(problem: &Problem) -> Vec<Vec<i64>> {
    let pools = problem.pools.iter().enumerate();
    pools
        .map(|(p, pool)| {
            let pieces = pieces_at_most(pool);
            let each = pool.stocks.iter().enumerate();
            each.map(|(stock, s)| {
                let spare = spare(problem, StockOf { pool: p, stock });
                let all = pieces.saturating_add(spare);
                s.limit.map_or(all, |l| i64::from(l).min(all))
            })
            .collect()
        })
        .collect()
}

fn spare(problem: &Problem, at: StockOf) -> i64 {
    let pool = &problem.pools[at.pool];
    let stock = &pool.stocks[at.stock];
    let (mut wanted, mut lifts, mut any) = (0i64, 1i64, false);
    let (mut free, mut saved) = (0i64, 0i64);
    let joints = |money: i64| money / stock.price().max(1) + 1;
    for charge in &problem.charges {
        if charge.over.binary_search(&at).is_err() {
            continue;
        }
        any |= may_stay_uncut(&charge.kind);
        match charge.kind {
            ChargeKind::Fixed { amount, free_over } => {
                if let Some(over) = free_over {
                    free = free.max(joints(over));
                    saved = saved.saturating_add(amount);
                }
            }
            ChargeKind::Lift { lift, .. } => {
                let lift = i64::from(lift.max(1));
                lifts = (lifts / gcd(lifts, lift)).saturating_mul(lift);
            }
            ChargeKind::Minimum { least } => wanted = wanted.max(joints(least)),
            ChargeKind::Range { least, .. } => wanted = wanted.max(i64::from(least)),
        }
    }
    let reached = wanted.max(free);
    let each = stock.cost - pool.credit.of(stock.usable);
    let paying = match each {
        1.. => wanted.saturating_add(saved / each + 1),
        _ => reached,
    };
    if any {
        reached.min(paying).saturating_add(lifts)
    } else {
        0
    }
}
