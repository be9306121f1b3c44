//! The whole: every pool by itself, in rayon, answers in the problem's order.

use std::time::Instant;

use rayon::prelude::*;

use super::admit::admit;
use super::charges::{hopeless, solve_charged};
use std::collections::BTreeMap;

use super::answer::{Answer, Configuration, Cut, PoolAnswer, Status, StopReason};
use super::compact::compact;
use super::converge::{Budget, Effort, converge};
use super::cost::cost;
use super::dive::{Dive, dive};
use super::fault::NestFault;
use super::longest_first::{first_answer, naive_splices};
use super::master::Master;
use super::pricing::Duals;
use super::problem::{Limits, Pool, Problem};
use super::proof::Branch;
use super::tree::grow;
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

fn solve_pool(
    pool: &Pool,
    limits: &Limits,
    stop: &(dyn Fn() -> bool + Sync),
    watch: &dyn Watch,
) -> Result<PoolAnswer, NestFault> {
    if let Some(answer) = watch.known(pool, limits) {
        return Ok(answer);
    }
    let mut budget = Budget {
        left: limits.work,
        stop,
    };
    let answer = solve_alone(pool, &mut budget)?;
    if answer.stop != StopReason::Interrupted {
        watch.learn(pool, limits, &answer);
    }
    watch.progress(
        &pool.name,
        answer.bound,
        Some(answer.cost),
        limits.work - budget.left,
    );
    Ok(answer)
}

/// One pool, without charges.
pub(super) fn solve_alone(pool: &Pool, budget: &mut Budget<'_>) -> Result<PoolAnswer, NestFault> {
    let mut answer = first_answer(pool);
    if answer.status == Status::Short && hopeless(pool).is_some() {
        return Ok(answer);
    }
    improve(pool, &mut answer, budget);
    if answer.status != Status::Short {
        verify(pool, &mut answer)?;
    }
    Ok(answer)
}

/// Root bound by column generation, then dives.
fn improve(pool: &Pool, answer: &mut PoolAnswer, budget: &mut Budget<'_>) {
    let spare = naive_splices(pool, false);
    let mut master = begin(pool, answer, &spare);
    let known = answer.status != Status::Short;
    let effort = Effort {
        rounds: 100_000,
        refinements: 400,
        compact: true,
        enough: if known { answer.cost } else { i64::MAX },
    };
    // The root may take half of the steps, so that some are left for plans.
    let mut part = Budget {
        left: budget.left / 2,
        stop: budget.stop,
    };
    let given = part.left;
    if master.shake(true) {
        converge(&mut master, effort, &mut part);
        master.shake(false);
    }
    let root = converge(&mut master, effort, &mut part);
    budget.spend(given - part.left);
    if let Some((bound, duals)) = &root.bound {
        certify(&master, answer, *bound, duals);
    }
    (master, _) = compact(&master, None);
    let lean = Effort {
        rounds: 1000,
        refinements: 0,
        compact: false,
        enough: i64::MAX,
    };
    converge(&mut master, lean, budget);
    for how in DIVES {
        let closed = answer.status != Status::Short && answer.bound >= answer.cost;
        if closed || budget.over() {
            break;
        }
        if let Some(found) = dive(&master, how, &spare, budget)
            && (answer.status == Status::Short || found.cost < answer.cost)
        {
            replace(answer, found);
        }
    }
    let closed =
        |answer: &PoolAnswer| answer.status != Status::Short && answer.bound >= answer.cost;
    if !closed(answer) && !budget.over() {
        let tree = grow(&master, answer, (DIVES[0], &spare), budget);
        if tree.bound > answer.bound {
            answer.bound = tree.bound;
            answer.proof = tree.proof;
        }
    }
    for depth in 3..MOST_DISCREPANCIES {
        if closed(answer) || budget.over() {
            break;
        }
        let how = Dive {
            skip_at: Some(depth),
            splicings_first: depth % 2 == 0,
            rounds: 4,
        };
        if let Some(found) = dive(&master, how, &spare, budget)
            && (answer.status == Status::Short || found.cost < answer.cost)
        {
            replace(answer, found);
        }
    }
    answer.stop = if (budget.stop)() {
        StopReason::Interrupted
    } else if budget.left == 0 {
        StopReason::WorkBudget
    } else {
        StopReason::Exhausted
    };
}

/// A better whole answer takes the place of the patterns and configurations; bound and duals stay.
pub(super) fn replace(answer: &mut PoolAnswer, better: PoolAnswer) {
    answer.patterns = better.patterns;
    answer.configurations = better.configurations;
    answer.cost = better.cost;
    answer.short.clear();
    answer.short_groups.clear();
    answer.status = Status::Within;
}

/// Dives with one second choice each, as long as steps are left.
const MOST_DISCREPANCIES: u32 = 40;

/// The dives tried, in order.
const DIVES: [Dive; 4] = [
    Dive {
        skip_at: None,
        splicings_first: false,
        rounds: 4,
    },
    Dive {
        skip_at: None,
        splicings_first: true,
        rounds: 4,
    },
    Dive {
        skip_at: Some(1),
        splicings_first: false,
        rounds: 4,
    },
    Dive {
        skip_at: Some(2),
        splicings_first: true,
        rounds: 4,
    },
];

/// A master program holding the first answer and some splicings to start from.
fn begin<'a>(pool: &'a Pool, answer: &PoolAnswer, spare: &[Configuration]) -> Master<'a> {
    let mut master = Master::new(pool);
    master.add_configurations(spare);
    master.add_configurations(&answer.configurations);
    let items: BTreeMap<usize, usize> = master
        .rows
        .iter()
        .enumerate()
        .filter_map(|(r, row)| Some((row.item?, r)))
        .collect();
    for pattern in &answer.patterns {
        let mut cuts: BTreeMap<usize, u32> = BTreeMap::new();
        for cut in &pattern.cuts {
            let row = match *cut {
                Cut::Item(i) => items[&i],
                Cut::Piece { length, class } => master.piece_row(class, length),
            };
            *cuts.entry(row).or_insert(0) += 1;
        }
        master.add_pattern(pattern.stock, cuts.into_iter().collect());
    }
    master
}

/// Writes the bound and its duals into the answer. Duals that give no more than 0 (a search stopped
/// before they were any good) are left out: the first answer's zero duals certify 0 by themselves.
fn certify(master: &Master<'_>, answer: &mut PoolAnswer, bound: i64, duals: &Duals) {
    if bound > 0 {
        answer.bound = bound;
        answer.proof = vec![Branch::Leaf(duals.leaf(master))];
    }
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
