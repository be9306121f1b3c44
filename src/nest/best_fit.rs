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

/// A joint being filled.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Joint {
    /// Its stock.
    pub stock: usize,
    /// Usable + kerf − taken.
    pub left: i64,
    /// Σ(length + kerf) of its pieces.
    pub taken: i64,
    /// Class bits of its pieces.
    pub classes: u32,
    /// Its pieces.
    pub cuts: Vec<Cut>,
}

impl Joint {
    /// An empty joint.
    pub fn new(pool: &Pool, stock: usize) -> Joint {
        Joint {
            stock,
            left: pool.stocks[stock].usable + pool.kerf,
            taken: 0,
            classes: 0,
            cuts: Vec::new(),
        }
    }

    /// Puts a piece in; the caller knows that it fits.
    pub fn put(&mut self, weight: i64, class: u8, cut: Cut) {
        self.left -= weight;
        self.taken += weight;
        self.classes |= 1 << class;
        self.cuts.push(cut);
    }
}

/// Packs into the joints begun and then into new ones taken in `order` of stocks, never more of a stock
/// than there are (the joints begun keep to that).
pub(super) fn best_fit(
    pool: &Pool,
    mut joints: Vec<Joint>,
    needs: &[Need],
    order: &[usize],
) -> Packed {
    let mut sorted: Vec<Need> = needs.iter().filter(|n| n.count > 0).copied().collect();
    sorted.sort_by_key(|n| (std::cmp::Reverse(n.length), n.cut));
    let mut limits: Vec<Option<u32>> = pool.stocks.iter().map(|s| s.limit).collect();
    for joint in &joints {
        if let Some(left) = &mut limits[joint.stock] {
            *left = left.saturating_sub(1);
        }
    }
    let mut open: BTreeMap<(i64, usize), ()> = joints
        .iter()
        .enumerate()
        .map(|(j, joint)| ((joint.left, j), ()))
        .collect();
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
            joint.put(weight, need.class, need.cut);
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
    Some(Joint::new(pool, stock))
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

/// Length of a cut.
pub(super) fn cut_length(pool: &Pool, cut: &Cut) -> i64 {
    match *cut {
        Cut::Item(i) => pool.items[i].length,
        Cut::Piece { length, .. } => length,
    }
}

fn gather(pool: &Pool, joints: Vec<Joint>) -> (Vec<Pattern>, i64) {
    let mut equal: BTreeMap<(usize, Vec<Cut>), u32> = BTreeMap::new();
    let mut cost = 0;
    for mut joint in joints {
        joint
            .cuts
            .sort_by_key(|c| (std::cmp::Reverse(cut_length(pool, c)), *c));
        cost += net(pool, joint.stock, joint.taken).unwrap_or(pool.stocks[joint.stock].cost);
        *equal.entry((joint.stock, joint.cuts)).or_insert(0) += 1;
    }
    let patterns = equal
        .into_iter()
        .map(|((stock, cuts), times)| Pattern { stock, times, cuts })
        .collect();
    (patterns, cost)
}
