//! Plain cutting: one kind of joint without end, every joint at the same cost, no splices, no credit.
//!
//! Then only the number of joints counts, and a search that joins pieces or keeps them apart (branch and
//! price) can close what counts of joints cannot: does what the bound allows hold everything?

mod below;
mod fill;
mod listed;
mod lot;
mod parity;
mod program;
mod root;
mod round;
#[cfg(test)]
mod tests;
mod tree;

use super::answer::{Cut, PoolAnswer, Status};
use super::best_fit::{Joint, best_fit};
use super::converge::Budget;
use super::longest_first::answer_of;
use super::master::{Master, Sort};
use super::problem::Pool;
use lot::{Cuts, Lot};
use root::root;
use tree::{End, search};

/// Pieces past which the search is too deep.
const PIECES: i64 = 10_000;
/// Pieces in one joint past which it is.
const PIECES_A_JOINT: i64 = 400;

/// Money of a joint past which values could overflow.
const DEAREST: i64 = 1 << 32;

/// Is it plain cutting?
pub(super) fn is_plain(pool: &Pool) -> bool {
    let [stock] = pool.stocks.as_slice() else {
        return false;
    };
    let reached = pool.credit.per_foot != 0 && stock.usable >= pool.credit.keep;
    let mut wanted = pool.items.iter().filter(|i| i.count > 0);
    stock.limit.is_none()
        && (1..DEAREST).contains(&stock.cost)
        && pool.groups.iter().all(|g| g.count == 0)
        && !reached
        && wanted.all(|i| i.length <= stock.usable && stock.serves >> i.class & 1 == 1)
        && super::master::pieces_at_most(pool) <= PIECES
        && pieces_a_joint(pool) <= PIECES_A_JOINT
}

/// Kinds of pieces past which the search's own root takes longer than the master program.
const KINDS: usize = 250;

/// One joint less would be all the room that the pieces take.
pub(super) fn is_tight(pool: &Pool, answer: &PoolAnswer) -> bool {
    let bins = answer.cost / pool.stocks[0].cost;
    let lot = Lot::new(pool, bins - 2);
    answer.status != Status::Short && lot.waste() < 0 && lot.kinds.len() <= KINDS
}

/// Most pieces one joint can hold: the shortest ones.
fn pieces_a_joint(pool: &Pool) -> i64 {
    let mut lengths: Vec<(i64, i64)> = pool
        .items
        .iter()
        .map(|i| (i.length + pool.kerf, i64::from(i.count)))
        .collect();
    lengths.sort_unstable();
    let (mut room, mut pieces) = (pool.stocks[0].usable + pool.kerf, 0);
    for (weight, count) in lengths {
        let more = count.min(room / weight);
        room -= more * weight;
        pieces += more;
    }
    pieces
}

/// Bounds the joints and looks for packings of fewer, from the bound up. True when none is left to be found.
pub(super) fn pack(
    pool: &Pool,
    answer: &mut PoolAnswer,
    master: &Master<'_>,
    budget: &mut Budget<'_>,
) -> bool {
    let cost = pool.stocks[0].cost;
    let first = Lot::new(pool, 0);
    let columns = columns(pool, &first, master);
    let Some((mut bins, columns)) = root(pool, answer, columns, budget) else {
        return false;
    };
    while bins * cost < answer.cost {
        match search(Lot::new(pool, bins), columns.clone(), budget) {
            End::None => bins += 1,
            End::Unknown => return false,
            End::Packed(joints) => {
                let better = packed(pool, joints);
                if better.status == Status::Short || better.cost >= answer.cost {
                    return false;
                }
                super::improve::replace(answer, better);
            }
        }
    }
    true
}

/// The master program's patterns in the lot's kinds.
fn columns(pool: &Pool, lot: &Lot, master: &Master<'_>) -> Vec<Cuts> {
    let mut kind_of: Vec<Option<u32>> = vec![None; pool.items.len()];
    for (k, kind) in lot.kinds.iter().enumerate() {
        for &item in kind.units.iter().flatten() {
            kind_of[item as usize] = Some(k as u32);
        }
    }
    let pattern = |sort: &Sort| {
        let Sort::Pattern(_, cuts) = sort else {
            return None;
        };
        let mut all: Cuts = Vec::new();
        for &(row, n) in cuts {
            if let Some(kind) = kind_of[master.rows[row].item?] {
                all.push((kind, n));
            }
        }
        all.sort_unstable();
        all.dedup_by(|a, b| {
            let same = a.0 == b.0;
            b.1 += if same { a.1 } else { 0 };
            same
        });
        (!all.is_empty()).then_some(all)
    };
    master.sorts.iter().filter_map(pattern).collect()
}

/// Joints of items as an answer.
fn packed(pool: &Pool, joints: Vec<Vec<u32>>) -> PoolAnswer {
    let fill = |items: Vec<u32>| {
        let mut joint = Joint::new(pool, 0);
        for i in items {
            let item = &pool.items[i as usize];
            joint.put(item.length + pool.kerf, item.class, Cut::Item(i as usize));
        }
        joint
    };
    let full = joints.into_iter().filter(|j| !j.is_empty()).map(fill);
    answer_of(pool, best_fit(pool, full.collect(), &[], &[0]), &[])
}
