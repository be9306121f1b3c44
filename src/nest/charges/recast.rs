//! Joints of one stock taken from another that is cut alike: a break not reached, a supplier not worth his
//! freight.

use std::collections::BTreeMap;

use super::super::answer::{Cut, Pattern};
use super::super::problem::{Pool, Problem};
use super::moved::Back;

/// Money in which a broken range is dearer than anything.
type Worth = (usize, i128);

/// The plans with all joints of some stocks taken from stocks of the same length, one stock after
/// another while that saves money or keeps a range; `None` where nothing is gained; `counts` are the joints
/// they cut.
pub(super) fn recast(
    problem: &Problem,
    backs: &[&Back],
    mut counts: Vec<Vec<u64>>,
) -> Option<Vec<Back>> {
    let mut to: Vec<Vec<usize>> = counts.iter().map(|c| (0..c.len()).collect()).collect();
    let mut now = worth(problem, &counts);
    let before = now;
    while let Some((better, (pool, from, into))) = best_move(problem, &counts, now) {
        counts[pool][into] += counts[pool][from];
        counts[pool][from] = 0;
        for place in &mut to[pool] {
            if *place == from {
                *place = into;
            }
        }
        now = better;
    }
    let moved = || {
        backs
            .iter()
            .zip(&to)
            .map(|(back, to)| moved(back, to))
            .collect()
    };
    (now < before).then(moved)
}

/// A pool, the stock left and the stock taken in its place.
type Move = (usize, usize, usize);

/// The move that leaves the least money, if it is under what is paid now.
fn best_move(problem: &Problem, counts: &[Vec<u64>], now: Worth) -> Option<(Worth, Move)> {
    let mut best: Option<(Worth, Move)> = None;
    for (p, pool) in problem.pools.iter().enumerate() {
        for from in (0..pool.stocks.len()).filter(|s| counts[p][*s] > 0) {
            for into in (0..pool.stocks.len()).filter(|s| *s != from && alike(pool, from, *s)) {
                let mut tried = counts.to_vec();
                tried[p][into] += tried[p][from];
                tried[p][from] = 0;
                let limit = pool.stocks[into].limit;
                if limit.is_some_and(|most| tried[p][into] > u64::from(most)) {
                    continue;
                }
                let then = worth(problem, &tried);
                if then < best.as_ref().map_or(now, |b| b.0) {
                    best = Some((then, (p, from, into)));
                }
            }
        }
    }
    best
}

/// Whether what is cut from the one may be cut from the other.
fn alike(pool: &Pool, from: usize, into: usize) -> bool {
    let (from, into) = (&pool.stocks[from], &pool.stocks[into]);
    from.usable == into.usable && from.serves & !into.serves == 0
}

/// Ranges broken, then joints and charges together.
fn worth(problem: &Problem, counts: &[Vec<u64>]) -> Worth {
    let (mut broken, mut money) = (0, 0i128);
    for (pool, counts) in problem.pools.iter().zip(counts) {
        for (stock, n) in pool.stocks.iter().zip(counts) {
            money += i128::from(stock.cost) * i128::from(*n);
        }
    }
    for charge in &problem.charges {
        match charge.money(problem, counts) {
            Some(paid) => money += paid,
            None => broken += 1,
        }
    }
    (broken, money)
}

/// The same cutting, its joints taken elsewhere; what then is equal stands once.
fn moved(back: &Back, to: &[usize]) -> Back {
    let mut times: BTreeMap<(usize, Vec<Cut>), u32> = BTreeMap::new();
    let mut taken = vec![0; to.len()];
    for pattern in &back.patterns {
        let stock = to[pattern.stock];
        *times.entry((stock, pattern.cuts.clone())).or_insert(0) += pattern.times;
        taken[stock] += i64::from(pattern.times);
    }
    let pattern = |((stock, cuts), times)| Pattern { stock, times, cuts };
    Back {
        patterns: times.into_iter().map(pattern).collect(),
        configurations: back.configurations.clone(),
        taken,
    }
}
