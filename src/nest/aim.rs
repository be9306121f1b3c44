//! Aims other than money, as money: what the aim counts costs `weight` apiece, so that one less of it is
//! worth more than all the money a plan can come to. Bound and certificate are those of the weighed problem.
//!
//! `most` below is the most money of any plan worth making; the weight is the first multiple over it of what
//! every cost is a multiple of. No plan costs less than 0 (asked for here), so cost = weight × count + money
//! with 0 ≤ money < weight, and a bound B says: at least ⌊B / weight⌋ of the count, and where it is no more,
//! at least B mod weight of money.

use serde::{Deserialize, Serialize};

use super::admit::{MOST, admit};
use super::answer::Answer;
use super::bound::whole_step;
use super::charge::ChargeKind;
use super::charges::most_joints;
use super::fault::NestFault;
use super::lattice::gcd;
use super::master::pieces_at_most;
use super::problem::{Aim, Limits, Pool, Problem};
use super::watch::Watch;

/// How the aim's count and the money stand in one number: cost = `weight` × count + money.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Weighing {
    /// Money that one of the count weighs.
    pub weight: i64,
    /// What is counted: joints and splices by 1; for the aim `waste` the lengths taken, in this unit.
    pub unit: i64,
}

/// Solves a problem: never worse than longest-first best-fit, with a certified bound. Work that cannot be
/// done is an answer with status `Short`, not an error. Costs and bounds of an aim other than money are
/// weighed, as [`weighing`] says.
///
/// # Errors
/// [`NestFault`] names a problem whose numbers or slots cannot be trusted.
pub fn solve(problem: &Problem, limits: &Limits, watch: &dyn Watch) -> Result<Answer, NestFault> {
    match weigh(problem)? {
        Some((_, weighed)) => super::solve::solve(&weighed, limits, watch),
        None => super::solve::solve(problem, limits, watch),
    }
}

/// How costs and bounds of this problem are to be read; `None`: they are money.
///
/// # Errors
/// [`NestFault`] names a problem whose numbers cannot be trusted, or whose aim weighs too much.
pub fn weighing(problem: &Problem) -> Result<Option<Weighing>, NestFault> {
    Ok(weigh(problem)?.map(|(weighing, _)| weighing))
}

fn weigh(problem: &Problem) -> Result<Option<(Weighing, Problem)>, NestFault> {
    admit(problem)?;
    if problem.aim == Aim::Money {
        return Ok(None);
    }
    let fault = |what: String| NestFault::Aim { what };
    let most = most_money(problem);
    let step = i128::from(whole_step(problem));
    let weight = (most / step + 1) * step;
    let unit = unit(problem);
    let heavy = |n: i64| {
        let all = weight * i128::from(n / unit);
        i64::try_from(all)
            .ok()
            .filter(|w| *w <= MOST)
            .ok_or_else(|| {
                fault(format!(
                    "money up to {most} comes second, so one counts {weight}, and {n} in steps of {unit} count \
                     {all}, past 2^40. Coarser money or coarser lengths fit"
                ))
            })
    };
    let mut weighed = Problem {
        aim: Aim::Money,
        ..problem.clone()
    };
    for pool in &mut weighed.pools {
        for stock in &mut pool.stocks {
            stock.price = Some(stock.price());
            stock.cost += match problem.aim {
                Aim::Joints => heavy(1)?,
                Aim::Waste => heavy(stock.length)?,
                Aim::Money | Aim::Splices => 0,
            };
        }
        for group in &mut pool.groups {
            if problem.aim == Aim::Splices {
                group.splice_cost += heavy(1)?;
            }
        }
    }
    admit(&weighed).map_err(|f| fault(format!("{f}, where one counts {weight}")))?;
    let weight = i64::try_from(weight).map_err(|_| fault(format!("one counts {weight}")))?;
    Ok(Some((Weighing { weight, unit }, weighed)))
}

/// What lengths are counted in for the aim `waste`: the greatest that divides every stock's length.
fn unit(problem: &Problem) -> i64 {
    let stocks = problem.pools.iter().flat_map(|p| &p.stocks);
    match problem.aim {
        Aim::Waste => stocks.map(|s| s.length).fold(0, gcd).max(1),
        _ => 1,
    }
}

/// The most money of a plan: a joint a piece of the dearest stock, every splice at its dearest place, as
/// many joints uncut as charges can want, every charge at its most.
pub(super) fn most_money(problem: &Problem) -> i128 {
    let mut most: i128 = problem.pools.iter().map(most_of_pool).sum();
    let joints = most_joints(problem);
    for (pool, joints) in problem.pools.iter().zip(&joints) {
        for (stock, joints) in pool.stocks.iter().zip(joints) {
            let uncut = (joints - pieces_at_most(pool)).max(0);
            most += i128::from(uncut) * i128::from(stock.cost);
        }
    }
    for charge in &problem.charges {
        let joints = charge.over.iter().map(|at| joints[at.pool][at.stock]);
        most += match charge.kind {
            ChargeKind::Fixed { amount, .. } => i128::from(amount),
            ChargeKind::Lift { fee, part_fee, .. } => {
                i128::from(joints.sum::<i64>()) * i128::from(fee) + i128::from(part_fee)
            }
            ChargeKind::Minimum { least } => i128::from(least),
            ChargeKind::Range { .. } => 0,
        };
    }
    most
}

fn most_of_pool(pool: &Pool) -> i128 {
    let dearest = pool.stocks.iter().map(|s| s.cost).max().unwrap_or(0);
    let joints = i128::from(pieces_at_most(pool)) * i128::from(dearest);
    let groups = pool.groups.iter().map(|g| {
        let line = |l: &super::Line| {
            let charge = l.slots.iter().map(|s| s.charge).max().unwrap_or(0);
            i128::from(l.most_splices) * i128::from(g.splice_cost + charge)
        };
        i128::from(g.count) * g.lines.iter().map(line).sum::<i128>()
    });
    joints + groups.sum::<i128>()
}
