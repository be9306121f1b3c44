//! Long lists: joints filled one by one and the whole engine for the last of them, under the bound of what each
//! length costs in the cheapest joint. Where that leaves a gap, the whole engine for all; or, where a program
//! of a row for each length would be too large, for coarse pools.

use std::collections::BTreeMap;

use super::answer::{Cut, Pattern, PoolAnswer, Status};
use super::best_fit::best_fit;
use super::bound::money_step;
use super::coarse::{As, coarsen};
use super::converge::Budget;
use super::cost::cost;
use super::farley::{Certified, by_length, lowered};
use super::fault::NestFault;
use super::fill::fill_joints;
use super::improve::{bounded, end, improve, replace, within};
use super::longest_first::{first_answer, needs};
use super::many_stocks::has_many_stocks;
use super::master::pieces_at_most;
use super::problem::{Item, Pool};
use super::proof::Branch;
use super::solve::solve_alone;
use super::tie::is_taken;

/// Pieces from which a list is long.
pub(super) const LONG: i64 = 1_000;
/// Lengths of a coarse pool at least and at most.
const ROWS: (u64, u64) = (40, 300);
/// Steps that a long list's program takes to settle, by the third power of its rows (measured).
const CUBE: u64 = 70;
/// Pieces left to the whole engine.
const LEAVE: u64 = 60;
/// Steps that the last pieces get at most: a quarter of all, and never more than these.
const LAST: u64 = 400_000_000;
/// Gaps from this part of the money on ask for coarse pools.
const NEAR: i64 = 1_000;

fn is_plain(pool: &Pool) -> bool {
    pool.groups.iter().all(|g| g.count == 0)
}

/// Very many pieces and no spliced lines, or a program too large for the steps there are.
pub(super) fn is_long(pool: &Pool, budget: &Budget<'_>) -> bool {
    is_plain(pool) && pieces_at_most(pool) >= LONG || is_too_large(pool, budget)
}

/// True when a program of a row for each length would eat the steps: some two pivots a row, each a quarter of
/// the rows squared; far more of them on long lists.
fn is_too_large(pool: &Pool, budget: &Budget<'_>) -> bool {
    let rows = pool.items.iter().filter(|i| i.count > 0).count() as u64;
    let cube = rows.saturating_pow(3);
    if is_plain(pool) && pieces_at_most(pool) >= LONG {
        rows > ROWS.0 && cube.saturating_mul(CUBE) > budget.left / 2
    } else {
        rows > ROWS.1 && cube > budget.left
    }
}

/// Betters the first answer of a long list in place, bound and plan.
pub(super) fn improve_long(
    pool: &Pool,
    answer: &mut PoolAnswer,
    budget: &mut Budget<'_>,
) -> Result<(), NestFault> {
    if is_plain(pool) {
        let start = lowered(pool, by_length(pool), budget);
        certify(pool, answer, start);
    }
    let part = (budget.left / LAST).max(4);
    within(budget, part, |part| plan(pool, answer, part))?;
    if !is_far(answer) || has_many_stocks(pool) {
        // A row for each of very many stocks would fill the memory: the last pieces chose among them.
        end(answer, budget);
    } else if is_too_large(pool, budget) {
        within(budget, 2, |part| bound_roughly(pool, answer, part));
        if is_far(answer) {
            plan_roughly(pool, answer, budget)?;
        }
        end(answer, budget);
    } else {
        improve(pool, answer, budget);
    }
    Ok(())
}

/// No plan yet, or a gap worth more work.
fn is_far(answer: &PoolAnswer) -> bool {
    answer.status == Status::Short || answer.cost - answer.bound > answer.cost / NEAR
}

/// Lengths that a coarse pool may have for its program to settle.
fn rows(budget: &Budget<'_>) -> usize {
    let settles = |rows: &u64| rows.pow(3) * CUBE <= budget.left;
    let most = (ROWS.0..=ROWS.1).take_while(settles).last();
    most.unwrap_or(ROWS.0) as usize
}

/// The bound of the coarse pool, and of its duals drawn out over the true lengths.
fn bound_roughly(pool: &Pool, answer: &mut PoolAnswer, budget: &mut Budget<'_>) {
    let coarse = within(budget, 2, |part| coarsen(pool, As::Shortest, rows(part)));
    let mut rough = first_answer(&coarse.pool, budget.stop);
    within(budget, 2, |part| bounded(&coarse.pool, &mut rough, part));
    if rough.bound > answer.bound {
        answer.bound = rough.bound;
        answer.proof = coarse.lift(&rough.proof);
    }
    if let [Branch::Leaf(leaf)] = rough.proof.as_slice()
        && is_plain(pool)
    {
        let drawn = lowered(pool, coarse.drawn_out(pool, leaf), budget);
        certify(pool, answer, drawn);
    }
}

/// The plan of the coarse pool of longest lengths, cut to the true ones.
fn plan_roughly(
    pool: &Pool,
    answer: &mut PoolAnswer,
    budget: &mut Budget<'_>,
) -> Result<(), NestFault> {
    let coarse = within(budget, 2, |part| coarsen(pool, As::Longest, rows(part)));
    let mut rough = first_answer(&coarse.pool, budget.stop);
    improve(&coarse.pool, &mut rough, budget);
    if let Some(better) = coarse.cut_true(pool, &rough) {
        take(pool, answer, better)?;
    }
    Ok(())
}

/// Takes a bound that is better, rounded up to the money all costs share.
fn certify(pool: &Pool, answer: &mut PoolAnswer, certified: Option<Certified>) {
    let Some(certified) = certified else {
        return;
    };
    let step = i128::from(money_step(pool));
    let floor = i128::from(certified.leaf.dual_scale) * step;
    let up = -(-certified.sum).div_euclid(floor) * step;
    let bound = i64::try_from(up).unwrap_or(0);
    if bound > answer.bound {
        answer.bound = bound;
        answer.proof = vec![Branch::Leaf(certified.leaf)];
    }
}

/// Joints filled one by one, the rest by the whole engine; taken when cheaper.
fn plan(pool: &Pool, answer: &mut PoolAnswer, budget: &mut Budget<'_>) -> Result<(), NestFault> {
    // Lines are spliced with the last pieces, where the engine chooses their splices.
    let mut needs = needs(pool, &[]);
    let joints = fill_joints(pool, &mut needs, LEAVE, budget.stop);
    if budget.over() || joints.is_empty() {
        return Ok(());
    }
    let filled = best_fit(pool, joints, &[], &[]).patterns;
    let mut last = solve_alone(&rest(pool, &filled), budget)?;
    if last.status != Status::Short {
        last.patterns = together(filled, last.patterns);
        take(pool, answer, last)?;
    }
    Ok(())
}

/// Takes a plan when it is cheaper.
fn take(pool: &Pool, answer: &mut PoolAnswer, mut found: PoolAnswer) -> Result<(), NestFault> {
    found.cost = cost(pool, &found.patterns, &found.configurations)?;
    if is_taken(pool, &found, answer) {
        replace(answer, found);
    }
    Ok(())
}

/// What is left of a pool when these joints are cut.
fn rest(pool: &Pool, filled: &[Pattern]) -> Pool {
    let mut rest = pool.clone();
    for pattern in filled {
        let stock = &mut rest.stocks[pattern.stock];
        stock.limit = stock.limit.map(|l| l.saturating_sub(pattern.times));
        for cut in &pattern.cuts {
            if let Cut::Item(i) = *cut {
                let Item { count, .. } = &mut rest.items[i];
                *count = count.saturating_sub(pattern.times);
            }
        }
    }
    rest
}

/// Equal joints of both together, in the fixed order.
fn together(one: Vec<Pattern>, other: Vec<Pattern>) -> Vec<Pattern> {
    let mut equal: BTreeMap<(usize, Vec<Cut>), u32> = BTreeMap::new();
    for pattern in one.into_iter().chain(other) {
        *equal.entry((pattern.stock, pattern.cuts)).or_insert(0) += pattern.times;
    }
    let pattern = |((stock, cuts), times)| Pattern { stock, times, cuts };
    equal.into_iter().map(pattern).collect()
}
