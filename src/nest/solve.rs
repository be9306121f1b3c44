//! The whole: every pool by itself, in rayon, answers in the problem's order.

use std::time::Instant;

use rayon::prelude::*;

use super::admit::admit;
use super::answer::{Answer, PoolAnswer, Status, StopReason};
use super::charges::{hopeless, solve_charged};
use super::converge::Budget;
use super::cost::cost;
use super::fault::NestFault;
use super::improve::improve;
use super::long_list::{improve_long, is_long, times};
use super::longest_first::first_answer;
use super::problem::{Limits, Pool, Problem};
use super::watch::Watch;

/// Solves every pool: never worse than longest-first best-fit, with a certified bound. Work that
/// cannot be done is an answer with status `Short`, not an error.
///
/// # Errors
/// [`NestFault`] names a problem whose numbers or slots cannot be trusted.
pub fn solve(problem: &Problem, limits: &Limits, watch: &dyn Watch) -> Result<Answer, NestFault> {
    admit(problem)?;
    let started = Instant::now();
    let late = move || limits.time.is_some_and(|t| started.elapsed() >= t);
    let stop = || watch.stop_requested() || late();
    let limits = &Limits {
        work: match problem.charges.len() {
            0 => limits.work,
            _ => limits.work.saturating_mul(CHARGED),
        },
        ..*limits
    };
    let pools = problem
        .pools
        .par_iter()
        .map(|pool| solve_pool(pool, limits, &stop, watch))
        .collect::<Result<Vec<PoolAnswer>, NestFault>>()?;
    if problem.charges.is_empty() {
        return Ok(Answer { pools, whole: None });
    }
    solve_charged(problem, pools, limits, &stop, watch)
}

/// Times the steps of each pool where charges tie pools together: every node of their tree shares them.
const CHARGED: u64 = 2;

fn solve_pool(
    pool: &Pool,
    limits: &Limits,
    stop: &(dyn Fn() -> bool + Sync),
    watch: &dyn Watch,
) -> Result<PoolAnswer, NestFault> {
    if let Some(answer) = watch.known(pool, limits) {
        return Ok(answer);
    }
    let work = limits.work.saturating_mul(times(pool));
    let mut budget = Budget { left: work, stop };
    let answer = solve_alone(pool, &mut budget)?;
    if answer.stop != StopReason::Interrupted {
        watch.learn(pool, limits, &answer);
    }
    watch.progress(
        &pool.name,
        answer.bound,
        Some(answer.cost),
        work - budget.left,
    );
    Ok(answer)
}

/// One pool, without charges.
pub(super) fn solve_alone(pool: &Pool, budget: &mut Budget<'_>) -> Result<PoolAnswer, NestFault> {
    let mut answer = first_answer(pool);
    if answer.status == Status::Short && hopeless(pool).is_some() {
        return Ok(answer);
    }
    if is_long(pool, budget) {
        improve_long(pool, &mut answer, budget)?;
    } else {
        improve(pool, &mut answer, budget);
    }
    if answer.status != Status::Short {
        verify(pool, &mut answer)?;
    }
    Ok(answer)
}

/// The answer leaves only when its cost is what the plain verification says it is.
fn verify(pool: &Pool, answer: &mut PoolAnswer) -> Result<(), NestFault> {
    let exact = cost(pool, &answer.patterns, &answer.configurations)?;
    answer.cost = exact;
    if answer.status == Status::ProvedBySearch {
        answer.stop = StopReason::Closed;
    }
    if answer.bound >= exact {
        answer.status = Status::Proved;
        answer.stop = StopReason::Closed;
    }
    Ok(())
}
