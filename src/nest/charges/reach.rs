//! How many joints of a stock an answer of least cost can take.
//!
//! Every joint but those bought uncut holds a piece. A joint bought uncut costs more than it is credited,
//! so it is only there because one less would miss a minimum, free freight or a range, or break a lift.
//! Take away as many as make whole lifts of every lift charge on the stock: beyond the most that any
//! of the others wants, nothing is missed and the answer is cheaper. So of a stock no more than that most
//! plus that multiple stay uncut.

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
                let spare = spare(problem, StockOf { pool: p, stock }, s.price());
                let all = pieces.saturating_add(spare);
                s.limit.map_or(all, |l| i64::from(l).min(all))
            })
            .collect()
        })
        .collect()
}

fn spare(problem: &Problem, at: StockOf, price: i64) -> i64 {
    let (mut wanted, mut lifts, mut any) = (0i64, 1i64, false);
    let joints = |money: i64| money / price.max(1) + 1;
    for charge in &problem.charges {
        if charge.over.binary_search(&at).is_err() {
            continue;
        }
        any |= may_stay_uncut(&charge.kind);
        match charge.kind {
            ChargeKind::Fixed { free_over, .. } => {
                wanted = wanted.max(free_over.map_or(0, joints));
            }
            ChargeKind::Lift { lift, .. } => {
                let lift = i64::from(lift.max(1));
                lifts = (lifts / gcd(lifts, lift)).saturating_mul(lift);
            }
            ChargeKind::Minimum { least } => wanted = wanted.max(joints(least)),
            ChargeKind::Range { least, .. } => wanted = wanted.max(i64::from(least)),
        }
    }
    if any { wanted.saturating_add(lifts) } else { 0 }
}
