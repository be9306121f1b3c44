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
use super::proof::{Branch, Counted, Leaf};
use super::tie::is_taken;

/// Most nodes looked at.
const NODES: usize = 120;

/// One split: the row of the program and its new right side.
pub(super) type Split = (usize, f64);

struct Node {
    splits: Vec<Split>,
    /// The best bound on the way here and its duals.
    leaf: Leaf,
    /// What its children split, and where they are.
    split: Option<(Counted, i64, [usize; 2])>,
}

/// What the tree came to.
pub(super) struct Grown<'a> {
    /// The program with the columns met.
    pub program: Master<'a>,
    /// No plan is cheaper than this.
    pub bound: i64,
    /// What says so.
    pub proof: Vec<Branch>,
}

/// The tree as it leaves the room.
fn proof(nodes: Vec<Node>) -> Vec<Branch> {
    let branch = |node: Node| match node.split {
        Some((counted, most, [under, over])) => Branch::Split {
            counted,
            most,
            under,
            over,
        },
        None => Branch::Leaf(node.leaf),
    };
    nodes.into_iter().map(branch).collect()
}

/// Grows the tree from a solved root; better answers replace `answer`.
pub(super) fn grow<'a>(
    root: &Master<'a>,
    answer: &mut PoolAnswer,
    (how, spare, met): (Dive, &[Configuration], &mut Vec<Sort>),
    budget: &mut Budget<'_>,
) -> Grown<'a> {
    let [Branch::Leaf(leaf)] = answer.proof.as_slice() else {
        return Grown {
            program: root.clone(),
            bound: i64::MIN,
            proof: Vec::new(),
        };
    };
    let mut nodes = vec![Node {
        splits: Vec::new(),
        leaf: leaf.clone(),
        split: None,
    }];
    let mut open: BinaryHeap<Reverse<(i64, usize)>> = BinaryHeap::new();
    open.push(Reverse((answer.bound, 0)));
    let mut settled = i64::MAX;
    let mut pool = root.clone();
    let mut looked = 0;
    while let Some(Reverse((bound, at))) = open.pop() {
        let known = (answer.status != Status::Short).then_some(answer.cost);
        if known.is_some_and(|cost| bound >= cost) {
            // Every other node is at least as dear.
            settled = settled.min(bound);
            break;
        }
        if looked >= NODES || budget.over() {
            settled = settled.min(bound);
            break;
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
        let mut found = bound;
        if let Some((better, duals)) = converge(&mut here, effort, budget).bound
            && better > bound
        {
            found = better;
            nodes[at].leaf = duals.leaf(&here);
        }
        if known.is_some_and(|cost| found >= cost) {
            settled = settled.min(found);
            continue;
        }
        // Dives cost more than nodes: in the first few nodes, then in every eighth.
        if (looked <= 4 || looked % 8 == 0 || known.is_none())
            && let Some(better) = dive(&here, how, (spare, met), budget)
            && is_taken(root.pool, &better, answer)
        {
            super::improve::replace(answer, better);
        }
        match split(&here) {
            None => settled = settled.min(found),
            Some((counted, most, children)) => {
                nodes[at].split = Some((counted, most, [nodes.len(), nodes.len() + 1]));
                for child in children {
                    let mut splits = nodes[at].splits.clone();
                    splits.push(child);
                    open.push(Reverse((found, nodes.len())));
                    nodes.push(Node {
                        splits,
                        leaf: nodes[at].leaf.clone(),
                        split: None,
                    });
                }
            }
        }
        keep_columns(&mut pool, &here);
    }
    Grown {
        program: pool,
        bound: settled,
        proof: proof(nodes),
    }
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

/// A count of the program's present solution: what is counted, how many, its rows of at most and at least.
type Count = (Counted, f64, (usize, usize));

/// All splices, all joints, then the joints of each stock.
fn counts(master: &Master<'_>) -> Vec<Count> {
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
    let all = |n: usize| (0..n).collect::<Vec<usize>>();
    let pool = master.pool;
    let (groups, every) = (all(pool.groups.len()), all(pool.stocks.len()));
    let mut counts = vec![
        (Counted::Splices(groups), splices, master.counts.splices),
        (Counted::Joints(every), joints, master.counts.joints),
    ];
    let single = stocks.into_iter().zip(&master.counts.stock).enumerate();
    counts.extend(single.map(|(s, (value, rows))| (Counted::Joints(vec![s]), value, *rows)));
    counts
}

/// The count nearest to a half, split at its floor; all joints and splices before single stocks.
pub(super) fn split(master: &Master<'_>) -> Option<(Counted, i64, [Split; 2])> {
    let far = |value: f64| (value - value.floor() - 0.5).abs();
    let (mut best, mut nearest) = (None, 0.5 - 1e-5);
    for count in counts(master) {
        let away = far(count.1);
        if away < nearest {
            nearest = away - 0.1;
            best = Some(count);
        }
    }
    let (counted, value, (most, least)) = best?;
    let down = value.floor();
    Some((counted, down as i64, [(most, down), (least, value.ceil())]))
}

/// The present number of what a pair of rows counts.
pub(super) fn counted(master: &Master<'_>, pair: (usize, usize)) -> f64 {
    let found = counts(master).into_iter().find(|count| count.2 == pair);
    found.map_or(0.0, |count| count.1)
}
