//! The search for a packing into so many joints: pieces joined or kept apart, by least discrepancy.
//!
//! In each node pieces that share a joint in the broken answer are joined, one pair, or all pairs of the joints
//! that are whole; for each pair joined there is a node in which they are kept apart instead (W. D. Harvey,
//! M. L. Ginsberg 1995 for the order: fewest such choices first, deepest first among equals). When no node is
//! left open there is no packing.
//!
//! Two ways take turns, each time over more nodes. One joins what is nearly joined: where there is a packing it is
//! soon met. The other lists every pattern a packing may hold as soon as they are few, and splits where the broken
//! answer is farthest from whole: where there is none that is soon shown.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};
use std::rc::Rc;

use super::super::converge::Budget;
use super::below::Below;
use super::lot::{Cuts, Kind, Lot};
use super::parity::Parity;
use super::program::{Handed, Program, Verdict};
use super::round::round;

/// How a search ended.
#[derive(Clone, Debug)]
pub(super) enum End {
    /// A packing: the items of each joint.
    Packed(Vec<Vec<u32>>),
    /// There is none.
    None,
    /// Steps ran out.
    Unknown,
}

/// Pieces of all nodes kept open; more nodes are let go, and then nothing is claimed.
const OPEN: usize = 1_500_000;
/// Nodes of each way's first turn, and how many times more in the next.
const FIRST: u64 = 300;
const TIMES: u64 = 4;
/// Open nodes with lists from which on the search goes down rather than across.
const ROOMY: usize = 500;
/// The part of the steps that goes into lists.
const LISTING: u64 = 3;

/// A node not looked at yet.
struct Node {
    lot: Lot,
    columns: Rc<Handed>,
    cuts: Rc<Vec<Parity>>,
    discrepancies: u32,
    depth: u32,
    /// The columns are all that a packing may hold.
    whole: bool,
}

/// One turn.
pub(super) struct Turn {
    lists: bool,
    /// Nodes that may still be looked at.
    left: u64,
    nodes: BTreeMap<u64, Node>,
    open: BinaryHeap<(Reverse<u32>, u32, u64)>,
    next: u64,
    /// Nothing was let go or left undecided.
    whole: bool,
}

/// Looks for a packing of the lot.
pub(super) fn search(lot: Lot, columns: Handed, budget: &mut Budget<'_>) -> End {
    let (mut table, columns) = (Vec::new(), Rc::new(columns));
    let mut left = FIRST;
    loop {
        let mut short = false;
        for lists in [false, true] {
            let mut turn = Turn::new(lists, left, lot.clone(), Rc::clone(&columns));
            match turn.run(&mut table, budget) {
                End::Unknown if !budget.over() => short |= turn.left == 0,
                end => return end,
            }
        }
        if !short {
            return End::Unknown;
        }
        left = left.saturating_mul(TIMES);
    }
}

impl Turn {
    /// One that may look at so many nodes, and lists patterns or not.
    pub fn new(lists: bool, left: u64, lot: Lot, columns: Rc<Handed>) -> Turn {
        let mut turn = Turn {
            lists,
            left,
            nodes: BTreeMap::new(),
            open: BinaryHeap::new(),
            next: 0,
            whole: true,
        };
        turn.push(Node {
            lot,
            columns,
            cuts: Rc::default(),
            discrepancies: 0,
            depth: 0,
            whole: false,
        });
        turn
    }

    fn push(&mut self, node: Node) {
        self.open
            .push((Reverse(node.discrepancies), node.depth, self.next));
        self.nodes.insert(self.next, node);
        self.next += 1;
    }

    /// Looks until something is known or the nodes run out.
    pub fn run(&mut self, table: &mut Vec<i64>, budget: &mut Budget<'_>) -> End {
        let (begun, mut listing) = (budget.left, 0);
        while let Some((_, _, at)) = self.open.pop() {
            let Some(mut node) = self.nodes.remove(&at) else {
                continue;
            };
            if node.lot.waste() < 0 {
                continue;
            }
            if node.lot.is_empty() {
                return End::Packed(node.lot.done);
            }
            if self.left == 0 {
                return End::Unknown;
            }
            self.left -= 1;
            let size: usize = node.columns.columns.iter().map(Vec::len).sum();
            let due = self.lists && !node.whole && listing <= (begun - budget.left) / LISTING;
            budget.spend(size as u64 * 50);
            let mut program = Program::new(&node.lot, &node.columns, node.whole);
            program.start(&node.columns.loose, budget);
            program.take(&node.cuts);
            let broken = match program.decide(table, budget) {
                Verdict::Empty => continue,
                Verdict::Unknown if budget.over() => return End::Unknown,
                Verdict::Unknown => {
                    self.whole = false;
                    continue;
                }
                Verdict::Broken(broken) => broken,
            };
            if let Some(packed) = round(&node.lot, &broken) {
                return End::Packed(packed);
            }
            if due {
                let before = budget.left;
                let list = program.list(table, budget);
                listing += before - budget.left;
                if let Some(list) = list {
                    node.columns = Rc::new(Handed {
                        columns: list,
                        ..Handed::default()
                    });
                    node.whole = true;
                    self.push(node);
                    continue;
                }
            }
            let (cuts, columns) = (program.binding(), program.handed());
            self.branch(node, (columns, cuts), &broken);
        }
        if self.whole { End::None } else { End::Unknown }
    }

    fn branch(
        &mut self,
        node: Node,
        (columns, cuts): (Handed, Vec<Parity>),
        broken: &[(Cuts, f64)],
    ) {
        let pieces: u32 = node.lot.kinds.iter().map(Kind::count).sum();
        let most_open = OPEN / (pieces as usize + 100);
        let mut below = Below {
            lot: node.lot,
            columns,
            cuts,
            made: Vec::new(),
            spare: most_open.saturating_sub(self.nodes.len()),
            lost: false,
        };
        if self.lists {
            below.split(broken);
        } else {
            below.descend(broken);
        }
        let across = !self.lists || self.nodes.len() < ROOMY;
        let (columns, cuts) = (Rc::new(below.columns), Rc::new(below.cuts));
        below.lot.close_full();
        self.whole &= !below.lost;
        if below.made.is_empty() && !below.lost {
            // Nothing could be joined: the broken answer was none.
            self.whole = false;
            return;
        }
        let last = below.made.len();
        for (n, lot) in below.made.into_iter().chain([below.lot]).enumerate() {
            self.push(Node {
                lot,
                columns: Rc::clone(&columns),
                cuts: Rc::clone(&cuts),
                discrepancies: node.discrepancies + u32::from(n < last && across),
                depth: node.depth + 1 + n as u32,
                whole: node.whole,
            });
        }
    }
}
