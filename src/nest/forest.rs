//! Closing a pool of lines spliced once by search over trees of joints.
//!
//! A line too long for one joint ties two together. Where k joints cannot hold k lines no ties close a round,
//! so the joints of any plan are trees, each of them with little room for items: all trees worth their money are
//! listed (`forest/grow.rs`), and a whole-number program chooses among them. The two lines of a group are left
//! to choose their places freely; where they come too near, one of them keeps out of there or the other does,
//! and both ways are searched. Nothing cheaper left proves the best plan by search.

use std::collections::BTreeMap;

use super::answer::{Configuration, PoolAnswer, Status};
use super::assemble::{Choice, assemble};
use super::bound::money_step;
use super::chain::Chain;
use super::closing::is_told_apart;
use super::converge::Budget;
use super::couple::conflict;
use super::improve::within;
use super::lattice::{Span, centre_unit, pieces_sum, stand, stretches};
use super::leaves::Place;
use super::master::Row;
use super::parting::{is_small, singles};
use super::problem::{Group, Pool};
use super::proof::Branch;
use super::rules::configuration_cost;
use super::whole_numbers::cheapest_whole;
use choose::{Made, program};
use grow::grow;
use worth::{Banned, Unfit, Worth, is_forest};

mod choose;
mod grow;
mod kinds;
mod worth;

/// Parts of one search.
const PARTS: usize = 200;
/// Rows × trees of a program, and its nodes.
const CELLS: usize = 2_000_000;
const NODES: u64 = 20_000;
/// Programs of one part.
const ROUNDS: u32 = 12;
/// Of the gap so many parts are looked at first, and there are so many.
const FIRST_SHARE: i64 = 2;
const WHOLE: i64 = 16;
/// Tries to tell which line of which of equal groups is which.
const TRIES: u32 = 10_000;

/// What a search of a part came to.
enum End {
    /// Nothing cheaper than the best plan lies here.
    Closed,
    /// Two lines of a group come too near: where each of them may keep out.
    Clash(usize, Vec<(usize, Vec<Span>)>),
    /// Too much.
    Open,
}

/// Tries to prove the answer by search under the duals of its bound, or to better it. True when it is proved.
pub(super) fn close_forest(
    pool: &Pool,
    answer: &mut PoolAnswer,
    spare: &[Configuration],
    budget: &mut Budget<'_>,
) -> bool {
    let [Branch::Leaf(leaf)] = answer.proof.as_slice() else {
        return false;
    };
    let open = answer.status != Status::Short && answer.bound < answer.cost;
    let fit = is_small(pool) && is_forest(pool) && is_told_apart(pool);
    if !open || !fit || !leaf.multipliers.is_empty() {
        return false;
    }
    let (single, of) = singles(pool);
    let place = Place {
        leaf: leaf.clone(),
        ..Place::whole(&single)
    };
    let free = |g: &Group| vec![Vec::new(); g.lines.len()];
    let mut open: Vec<Banned> = vec![single.groups.iter().map(free).collect()];
    for _ in 0..PARTS {
        let Some(banned) = open.pop() else {
            return true;
        };
        let pools = (pool, &single, of.as_slice());
        match search(pools, &banned, answer, (&place, spare), budget) {
            End::Closed => {}
            End::Open => return false,
            End::Clash(group, ways) => {
                for (line, spans) in ways {
                    let mut apart = banned.clone();
                    apart[group][line].extend(spans);
                    open.push(apart);
                }
            }
        }
    }
    false
}

/// A part searched for plans over a growing share of the gap, so that a poor best plan costs little.
fn search(
    pools: (&Pool, &Pool, &[usize]),
    banned: &Banned,
    answer: &mut PoolAnswer,
    (place, spare): (&Place, &[Configuration]),
    budget: &mut Budget<'_>,
) -> End {
    let step = money_step(pools.0);
    let mut share = FIRST_SHARE;
    for _ in 0..ROUNDS {
        let most = answer.cost - step;
        let goal = most - (most - answer.bound).max(0) / WHOLE * (WHOLE - share);
        let cost = answer.cost;
        match under(goal, pools, banned, answer, (place, spare), budget) {
            // Nothing so cheap: a larger share.
            End::Closed if share < WHOLE && answer.cost == cost => share *= 2,
            // Not all of it was looked at, but a better plan was found.
            End::Open if answer.cost < cost => {}
            end => return end,
        }
    }
    End::Open
}

/// The cheapest plan of at most `goal` in a part. Closed: there is none, or the answer is it.
fn under(
    goal: i64,
    (pool, single, of): (&Pool, &Pool, &[usize]),
    banned: &Banned,
    answer: &mut PoolAnswer,
    (place, spare): (&Place, &[Configuration]),
    budget: &mut Budget<'_>,
) -> End {
    let worth = match Worth::new(single, place, banned, goal) {
        Ok(worth) => worth,
        Err(Unfit::Nothing) => return End::Closed,
        Err(Unfit::Large) => return End::Open,
    };
    budget.spend(worth.work);
    let Some((labels, trees)) = grow(&worth, budget) else {
        return End::Open;
    };
    let program = program(&worth, &labels, &trees);
    budget.spend(trees.len() as u64 * 500);
    if program.rows.len() * trees.len() > CELLS || trees.iter().any(|t| t.money < 0) {
        return End::Open;
    }
    let step = money_step(pool);
    let found = within(budget, 2, |part| {
        cheapest_whole(&program, goal + step, step, NODES, part)
    });
    let Some((money, counts)) = found.best else {
        return if found.closed { End::Closed } else { End::Open };
    };
    let mut made = Made::default();
    for (tree, times) in trees.iter().zip(counts) {
        for _ in 0..times {
            made.add(&worth, &labels, tree);
        }
    }
    let groups = match assigned(single, banned, &worth, &made) {
        Ok(groups) => groups,
        Err(Some(clash)) if found.closed => return clash,
        Err(_) => return End::Open,
    };
    let (rows, choice) = choice(&made, (groups, of));
    let better = assemble(pool, &rows, &choice, spare);
    match better.filter(|b| b.cost <= money && b.cost < answer.cost) {
        Some(better) => super::improve::replace(answer, better),
        None => return End::Open,
    }
    if found.closed { End::Closed } else { End::Open }
}

/// The lines of each group.
type Lines = Vec<Vec<Vec<i64>>>;

/// Which line of which group each is, so that all groups are legal; or where two clash.
fn assigned(
    pool: &Pool,
    banned: &Banned,
    worth: &Worth<'_>,
    made: &Made,
) -> Result<Lines, Option<End>> {
    let mut left: Vec<Vec<i64>> = vec![Vec::new(); worth.line_kinds.len()];
    for &(kind, cut) in &made.lines {
        left[kind].push(cut);
    }
    let short = |k: usize| left[k].len() < worth.line_kinds[k].count as usize;
    if (0..left.len()).any(short) {
        return Err(None);
    }
    let mut lines = Lines::new();
    let mut tries = TRIES;
    if assign(pool, worth, &mut left.clone(), &mut lines, &mut tries) {
        return Ok(lines);
    }
    for (g, group) in pool.groups.iter().enumerate() {
        let kinds = &worth.of[g];
        let cuts: Option<Vec<i64>> = kinds.iter().map(|&k| left[k].pop()).collect();
        let cuts = cuts.ok_or(None)?;
        if configuration_cost(group, pool.mark, &pieces(worth, kinds, &cuts)).is_ok() {
            continue;
        }
        let unit = centre_unit(group);
        let chains: Option<Vec<Chain>> = (group.lines.iter().zip(&cuts).zip(&banned[g]))
            .map(|((line, &cut), banned)| {
                let runs = stretches(line, pool.mark, unit, (1, 1), banned);
                let run = runs.iter().find(|r| r.from <= cut && cut <= r.to)?;
                let total = pieces_sum(line, pool.mark, 1);
                Some(Chain {
                    value: 0,
                    pieces: vec![cut, total - cut],
                    stands: vec![stand(line, pool.mark, unit, (1, 1), (cut, run))],
                })
            })
            .collect();
        let ways = chains.and_then(|chains| conflict(group, unit, &chains));
        return Err(ways.map(|ways| End::Clash(g, ways)));
    }
    Err(None)
}

/// The lines of a group cut so.
fn pieces(worth: &Worth<'_>, kinds: &[usize], cuts: &[i64]) -> Vec<Vec<i64>> {
    let each = kinds.iter().zip(cuts);
    each.map(|(&k, &cut)| vec![cut, worth.line_kinds[k].total - cut])
        .collect()
}

/// Legal lines for every group after those in `lines`, depth first.
fn assign(
    pool: &Pool,
    worth: &Worth<'_>,
    left: &mut Vec<Vec<i64>>,
    lines: &mut Lines,
    tries: &mut u32,
) -> bool {
    let g = lines.len();
    let Some(group) = pool.groups.get(g) else {
        return true;
    };
    let kinds = &worth.of[g];
    let [first, rest @ ..] = kinds.as_slice() else {
        lines.push(Vec::new());
        return assign(pool, worth, left, lines, tries);
    };
    for a in 0..left[*first].len() {
        let one = left[*first].swap_remove(a);
        let others = rest.first().map_or(1, |k| left[*k].len());
        for b in 0..others {
            let other = rest.first().map(|k| left[*k].swap_remove(b));
            let cuts: Vec<i64> = std::iter::once(one).chain(other).collect();
            let made = pieces(worth, kinds, &cuts);
            *tries = tries.saturating_sub(1);
            if *tries > 0 && configuration_cost(group, pool.mark, &made).is_ok() {
                lines.push(made);
                if assign(pool, worth, left, lines, tries) {
                    return true;
                }
                lines.pop();
            }
            if let (Some(k), Some(cut)) = (rest.first(), other) {
                put_back(&mut left[*k], b, cut);
            }
        }
        put_back(&mut left[*first], a, one);
    }
    false
}

/// Undoes a `swap_remove`.
fn put_back(list: &mut Vec<i64>, at: usize, cut: i64) {
    list.push(cut);
    let last = list.len() - 1;
    list.swap(at, last);
}

/// The same as chosen patterns and splicings over rows of their own.
fn choice(made: &Made, (groups, of): (Lines, &[usize])) -> (Vec<Row>, Choice) {
    let mut numbers: BTreeMap<(u8, i64), usize> = BTreeMap::new();
    let mut rows: Vec<Row> = Vec::new();
    let mut choice = Choice::default();
    for joint in &made.joints {
        let mut cuts: BTreeMap<usize, u32> = BTreeMap::new();
        for &(class, length) in &joint.pieces {
            let row = *numbers.entry((class, length)).or_insert_with(|| {
                rows.push(Row {
                    class,
                    length,
                    item: None,
                    lp: 0,
                });
                rows.len() - 1
            });
            *cuts.entry(row).or_insert(0) += 1;
        }
        choice
            .patterns
            .push((joint.stock, cuts.into_iter().collect(), 1));
    }
    for (g, lines) in groups.into_iter().enumerate() {
        if !lines.is_empty() {
            choice.splicings.push((of[g], lines, 1));
        }
    }
    (rows, choice)
}

#[cfg(test)]
mod tests;
