//! Branching on counts: joints of one stock, all joints, all splices. Such rows leave pricing as it is:
//! their duals only move what a joint or a splice costs, and each node has its own certified bound.
//!
//! Nodes are taken by least bound, one dive in each. What counts cannot settle stays open; the bound
//! of the tree is the least over its open and settled leaves.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::answer::{Configuration, PoolAnswer, Status};
use super::converge::{Budget, Effort, converge};
use super::dive::{Dive, dive};
use super::master::{Master, Sort};

/// Most nodes looked at.
const NODES: usize = 120;

/// One split: the row of the program and its new right side.
type Split = (usize, f64);

struct Node {
    splits: Vec<Split>,
}

/// What the tree came to.
pub(super) struct Grown {
    /// No plan is cheaper than this.
    pub bound: i64,
}

/// Grows the tree from a solved root; better answers replace `answer`.
pub(super) fn grow(
    root: &Master<'_>,
    root_bound: i64,
    answer: &mut PoolAnswer,
    (how, spare): (Dive, &[Configuration]),
    budget: &mut Budget<'_>,
) -> Grown {
    let mut nodes = vec![Node { splits: Vec::new() }];
    let mut open: BinaryHeap<Reverse<(i64, usize)>> = BinaryHeap::new();
    open.push(Reverse((root_bound, 0)));
    let mut settled = i64::MAX;
    let mut pool = root.clone();
    let mut looked = 0;
    while let Some(Reverse((bound, at))) = open.pop() {
        let known = (answer.status != Status::Short).then_some(answer.cost);
        if known.is_some_and(|cost| bound >= cost) {
            // Every other node is at least as dear.
            return Grown {
                bound: settled.min(bound),
            };
        }
        if looked >= NODES || budget.over() {
            return Grown {
                bound: settled.min(bound),
            };
        }
        looked += 1;
        let mut here = pool.clone();
        budget.spend(here.size());
        for &(row, right) in &nodes[at].splits {
            here.lp.set_right(row, right);
        }
        let effort = Effort {
            rounds: 200,
            refinements: 6,
            compact: false,
            enough: known.unwrap_or(i64::MAX),
        };
        let found = converge(&mut here, effort, budget)
            .bound
            .map_or(bound, |(b, _)| b.max(bound));
        if known.is_some_and(|cost| found >= cost) {
            settled = settled.min(found);
            continue;
        }
        // Dives cost more than nodes: in the first few nodes, then in every eighth.
        if (looked <= 4 || looked % 8 == 0 || known.is_none())
            && let Some(better) = dive(&here, how, spare, budget)
            && known.is_none_or(|cost| better.cost < cost)
        {
            super::solve::replace(answer, better);
        }
        match split(&here) {
            None => settled = settled.min(found),
            Some(children) => {
                for child in children {
                    let mut splits = nodes[at].splits.clone();
                    splits.extend(child);
                    open.push(Reverse((found, nodes.len())));
                    nodes.push(Node { splits });
                }
            }
        }
        keep_columns(&mut pool, &here);
    }
    Grown { bound: settled }
}

/// Columns found in a node serve the others too, on the rows they share.
fn keep_columns(pool: &mut Master<'_>, here: &Master<'_>) {
    let rows = pool.rows.len();
    for (column, _) in here.lp.basics() {
        if let Sort::Pattern(stock, cuts) = &here.sorts[column]
            && cuts.iter().all(|c| c.0 < rows)
        {
            pool.add_pattern(*stock, cuts.clone());
        }
    }
}

/// The count nearest to a half, split at its floor; all joints and splices before single stocks.
fn split(master: &Master<'_>) -> Option<[Option<Split>; 2]> {
    let mut stocks = vec![0.0; master.pool.stocks.len()];
    let mut splices = 0.0;
    for (column, value) in master.lp.basics() {
        match &master.sorts[column] {
            Sort::Aid => {}
            Sort::Pattern(stock, _) => stocks[*stock] += value,
            Sort::Splicing(_, lines) => {
                splices += value * lines.iter().map(|l| l.len() as f64 - 1.0).sum::<f64>();
            }
        }
    }
    let joints: f64 = stocks.iter().sum();
    let mut counts = vec![
        (splices, master.counts.splices),
        (joints, master.counts.joints),
    ];
    counts.extend(stocks.into_iter().zip(master.counts.stock.iter().copied()));
    let far = |value: f64| (value - value.floor() - 0.5).abs();
    let mut best: Option<(f64, f64, (usize, usize))> = None;
    for (value, rows) in counts {
        if far(value) < 0.5 - 1e-5 && best.is_none_or(|b| far(value) < b.0 - 0.1) {
            best = Some((far(value), value, rows));
        }
    }
    let (_, value, (most, least)) = best?;
    Some([Some((most, value.floor())), Some((least, value.ceil()))])
}
