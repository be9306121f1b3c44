//! The whole: every pool by itself, in rayon, answers in the problem's order.

use std::time::Instant;

use rayon::prelude::*;

use super::admit::admit;
use super::answer::{Answer, PoolAnswer, Status, StopReason};
use super::by_length::length_bound;
use super::charges::{hopeless, solve_charged};
use super::converge::Budget;
use super::cost::cost;
use super::fault::NestFault;
use super::improve::improve;
use super::long_list::{improve_long, is_long};
use super::longest_first::first_answer;
use super::many_stocks::{has_many_stocks, improve_many};
use super::never::tell_apart;
use super::problem::{Limits, Pool, Problem};
use super::proof::Branch;
use super::rounds::{CHARGED, best_of, rounds, times};
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
    let charged = !problem.charges.is_empty();
    let (first, rest) = rounds(limits);
    let of = |work: u64| Limits {
        work: work.saturating_mul(CHARGED),
        ..*limits
    };
    let (all, steps) = if charged {
        (of(first), (of(first).work, 0))
    } else {
        (*limits, (first, rest))
    };
    let pools = problem
        .pools
        .par_iter()
        .map(|pool| solve_pool(pool, (&all, steps), &stop, watch))
        .collect::<Result<Vec<PoolAnswer>, NestFault>>()?;
    if !charged {
        let answer = Answer { pools, whole: None };
        return Ok(tell_apart(problem, answer, &stop));
    }
    let round = |limits: &Limits| solve_charged(problem, pools.clone(), limits, &stop, watch);
    let answer = round(&all)?;
    if rest == 0 || answer.whole.as_ref().is_none_or(|w| ended(w.stop)) {
        return Ok(tell_apart(problem, answer, &stop));
    }
    // The steps that are left go to the whole alone: there the pools are solved again at moved costs.
    let best = best_of(answer, round(&of(rest))?);
    Ok(tell_apart(problem, best, &stop))
}

/// A pool by itself, in rounds of so many steps.
fn solve_pool(
    pool: &Pool,
    (limits, (first, rest)): (&Limits, (u64, u64)),
    stop: &(dyn Fn() -> bool + Sync),
    watch: &dyn Watch,
) -> Result<PoolAnswer, NestFault> {
    if let Some(answer) = watch.known(pool, limits) {
        return Ok(answer);
    }
    let times = times(pool);
    let round = |answer: &mut PoolAnswer, steps: u64| {
        let work = steps.saturating_mul(times);
        let mut budget = Budget::new(work, stop);
        better(pool, answer, &mut budget)?;
        Ok(work - budget.left)
    };
    let mut answer = first_answer(pool, stop);
    let mut spent = round(&mut answer, first)?;
    if rest > 0 && !ended(answer.stop) {
        spent = spent.saturating_add(round(&mut answer, rest)?);
    }
    if answer.stop != StopReason::Interrupted {
        watch.learn(pool, limits, &answer);
    }
    watch.progress(&pool.name, answer.bound, Some(answer.cost), spent);
    Ok(answer)
}

/// No further round: closed, or somebody asked to stop.
fn ended(why: StopReason) -> bool {
    matches!(why, StopReason::Closed | StopReason::Interrupted)
}

/// One pool, without charges.
pub(super) fn solve_alone(pool: &Pool, budget: &mut Budget<'_>) -> Result<PoolAnswer, NestFault> {
    let mut answer = first_answer(pool, budget.stop);
    better(pool, &mut answer, budget)?;
    Ok(answer)
}

/// Betters an answer in place, bound and plan.
fn better(pool: &Pool, answer: &mut PoolAnswer, budget: &mut Budget<'_>) -> Result<(), NestFault> {
    if answer.status == Status::Short && hopeless(pool, budget.stop).is_some() {
        return Ok(());
    }
    if is_long(pool, budget) {
        improve_long(pool, answer, budget)?;
    } else if has_many_stocks(pool) {
        improve_many(pool, answer, budget)?;
    } else {
        improve(pool, answer, budget);
    }
    // Whatever the search came to, length alone says so much.
    if let Some((bound, leaf)) = length_bound(pool)
        && bound > answer.bound
    {
        (answer.bound, answer.proof) = (bound, vec![Branch::Leaf(leaf)]);
    }
    if answer.status != Status::Short {
        verify(pool, answer)?;
    }
    Ok(())
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
