//! Pools of very many limited stocks, such as a rack of thousands of measured remnants.
//!
//! The whole engine has two rows for each stock, so thousands of them would fill the memory. Three smaller pools
//! take the pool's place:
//!
//! - *merged*: stocks alike in all that counts are one; nothing is lost;
//! - *relaxed*: limited stocks of one cost, serving the same classes, are as many of the longest of them. Whoever
//!   cuts a shorter one may cut the longest in its place, so no plan of the pool is cheaper than the least of the
//!   relaxed one, and duals that certify a bound there certify at least as much here: a shorter stock of the same
//!   cost has no lower reduced cost;
//! - *core*: the stocks among which the plan is searched: for each joint of the relaxed plan the shortest stock
//!   that holds its pieces, and the longest few of every kind.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

use super::answer::{Cut, Pattern, PoolAnswer, Status};
use super::best_fit::cut_length;
use super::bound::money_step;
use super::converge::Budget;
use super::cost::cost;
use super::fault::NestFault;
use super::improve::{bounded, end, replace, within};
use super::longest_first::first_answer;
use super::problem::{Pool, Stock};
use super::proof::Branch;
use super::solve::solve_alone;
use super::tie::is_taken;

/// Limited stocks beyond which a pool has very many.
const MANY: usize = 400;
/// Kinds of one cost that a relaxed pool may have; with more of them there is none.
const KINDS: usize = 100;
/// Longest stocks of each kind in the core, beside those that the relaxed plan asks for.
const LONGEST: usize = 4;

/// Whether the engine would need too many rows for the stocks.
pub(super) fn has_many_stocks(pool: &Pool) -> bool {
    let limited = pool
        .stocks
        .iter()
        .filter(|s| s.limit.is_some_and(|l| l > 0));
    limited.count() > MANY
}

/// A smaller pool, and the stocks of the pool that each of its stocks stands for.
struct Fewer {
    pool: Pool,
    members: Vec<Vec<usize>>,
}

impl Fewer {
    fn new(pool: &Pool, stocks: impl Iterator<Item = (Stock, Vec<usize>)>) -> Fewer {
        let (stocks, members) = stocks.unzip();
        let pool = Pool {
            stocks,
            ..pool.clone()
        };
        Fewer { pool, members }
    }

    /// Patterns over the stocks themselves, each within its limit, in a fixed order.
    fn widened(&self, whole: &Pool, patterns: &[Pattern]) -> Vec<Pattern> {
        let mut left: Vec<u32> = whole
            .stocks
            .iter()
            .map(|s| s.limit.unwrap_or(u32::MAX))
            .collect();
        let mut made: BTreeMap<(usize, &Vec<Cut>), u32> = BTreeMap::new();
        for pattern in patterns {
            let mut wanted = pattern.times;
            for &stock in &self.members[pattern.stock] {
                let taken = wanted.min(left[stock]);
                if taken > 0 {
                    left[stock] -= taken;
                    wanted -= taken;
                    *made.entry((stock, &pattern.cuts)).or_insert(0) += taken;
                }
            }
        }
        let pattern = |((stock, cuts), times): ((usize, &Vec<Cut>), u32)| Pattern {
            stock,
            times,
            cuts: cuts.clone(),
        };
        made.into_iter().map(pattern).collect()
    }

    /// Takes a plan of the smaller pool when it is the better one.
    fn take(
        &self,
        whole: &Pool,
        answer: &mut PoolAnswer,
        mut found: PoolAnswer,
    ) -> Result<bool, NestFault> {
        if !found.status.has_plan() {
            return Ok(false);
        }
        found.patterns = self.widened(whole, &found.patterns);
        found.cost = cost(whole, &found.patterns, &found.configurations)?;
        let taken = is_taken(whole, &found, answer);
        if taken {
            replace(answer, found);
        }
        Ok(taken)
    }
}

/// Betters the answer of a pool of very many limited stocks in place, bound and plan.
pub(super) fn improve_many(
    pool: &Pool,
    answer: &mut PoolAnswer,
    budget: &mut Budget<'_>,
) -> Result<(), NestFault> {
    let merged = merged(pool);
    if !has_many_stocks(&merged.pool) {
        return exactly(pool, &merged, answer, budget);
    }
    let relaxed = relaxed(&merged.pool);
    let rough = match &relaxed {
        Some(relaxed) => {
            let rough = within(budget, 2, |part| solve_alone(&relaxed.pool, part))?;
            certify(pool, &relaxed.pool, answer, &rough, budget);
            Some((relaxed, rough))
        }
        None => None,
    };
    let core = core(
        &merged,
        rough.as_ref().map(|(relaxed, rough)| (*relaxed, rough)),
        answer,
    );
    let found = solve_alone(&core.pool, budget)?;
    core.take(pool, answer, found)?;
    end(answer, budget);
    Ok(())
}

/// With equal stocks merged the engine can search the pool itself.
fn exactly(
    pool: &Pool,
    merged: &Fewer,
    answer: &mut PoolAnswer,
    budget: &mut Budget<'_>,
) -> Result<(), NestFault> {
    let found = solve_alone(&merged.pool, budget)?;
    let (stop, least) = (found.stop, found.cost);
    let closed = matches!(found.status, Status::Proved | Status::ProvedBySearch);
    certify(pool, &merged.pool, answer, &found, budget);
    merged.take(pool, answer, found)?;
    answer.stop = stop;
    if closed && answer.cost == least {
        answer.status = Status::ProvedBySearch;
    }
    Ok(())
}

/// All that counts of a stock: its place where it has no limit, usable length, cost, price, classes, length.
type Alike = (Option<usize>, Reverse<i64>, i64, Option<i64>, u32, i64);

/// Stocks alike in all that counts as one; those without limit stay by themselves.
fn merged(pool: &Pool) -> Fewer {
    let mut kinds: BTreeMap<Alike, Vec<usize>> = BTreeMap::new();
    for (s, stock) in pool
        .stocks
        .iter()
        .enumerate()
        .filter(|(_, s)| s.limit != Some(0))
    {
        let alone = stock.limit.is_none().then_some(s);
        let alike = (
            alone,
            Reverse(stock.usable),
            stock.cost,
            stock.price,
            stock.serves,
            stock.length,
        );
        kinds.entry(alike).or_default().push(s);
    }
    Fewer::new(
        pool,
        kinds
            .into_values()
            .map(|members| (together(pool, &members), members)),
    )
}

/// As many as all of them of the first.
fn together(pool: &Pool, members: &[usize]) -> Stock {
    let first = &pool.stocks[members[0]];
    let limit = members.iter().try_fold(0u32, |sum, s| {
        Some(sum.saturating_add(pool.stocks[*s].limit?))
    });
    Stock {
        limit: first.limit.and(limit),
        ..first.clone()
    }
}

/// Limited stocks of one cost as the longest of them; `None` where there are very many costs.
fn relaxed(merged: &Pool) -> Option<Fewer> {
    let kinds = kinds(merged);
    if kinds.len() > KINDS {
        return None;
    }
    let limited = kinds
        .into_iter()
        .map(|members| (together(merged, &members), members));
    let endless = merged
        .stocks
        .iter()
        .enumerate()
        .filter(|(_, s)| s.limit.is_none());
    let endless = endless.map(|(s, stock)| (stock.clone(), vec![s]));
    Some(Fewer::new(merged, endless.chain(limited)))
}

/// Limited stocks of one cost serving the same classes, the longest first.
fn kinds(merged: &Pool) -> Vec<Vec<usize>> {
    let mut kinds: BTreeMap<(u32, i64), Vec<usize>> = BTreeMap::new();
    for (s, stock) in merged
        .stocks
        .iter()
        .enumerate()
        .filter(|(_, s)| s.limit.is_some())
    {
        kinds.entry((stock.serves, stock.cost)).or_default().push(s);
    }
    let mut kinds: Vec<Vec<usize>> = kinds.into_values().collect();
    for members in &mut kinds {
        members.sort_by_key(|s| Reverse(merged.stocks[*s].usable));
    }
    kinds
}

/// Takes the bound of a smaller pool when it is the better one: that of its duals without any splits, which say
/// the same of the stocks themselves.
fn certify(
    pool: &Pool,
    fewer: &Pool,
    answer: &mut PoolAnswer,
    found: &PoolAnswer,
    budget: &mut Budget<'_>,
) {
    let alone = |a: &PoolAnswer| matches!(a.proof.as_slice(), [Branch::Leaf(leaf)] if leaf.multipliers.is_empty());
    let mut root = found.clone();
    if !alone(found) {
        root = first_answer(fewer, budget.stop);
        within(budget, 2, |part| bounded(fewer, &mut root, part));
    }
    // A bound is rounded up to what all costs share, so they must share it here as well.
    let sound = alone(&root) && money_step(fewer) == money_step(pool);
    let stands = root.status.has_plan();
    if sound && stands && root.bound > answer.bound {
        answer.bound = root.bound;
        answer.proof = root.proof;
    }
}

/// The stocks among which the plan is searched, at most [`MANY`] limited ones and all others.
fn core(merged: &Fewer, rough: Option<(&Fewer, &PoolAnswer)>, answer: &PoolAnswer) -> Fewer {
    let stocks = &merged.pool.stocks;
    let mut chosen: BTreeSet<usize> = BTreeSet::new();
    let known: BTreeSet<usize> = answer.patterns.iter().map(|p| p.stock).collect();
    let limited = |s: &usize| stocks[*s].limit.is_some();
    let of_known =
        (0..stocks.len()).filter(|s| merged.members[*s].iter().any(|m| known.contains(m)));
    chosen.extend(of_known.filter(limited));
    let kinds = kinds(&merged.pool);
    if let Some((relaxed, rough)) = rough {
        for pattern in &rough.patterns {
            fitting(
                &merged.pool,
                &relaxed.members[pattern.stock],
                pattern,
                &mut chosen,
            );
        }
    }
    let each = LONGEST.min(1 + MANY / kinds.len().max(1));
    for members in &kinds {
        chosen.extend(members.iter().take(each));
    }
    let all = (0..stocks.len()).filter(|s| !limited(s));
    let all = all.chain(chosen.into_iter().take(MANY));
    let all: BTreeSet<usize> = all.collect();
    Fewer::new(
        &merged.pool,
        all.into_iter()
            .map(|s| (stocks[s].clone(), merged.members[s].clone())),
    )
}

/// Chooses, for each joint cut so, the shortest of these stocks not chosen yet that holds its pieces; where none
/// does, the longest.
fn fitting(merged: &Pool, members: &[usize], pattern: &Pattern, chosen: &mut BTreeSet<usize>) {
    let weights = pattern
        .cuts
        .iter()
        .map(|c| cut_length(merged, c) + merged.kerf);
    let need = weights.sum::<i64>() - merged.kerf;
    let mut wanted = pattern.times;
    let holds = members.partition_point(|s| merged.stocks[*s].usable >= need);
    let (holding, shorter) = members.split_at(holds);
    for s in holding.iter().rev().chain(shorter) {
        if wanted == 0 {
            return;
        }
        let Some(limit) = merged.stocks[*s].limit else {
            return;
        };
        if chosen.insert(*s) {
            wanted = wanted.saturating_sub(limit);
        }
    }
}
