//! From a node to the nodes below it: pieces joined, and for each pair joined the lot in which they are not.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use super::lot::{Cuts, Lot};
use super::parity::Parity;
use super::program::{Handed, NOTHING};

/// The way down from a node: joined so far, and the lots that turned off it.
pub(super) struct Below {
    pub lot: Lot,
    /// Columns and cuts as they are after joining.
    pub columns: Handed,
    pub cuts: Vec<Parity>,
    pub made: Vec<Lot>,
    /// How many more may be made, and whether more would have been.
    pub spare: usize,
    pub lost: bool,
}

impl Below {
    /// Joins the pair that is farthest from sharing a joint or not.
    pub fn split(&mut self, broken: &[(Cuts, f64)]) {
        match split(&self.lot, broken) {
            Some((i, j)) => drop(self.join(i, j)),
            None => self.descend(broken),
        }
    }

    /// Joins the pieces of whole joints, else one pair.
    pub fn descend(&mut self, broken: &[(Cuts, f64)]) {
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
        let Handed { columns, basis, .. } = &mut self.columns;
        let (ahead, rest) = columns.split_at(*basis);
        let joined = |c: &Cuts| exchange(c, (i, j), k);
        let ahead: Vec<Cuts> = ahead.iter().filter_map(joined).collect();
        let rest: Vec<Cuts> = rest.iter().filter_map(joined).collect();
        let more = ahead.len();
        columns.splice(*basis..*basis, ahead);
        columns.extend(rest);
        *basis += more;
        let cuts = std::mem::take(&mut self.cuts).into_iter();
        self.cuts = cuts.filter_map(|c| c.joined((i, j), k)).collect();
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

/// How much of their time two kinds share a joint.
fn shares(broken: &[(Cuts, f64)]) -> BTreeMap<(u32, u32), f64> {
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
    shares
}

/// The pair that is farthest from sharing a joint or not, the heaviest of several.
fn split(lot: &Lot, broken: &[(Cuts, f64)]) -> Option<(u32, u32)> {
    let weight = |(i, j): (u32, u32)| lot.kinds[i as usize].weight + lot.kinds[j as usize].weight;
    let open = |(pair, share): (&(u32, u32), &f64)| {
        let off = (share - share.round()).abs();
        let tenths = (off * 10.0).round() as i64;
        (off > 1e-6).then_some((tenths, weight(*pair), Reverse(*pair)))
    };
    let best = shares(broken).iter().filter_map(open).max();
    best.map(|b| b.2.0)
}

/// The pair to join: the heaviest of those that share a joint most.
fn pair(lot: &Lot, broken: &[(Cuts, f64)]) -> Option<(u32, u32)> {
    let shares = shares(broken);
    let most = shares.values().fold(0.0f64, |m, s| m.max(s.min(1.0)));
    let weight = |&(i, j): &(u32, u32)| lot.kinds[i as usize].weight + lot.kinds[j as usize].weight;
    let near = shares
        .iter()
        .filter(|(_, s)| s.min(1.0) >= most * 0.9 - NOTHING);
    let best = near.max_by_key(|(pair, _)| (weight(pair), Reverse(**pair)));
    best.map(|(pair, _)| *pair)
}
