//! A lot: kinds of pieces still to be packed into a number of equal joints, with what branching has said of them.
//!
//! Branching says of two pieces either that they share a joint (they become one piece) or that no joint
//! holds both (their kinds are kept apart): D. M. Ryan, B. A. Foster 1981. Pieces of one weight under the
//! same rules are interchangeable, so they are one kind however they were joined.

use super::super::problem::Pool;
use super::program::SCALE;

/// Pieces that nothing tells apart.
#[derive(Clone, Debug)]
pub(super) struct Kind {
    /// Σ(length + kerf), in the lot's unit.
    pub weight: i64,
    /// Each piece as the items of the pool that were joined to it.
    pub units: Vec<Vec<u32>>,
    /// Kinds it may not share a joint with, ascending; itself among them when a joint holds one at most.
    pub apart: Vec<u32>,
}

impl Kind {
    /// How many there are.
    pub fn count(&self) -> u32 {
        self.units.len() as u32
    }
}

/// A pattern: (kind, how many), ascending by kind.
pub(super) type Cuts = Vec<(u32, u32)>;

/// What is left to pack.
#[derive(Clone, Debug)]
pub(super) struct Lot {
    /// Usable + kerf of a joint, in units of the weights' greatest common divisor.
    pub room: i64,
    /// Joints left.
    pub bins: i64,
    /// Kinds; places stay the same on the way down, so some are empty.
    pub kinds: Vec<Kind>,
    /// Joints that nothing more fits.
    pub done: Vec<Vec<u32>>,
}

impl Lot {
    /// Everything a pool with one stock wants, into `bins` joints.
    pub fn new(pool: &Pool, bins: i64) -> Lot {
        let wanted = || pool.items.iter().enumerate().filter(|(_, i)| i.count > 0);
        let weights = wanted().map(|(_, i)| i.length + pool.kerf);
        let unit = weights.fold(0, super::super::lattice::gcd).max(1);
        let usable = pool.stocks.first().map_or(0, |s| s.usable);
        let mut kinds: Vec<Kind> = Vec::new();
        for (i, item) in wanted() {
            let weight = (item.length + pool.kerf) / unit;
            let units = vec![vec![i as u32]; item.count as usize];
            match kinds.iter_mut().find(|k| k.weight == weight) {
                Some(kind) => kind.units.extend(units),
                None => kinds.push(Kind {
                    weight,
                    units,
                    apart: Vec::new(),
                }),
            }
        }
        let mut lot = Lot {
            room: (usable + pool.kerf) / unit,
            bins,
            kinds,
            done: Vec::new(),
        };
        lot.close_full();
        lot
    }

    /// Room that all joints together leave over; no joint may waste more.
    pub fn waste(&self) -> i64 {
        let taken: i64 = self
            .kinds
            .iter()
            .map(|k| k.weight * i64::from(k.count()))
            .sum();
        self.bins * self.room - taken
    }

    /// Each kind's share of a joint's room, in whole numbers of 1/`SCALE`.
    pub fn shares(&self) -> Vec<i64> {
        let share = |k: &Kind| {
            let part = i128::from(k.weight) * i128::from(SCALE) / i128::from(self.room.max(1));
            i64::try_from(part).unwrap_or(0)
        };
        self.kinds.iter().map(share).collect()
    }

    /// No piece is left.
    pub fn is_empty(&self) -> bool {
        self.kinds.iter().all(|k| k.units.is_empty())
    }

    /// Joins one piece of each kind.
    pub fn join(&mut self, i: u32, j: u32) -> Option<u32> {
        let needed = 1 + u32::from(i == j);
        if self.kinds[i as usize].count() < needed || self.kinds[j as usize].count() == 0 {
            return None;
        }
        let mut unit = self.kinds[i as usize].units.pop()?;
        unit.extend(self.kinds[j as usize].units.pop()?);
        let (a, b) = (&self.kinds[i as usize], &self.kinds[j as usize]);
        let weight = a.weight + b.weight;
        let single = a.apart.contains(&i) || b.apart.contains(&j);
        let mut apart: Vec<u32> = a.apart.iter().chain(&b.apart).copied().collect();
        apart.sort_unstable();
        apart.dedup();
        let same = |k: &Kind| k.weight == weight && k.apart == apart;
        let at = self.kinds.iter().position(same).filter(|_| !single);
        let at = at.unwrap_or_else(|| {
            let new = self.kinds.len();
            for &o in &apart {
                self.kinds[o as usize].apart.push(new as u32);
            }
            let mut apart = apart;
            if single {
                apart.push(new as u32);
            }
            self.kinds.push(Kind {
                weight,
                units: Vec::new(),
                apart,
            });
            new
        });
        self.kinds[at].units.push(unit);
        Some(at as u32)
    }

    /// No joint may hold a piece of each.
    pub fn part(&mut self, i: u32, j: u32) {
        for (a, b) in [(i, j), (j, i)] {
            let list = &mut self.kinds[a as usize].apart;
            if let Err(at) = list.binary_search(&b) {
                list.insert(at, b);
            }
        }
    }

    /// Pieces beside which nothing fits have their joint to themselves.
    pub fn close_full(&mut self) {
        let there = self.kinds.iter().filter(|k| !k.units.is_empty());
        let Some(least) = there.map(|k| k.weight).min() else {
            return;
        };
        let room = self.room;
        for kind in &mut self.kinds {
            if kind.weight + least > room {
                self.bins -= kind.units.len() as i64;
                self.done.append(&mut kind.units);
            }
        }
    }

    /// A joint may hold this: enough pieces, none that are kept apart.
    pub fn allows(&self, cuts: &Cuts) -> bool {
        cuts.iter().all(|&(k, n)| {
            let alone = |o: &u32| match cuts.binary_search_by_key(o, |c| c.0) {
                Ok(at) => *o == k && cuts[at].1 == 1,
                Err(_) => true,
            };
            // Columns of a neighbouring node may hold kinds that are not here.
            let kind = self.kinds.get(k as usize);
            kind.is_some_and(|kind| n <= kind.count() && kind.apart.iter().all(alone))
        })
    }

    /// Σ weight of a pattern.
    pub fn weight(&self, cuts: &Cuts) -> i64 {
        let each = |&(k, n): &(u32, u32)| self.kinds[k as usize].weight * i64::from(n);
        cuts.iter().map(each).sum()
    }
}
