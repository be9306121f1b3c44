//! The search for a packing into so many joints: pieces joined or kept apart, by least discrepancy.
//!
//! In each node pieces that share a joint in the broken answer are joined, one pair, or all pairs of the joints
//! that are whole; for each pair joined there is a node in which they are kept apart instead (W. D. Harvey,
//! M. L. Ginsberg 1995 for the order: fewest such choices first, deepest first among equals). When no node is
//! left open there is no packing.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};
use std::rc::Rc;

use super::super::converge::Budget;
use super::lot::{Cuts, Lot};
use super::program::{NOTHING, Program, Verdict};
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

/// A node not looked at yet.
struct Node {
    lot: Lot,
    columns: Rc<Vec<Cuts>>,
    discrepancies: u32,
    depth: u32,
}

/// Looks for a packing of the lot.
pub(super) fn search(lot: Lot, columns: Vec<Cuts>, budget: &mut Budget<'_>) -> End {
    let mut nodes: BTreeMap<u64, Node> = BTreeMap::new();
    let mut open: BinaryHeap<(Reverse<u32>, u32, u64)> = BinaryHeap::new();
    let (mut next, mut whole, mut table) = (1u64, true, Vec::new());
    let pieces: u32 = lot.kinds.iter().map(super::lot::Kind::count).sum();
    let most_open = OPEN / (pieces as usize + 100);
    open.push((Reverse(0), 0, 0));
    nodes.insert(
        0,
        Node {
            lot,
            columns: Rc::new(columns),
            discrepancies: 0,
            depth: 0,
        },
    );
    while let Some((_, _, at)) = open.pop() {
        let Some(Node {
            lot,
            columns,
            discrepancies,
            depth,
        }) = nodes.remove(&at)
        else {
            continue;
        };
        if lot.waste() < 0 {
            continue;
        }
        if lot.is_empty() {
            return End::Packed(lot.done);
        }
        let size: usize = columns.iter().map(Vec::len).sum();
        budget.spend(size as u64 * 50);
        let mut program = Program::new(&lot, columns.iter().cloned());
        let broken = match program.decide(&mut table, budget) {
            Verdict::Empty => continue,
            Verdict::Unknown => {
                whole = false;
                if budget.over() {
                    return End::Unknown;
                }
                continue;
            }
            Verdict::Broken(broken) => broken,
        };
        if let Some(packed) = round(&lot, &broken) {
            return End::Packed(packed);
        }
        let handed = program.columns();
        let mut child = Below {
            lot,
            columns: handed,
            made: Vec::new(),
            spare: most_open.saturating_sub(nodes.len()),
            lost: false,
        };
        child.descend(&broken);
        let columns = Rc::new(child.columns);
        child.lot.close_full();
        whole &= !child.lost;
        let mut all = child.made;
        all.push(child.lot);
        let last = all.len() - 1;
        for (n, lot) in all.into_iter().enumerate() {
            let node = Node {
                lot,
                columns: Rc::clone(&columns),
                discrepancies: discrepancies + u32::from(n < last),
                depth: depth + 1 + n as u32,
            };
            open.push((Reverse(node.discrepancies), node.depth, next));
            nodes.insert(next, node);
            next += 1;
        }
    }
    if whole { End::None } else { End::Unknown }
}

/// The way down from a node: joined so far, and the lots that turned off it.
struct Below {
    lot: Lot,
    columns: Vec<Cuts>,
    made: Vec<Lot>,
    /// How many more may be made, and whether more would have been.
    spare: usize,
    lost: bool,
}

impl Below {
    /// Joins the pieces of whole joints, else one pair.
    fn descend(&mut self, broken: &[(Cuts, f64)]) {
        let mut any = false;
        for (cuts, times) in broken {
            for _ in 0..(times + NOTHING).floor() as u32 {
                any |= self.join_all(cuts);
            }
        }
        if !any && let Some((i, j)) = pair(&self.lot, broken) {
            self.join(i, j);
        }
    }

    /// Joins all pieces of a pattern; true when there were two.
    fn join_all(&mut self, cuts: &Cuts) -> bool {
        let mut all = cuts
            .iter()
            .flat_map(|&(k, n)| std::iter::repeat_n(k, n as usize));
        let (mut at, mut any) = (all.next(), false);
        for kind in all {
            at = at.and_then(|at| self.join(at, kind));
            any |= at.is_some();
        }
        any
    }

    fn join(&mut self, i: u32, j: u32) -> Option<u32> {
        let apart = (self.made.len() < self.spare).then(|| self.lot.clone());
        let k = self.lot.join(i, j)?;
        self.lost |= apart.is_none();
        self.made.extend(apart.map(|mut lot| {
            lot.part(i, j);
            lot
        }));
        let joined = self.columns.iter().filter_map(|c| exchange(c, (i, j), k));
        let more: Vec<Cuts> = joined.collect();
        self.columns.extend(more);
        Some(k)
    }
}

/// The pattern with one piece of each of two kinds made one of a third.
fn exchange(cuts: &Cuts, (i, j): (u32, u32), k: u32) -> Option<Cuts> {
    let mut cuts = cuts.clone();
    for kind in [i, j] {
        let at = cuts.binary_search_by_key(&kind, |c| c.0).ok()?;
        cuts[at].1 -= 1;
        if cuts[at].1 == 0 {
            cuts.remove(at);
        }
    }
    match cuts.binary_search_by_key(&k, |c| c.0) {
        Ok(at) => cuts[at].1 += 1,
        Err(at) => cuts.insert(at, (k, 1)),
    }
    Some(cuts)
}

/// The pair to join: the heaviest of those that share a joint most.
fn pair(lot: &Lot, broken: &[(Cuts, f64)]) -> Option<(u32, u32)> {
    let mut shares: BTreeMap<(u32, u32), f64> = BTreeMap::new();
    for (cuts, times) in broken {
        for (n, &(i, many)) in cuts.iter().enumerate() {
            if many > 1 {
                *shares.entry((i, i)).or_insert(0.0) += times;
            }
            for &(j, _) in &cuts[n + 1..] {
                *shares.entry((i, j)).or_insert(0.0) += times;
            }
        }
    }
    let most = shares.values().fold(0.0f64, |m, s| m.max(s.min(1.0)));
    let weight = |&(i, j): &(u32, u32)| lot.kinds[i as usize].weight + lot.kinds[j as usize].weight;
    let near = shares
        .iter()
        .filter(|(_, s)| s.min(1.0) >= most * 0.9 - NOTHING);
    let best = near.max_by_key(|(pair, _)| (weight(pair), Reverse(**pair)));
    best.map(|(pair, _)| *pair)
}
