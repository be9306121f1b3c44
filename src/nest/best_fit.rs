//! Longest first, best fit: each piece goes into the open joint it leaves least of; else a new joint is
//! taken, of the first stock in a given order that holds it. Afterwards each joint's contents move to
//! the stock that holds them for least money.

use std::collections::BTreeMap;

use super::answer::{Cut, Pattern};
use super::problem::Pool;

/// Pieces wanted: what, its length, its class, how many.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Need {
    /// What it is in the answer.
    pub cut: Cut,
    /// Length.
    pub length: i64,
    /// Class bit index.
    pub class: u8,
    /// How many.
    pub count: u64,
}

/// A packing: patterns, and what no stock could give.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Packed {
    /// Joint by joint, equal ones together, in a fixed order.
    pub patterns: Vec<Pattern>,
    /// Left over needs.
    pub missing: Vec<Need>,
    /// Money.
    pub cost: i64,
}

struct Joint {
    stock: usize,
    left: i64,
    taken: i64,
    classes: u32,
    cuts: Vec<Cut>,
}

/// Packs with new joints taken in `order` of stocks, at most `limits` of each.
pub(super) fn best_fit(
    pool: &Pool,
    needs: &[Need],
    order: &[usize],
    limits: &[Option<u32>],
) -> Packed {
    let mut sorted: Vec<Need> = needs.iter().filter(|n| n.count > 0).copied().collect();
    sorted.sort_by_key(|n| (std::cmp::Reverse(n.length), n.cut));
    let mut limits: Vec<Option<u32>> = limits.to_vec();
    let mut joints: Vec<Joint> = Vec::new();
    let mut open: BTreeMap<(i64, usize), ()> = BTreeMap::new();
    let mut missing = Vec::new();
    for need in &sorted {
        let weight = need.length + pool.kerf;
        for done in 0..need.count {
            let serves = |j: &usize| pool.stocks[joints[*j].stock].serves >> need.class & 1 == 1;
            let fit = open
                .range((weight, 0)..)
                .map(|(k, ())| *k)
                .find(|(_, j)| serves(j));
            let j = match fit {
                Some(key) => {
                    open.remove(&key);
                    key.1
                }
                None => match take(pool, need, order, &mut limits) {
                    Some(joint) => {
                        joints.push(joint);
                        joints.len() - 1
                    }
                    None => {
                        missing.push(Need {
                            count: need.count - done,
                            ..*need
                        });
                        break;
                    }
                },
            };
            let joint = &mut joints[j];
            joint.left -= weight;
            joint.taken += weight;
            joint.classes |= 1 << need.class;
            joint.cuts.push(need.cut);
            open.insert((joint.left, j), ());
        }
    }
    settle(pool, &mut joints, &mut limits);
    let (patterns, cost) = gather(pool, joints);
    Packed {
        patterns,
        missing,
        cost,
    }
}

fn take(pool: &Pool, need: &Need, order: &[usize], limits: &mut [Option<u32>]) -> Option<Joint> {
    let stock = *order.iter().find(|&&s| {
        let stock = &pool.stocks[s];
        stock.usable >= need.length && stock.serves >> need.class & 1 == 1 && limits[s] != Some(0)
    })?;
    if let Some(left) = &mut limits[stock] {
        *left -= 1;
    }
    Some(Joint {
        stock,
        left: pool.stocks[stock].usable + pool.kerf,
        taken: 0,
        classes: 0,
        cuts: Vec::new(),
    })
}

/// Net money of contents of weight `taken` (kerf counted per piece) on a stock; `None` if they don't fit.
pub(super) fn net(pool: &Pool, stock: usize, taken: i64) -> Option<i64> {
    let s = &pool.stocks[stock];
    (taken <= s.usable + pool.kerf).then(|| s.cost - pool.credit.of((s.usable - taken).max(0)))
}

/// Moves each joint's contents to the cheapest stock still to be had.
fn settle(pool: &Pool, joints: &mut [Joint], limits: &mut [Option<u32>]) {
    for joint in joints {
        let Some(mut best) = net(pool, joint.stock, joint.taken) else {
            continue;
        };
        for s in 0..pool.stocks.len() {
            let serves = pool.stocks[s].serves & joint.classes == joint.classes;
            let Some(money) = net(pool, s, joint.taken) else {
                continue;
            };
            if serves && limits[s] != Some(0) && money < best {
                best = money;
                if let Some(left) = &mut limits[joint.stock] {
                    *left += 1;
                }
                if let Some(left) = &mut limits[s] {
                    *left -= 1;
                }
                joint.stock = s;
            }
        }
    }
}

fn gather(pool: &Pool, joints: Vec<Joint>) -> (Vec<Pattern>, i64) {
    let mut equal: BTreeMap<(usize, Vec<Cut>), u32> = BTreeMap::new();
    let mut cost = 0;
    for joint in joints {
        cost += net(pool, joint.stock, joint.taken).unwrap_or(pool.stocks[joint.stock].cost);
        *equal.entry((joint.stock, joint.cuts)).or_insert(0) += 1;
    }
    let patterns = equal
        .into_iter()
        .map(|((stock, cuts), times)| Pattern { stock, times, cuts })
        .collect();
    (patterns, cost)
}
