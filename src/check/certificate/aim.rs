//! An aim other than money, re-derived: the problem in which one joint, one splice or one unit of the length
//! taken weighs more than all the money of any plan. The claims of such an answer are claims about that one.

use super::bound::pieces_of;
use super::whole::{most, whole_step};
use crate::check::Rule;
use crate::check::docket::Docket;
use crate::nest::{Aim, ChargeKind, Pool, Problem, Weighing};

const RULE: Rule = Rule::CertificateAim;

/// The weighed problem; `None` (and a word in the docket) where the weights pass 2^40 or money can fall
/// under 0. Sizes have been judged.
pub(super) fn weighed(problem: &Problem, docket: &mut Docket) -> Option<(Weighing, Problem)> {
    let step = whole_step(problem);
    let weight = (money(problem) / step + 1) * step;
    let lengths = || problem.pools.iter().flat_map(|p| &p.stocks);
    let unit = match problem.aim {
        Aim::Waste => lengths().fold(0, |unit, s| common(unit, s.length)).max(1),
        _ => 1,
    };
    let mut heavy = false;
    let mut add = |money: &mut i64, times: i64| {
        let sum = i128::from(*money) + weight * i128::from(times);
        heavy |= !(0..=1 << 41).contains(&sum);
        *money = i64::try_from(sum).unwrap_or(i64::MAX);
    };
    let mut own = problem.clone();
    own.aim = Aim::Money;
    for pool in &mut own.pools {
        let credit = |usable| super::knapsack::credit(pool, usable);
        let pays = pool.stocks.iter().any(|s| s.cost < credit(s.usable));
        docket.demand(!pays, RULE, &pool.name, || {
            "a drop pays more than its joint costs: money may fall under 0".to_owned()
        });
        for stock in &mut pool.stocks {
            stock.price = Some(stock.price());
            match problem.aim {
                Aim::Joints => add(&mut stock.cost, 1),
                Aim::Waste => add(&mut stock.cost, stock.length / unit),
                Aim::Splices | Aim::Money => {}
            }
        }
        let counted = problem.aim == Aim::Splices;
        for group in pool.groups.iter_mut().filter(|_| counted) {
            add(&mut group.splice_cost, 1);
        }
    }
    docket.demand(!heavy, RULE, "problem", || {
        format!("one of what is counted weighs {weight}: past 2^40")
    });
    let weight = i64::try_from(weight).ok()?;
    docket
        .is_clean()
        .then_some((Weighing { weight, unit }, own))
}

fn common(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { common(b, a % b) }
}

/// More money than any plan worth making comes to: a joint for each piece, each splice at its dearest, every
/// joint that charges may leave uncut, every charge at its most.
fn money(problem: &Problem) -> i128 {
    let mut sum: i128 = problem.pools.iter().map(cut).sum();
    for (pool, p) in problem.pools.iter().zip(0..) {
        for (stock, s) in pool.stocks.iter().zip(0..) {
            let at = crate::nest::StockOf { pool: p, stock: s };
            let uncut = most(problem, at) - i128::from(pieces_of(pool));
            sum += uncut.max(0) * i128::from(stock.cost);
        }
    }
    for charge in &problem.charges {
        let joints = || {
            charge
                .over
                .iter()
                .map(|at| most(problem, *at))
                .sum::<i128>()
        };
        sum += match charge.kind {
            ChargeKind::Range { .. } => 0,
            ChargeKind::Minimum { least: amount } | ChargeKind::Fixed { amount, .. } => {
                amount.into()
            }
            ChargeKind::Lift { fee, part_fee, .. } => {
                joints() * i128::from(fee) + i128::from(part_fee)
            }
        };
    }
    sum
}

fn cut(pool: &Pool) -> i128 {
    let dearest = pool.stocks.iter().map(|s| s.cost).max();
    let mut sum = i128::from(pieces_of(pool)) * i128::from(dearest.unwrap_or(0));
    for group in &pool.groups {
        for line in &group.lines {
            let slot = line.slots.iter().map(|s| s.charge).max().unwrap_or(0);
            let each = i128::from(group.splice_cost) + i128::from(slot);
            sum += i128::from(group.count) * i128::from(line.most_splices) * each;
        }
    }
    sum
}
