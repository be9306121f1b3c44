//! Cuts by parity: where the pieces of some kinds are an odd number, some joint holds an odd number of them.
//!
//! In a packing that holds true of whichever kinds (and, where no joint stays empty, of joints counted along
//! with their pieces); a broken answer may break it. Kinds for which the patterns in use are nearly all even are
//! found by elimination modulo 2 (A. Caprara, M. Fischetti 1996: {0, 1/2}-cuts).

use super::lot::{Cuts, Lot};

/// Kinds whose pieces are an odd number.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Parity {
    /// By kind.
    pub kinds: Vec<bool>,
    /// The joint itself counts as a piece.
    pub joint: bool,
}

/// Least that is lacking to one joint in a cut worth a row.
const LACKING: f64 = 0.05;

impl Parity {
    /// Does a joint cut so hold an odd number?
    pub fn is_odd(&self, cuts: &Cuts) -> bool {
        let counted = |c: &&(u32, u32)| self.kinds.get(c.0 as usize) == Some(&true);
        let pieces: u32 = cuts.iter().filter(counted).map(|c| c.1).sum();
        (pieces + u32::from(self.joint)) % 2 == 1
    }

    /// All together are an odd number.
    pub fn holds(&self, lot: &Lot) -> bool {
        let counted = lot.kinds.iter().zip(&self.kinds).filter(|k| *k.1);
        let pieces: i64 = counted.map(|k| i64::from(k.0.count())).sum();
        let joints = if self.joint { lot.bins } else { 0 };
        (pieces + joints) % 2 != 0 && (!self.joint || lot.waste() < lot.room)
    }

    /// The same after a piece of kind `i` and one of kind `j` became one of kind `k`; `None` when it cannot be said.
    pub fn joined(&self, (i, j): (u32, u32), k: u32) -> Option<Parity> {
        let counted = |k: u32| self.kinds.get(k as usize) == Some(&true);
        let (one, known) = (counted(i) != counted(j), (k as usize) < self.kinds.len());
        if known && counted(k) != one {
            return None;
        }
        let mut cut = self.clone();
        if !known {
            cut.kinds.resize(k as usize, false);
            cut.kinds.push(one);
        }
        Some(cut)
    }
}

/// A sum of rows modulo 2.
#[derive(Clone)]
struct Row(Vec<u64>);

impl Row {
    fn has(&self, bit: usize) -> bool {
        self.0[bit / 64] >> (bit % 64) & 1 == 1
    }

    fn flip(&mut self, bit: usize) {
        self.0[bit / 64] ^= 1 << (bit % 64);
    }
}

/// The cuts that a broken answer lacks most, at most so many.
pub(super) fn lacking(lot: &Lot, broken: &[(Cuts, f64)], most: usize) -> Vec<Parity> {
    let mut order: Vec<usize> = (0..broken.len()).collect();
    order.sort_by(|a, b| broken[*b].1.total_cmp(&broken[*a].1).then(a.cmp(b)));
    let (columns, kinds) = (broken.len(), lot.kinds.len());
    // Bits: the patterns in use, the number of all, then which kinds are in the sum, and the joint.
    let bits = columns + 1 + kinds + 1;
    let mut rows: Vec<Row> = (0..=kinds).map(|_| Row(vec![0; bits / 64 + 1])).collect();
    for (c, &at) in order.iter().enumerate() {
        for &(k, n) in broken[at].0.iter().filter(|c| c.1 % 2 == 1) {
            debug_assert!(n % 2 == 1);
            rows[k as usize].flip(c);
        }
        rows[kinds].flip(c);
    }
    for (k, row) in rows.iter_mut().enumerate() {
        let count = lot.kinds.get(k).map_or(lot.bins, |k| i64::from(k.count()));
        if count % 2 != 0 {
            row.flip(columns);
        }
        row.flip(columns + 1 + k);
    }
    let there = |k: &usize| *k == kinds || lot.kinds[*k].count() > 0;
    let mut open: Vec<usize> = (0..=kinds).filter(there).collect();
    if lot.waste() >= lot.room {
        open.pop();
    }
    let mut found: Vec<(f64, Parity)> = Vec::new();
    for c in 0..columns {
        let holders = open.iter().copied().filter(|&r| rows[r].has(c));
        let ones = |r: usize| rows[r].0.iter().map(|w| w.count_ones()).sum::<u32>();
        let Some(pivot) = holders.min_by_key(|&r| (ones(r), r)) else {
            continue;
        };
        let by = rows[pivot].clone();
        open.retain(|&r| r != pivot);
        for &r in &open {
            if !rows[r].has(c) {
                continue;
            }
            for (a, b) in rows[r].0.iter_mut().zip(&by.0) {
                *a ^= b;
            }
            if !rows[r].has(columns) {
                continue;
            }
            let mut odd = 0.0;
            for (c, &at) in order.iter().enumerate().skip(c) {
                if rows[r].has(c) {
                    odd += broken[at].1;
                    if odd > 1.0 - LACKING {
                        break;
                    }
                }
            }
            if odd <= 1.0 - LACKING {
                let kinds = (0..=kinds).map(|k| rows[r].has(columns + 1 + k));
                let mut kinds: Vec<bool> = kinds.collect();
                let joint = kinds.pop() == Some(true);
                found.push((odd, Parity { kinds, joint }));
            }
        }
    }
    found.sort_by(|a, b| a.0.total_cmp(&b.0).then_with(|| a.1.cmp(&b.1)));
    found.dedup_by(|a, b| a.1 == b.1);
    found.truncate(most);
    found.into_iter().map(|(_, cut)| cut).collect()
}
