//! The joint worth most under the values of the kinds, among those that waste no more than all may together.
//!
//! A table over (kinds from here on, room left) holds the most that they can add; kept apart or not, and with
//! more of a kind than there are. Following it from each leading kind gives many good patterns at once; a
//! depth-first search under it gives the best that is allowed, or shows that none is left. Lengths too fine
//! for a table are rounded down to cells: its values then bound from above all the same.

use super::lot::{Cuts, Lot};

/// Entries of the table past which lengths are rounded.
const ENTRIES: i64 = 6_000_000;
/// What cannot be filled.
const NEVER: i64 = i64::MIN / 4;
/// Nodes of the exact search.
const NODES: u64 = 100_000;
/// Nodes of a listing.
const LISTING: u64 = 200_000;

struct Thing {
    kind: u32,
    weight: i64,
    cells: usize,
    value: i64,
    most: u32,
}

/// The table under some values.
pub(super) struct Fill<'l> {
    lot: &'l Lot,
    things: Vec<Thing>,
    waste: i64,
    cell: i64,
    width: usize,
    table: Vec<i64>,
    /// Entries written and nodes visited.
    pub work: u64,
}

impl<'l> Fill<'l> {
    /// For values per kind, ≥ 0. The lot's waste is not negative.
    pub fn new(lot: &'l Lot, values: &[i64], table: Vec<i64>) -> Fill<'l> {
        Fill::within(lot, values, lot.waste().min(lot.room), table)
    }

    /// Whatever the joint wastes.
    pub fn any(lot: &'l Lot, values: &[i64], table: Vec<i64>) -> Fill<'l> {
        Fill::within(lot, values, lot.room, table)
    }

    fn within(lot: &'l Lot, values: &[i64], waste: i64, mut table: Vec<i64>) -> Fill<'l> {
        let mut things: Vec<Thing> = Vec::new();
        for (k, kind) in lot.kinds.iter().enumerate().filter(|k| k.1.count() > 0) {
            let single = kind.apart.contains(&(k as u32));
            things.push(Thing {
                kind: k as u32,
                weight: kind.weight,
                cells: 0,
                value: values[k],
                most: if single { 1 } else { kind.count() },
            });
        }
        things.sort_by_key(|t| (std::cmp::Reverse(t.weight), t.kind));
        let rows = things.len() as i64 + 1;
        let cell = (rows * (lot.room + 1)).div_euclid(ENTRIES) + 1;
        for thing in &mut things {
            thing.cells = (thing.weight / cell) as usize;
        }
        table.clear();
        let mut fill = Fill {
            waste,
            width: (lot.room / cell) as usize + 1,
            lot,
            things,
            cell,
            table,
            work: 0,
        };
        fill.tabulate();
        fill
    }

    /// The table, to be used again.
    pub fn into_table(self) -> Vec<i64> {
        self.table
    }

    fn tabulate(&mut self) {
        let (width, things) = (self.width, self.things.len());
        self.table.resize((things + 1) * width, 0);
        self.work += ((things + 1) * width) as u64;
        // Rounded pieces leave up to one cell each more than the true ones.
        let lightest = self.things.last().map_or(1, |t| t.weight.max(1));
        let blur = if self.cell == 1 {
            0
        } else {
            self.lot.room / lightest + 1
        };
        let last = &mut self.table[things * width..];
        let free = (self.waste / self.cell + blur).min(width as i64 - 1) as usize;
        last[..=free].fill(0);
        last[free + 1..].fill(NEVER);
        for t in (0..things).rev() {
            let thing = &self.things[t];
            let (head, tail) = self.table.split_at_mut((t + 1) * width);
            let (row, next) = (&mut head[t * width..], &tail[..width]);
            let (step, value) = (thing.cells, thing.value);
            row.copy_from_slice(next);
            if step == 0 {
                let most = i64::from(thing.most).min(self.lot.room / thing.weight.max(1));
                for r in row.iter_mut() {
                    *r += most * value;
                }
            } else if thing.most == 1 {
                for (r, n) in row[step.min(width)..].iter_mut().zip(next) {
                    *r = (*r).max(n + value);
                }
            } else {
                for c in step..width {
                    row[c] = row[c].max(row[c - step] + value);
                }
            }
        }
    }

    fn at(&self, thing: usize, room: i64) -> i64 {
        self.table[thing * self.width + (room / self.cell) as usize]
    }

    /// No pattern is worth more.
    pub fn bound(&self) -> i64 {
        self.at(0, self.lot.room)
    }

    /// The best pattern led by each kind (no heavier kind in it) where the table leads to one that is allowed
    /// and worth more than `floor`, best first.
    pub fn led(&mut self, floor: i64) -> Vec<(i64, Cuts)> {
        let mut found: Vec<(i64, Cuts)> = Vec::new();
        for lead in 0..self.things.len() {
            let room = self.lot.room - self.things[lead].weight;
            if room < 0 || self.at(lead, self.lot.room) <= floor {
                continue;
            }
            found.extend(self.follow(lead).filter(|f| f.0 > floor));
        }
        self.work += found.len() as u64 * 500;
        found.sort_by(|a, b| b.0.cmp(&a.0).then_with(|| a.1.cmp(&b.1)));
        found.dedup();
        found
    }

    fn follow(&self, lead: usize) -> Option<(i64, Cuts)> {
        let first = &self.things[lead];
        let mut counts = vec![(lead, 1u32)];
        let mut room = self.lot.room / self.cell - first.cells as i64;
        let mut t = if first.most == 1 { lead + 1 } else { lead };
        while t < self.things.len() && room >= 0 {
            let thing = &self.things[t];
            if thing.cells == 0 {
                return None;
            }
            let c = room as usize;
            if self.table[t * self.width + c] == self.table[(t + 1) * self.width + c] {
                t += 1;
                continue;
            }
            room -= thing.cells as i64;
            match counts.last_mut() {
                Some(last) if last.0 == t => last.1 += 1,
                _ => counts.push((t, 1)),
            }
            t += usize::from(thing.most == 1);
        }
        self.pattern(&counts)
    }

    /// Things as a pattern with its worth, if it is allowed.
    fn pattern(&self, counts: &[(usize, u32)]) -> Option<(i64, Cuts)> {
        let named = |&(t, n): &(usize, u32)| (self.things[t].kind, n);
        let mut cuts: Cuts = counts.iter().map(named).collect();
        cuts.sort_unstable();
        let left = self.lot.room - self.lot.weight(&cuts);
        let worth = |&(t, n): &(usize, u32)| self.things[t].value * i64::from(n);
        let fits = (0..=self.waste).contains(&left) && self.lot.allows(&cuts);
        fits.then(|| (counts.iter().map(worth).sum(), cuts))
    }

    /// The most any allowed pattern is worth, at least `floor`; and one, if it is worth more than that.
    pub fn best(&mut self, floor: i64) -> (i64, Option<Cuts>) {
        let mut search = Search::new(self, floor, NODES, 0);
        let whole = search.visit(0, 0, self.lot.room);
        let (best, found, nodes) = (search.best, search.found.pop(), NODES - search.left);
        self.work += nodes * 20;
        let bound = if whole { best } else { best.max(self.bound()) };
        (bound, found.and_then(|f| Some(self.pattern(&f)?.1)))
    }

    /// Every allowed pattern worth `need` or more; `None` when they are more than `most`, or hard to find.
    pub fn every(&mut self, need: i64, most: usize) -> Option<Vec<Cuts>> {
        let mut search = Search::new(self, need - 1, LISTING, most);
        let whole = search.visit(0, 0, self.lot.room);
        let (found, nodes) = (search.found, LISTING - search.left);
        self.work += nodes * 20;
        let pattern = |f: Vec<(usize, u32)>| Some(self.pattern(&f)?.1);
        whole.then(|| found.into_iter().filter_map(pattern).collect())
    }
}

struct Search<'f, 'l> {
    fill: &'f Fill<'l>,
    left: u64,
    /// What a pattern must be worth more than.
    best: i64,
    /// How many may be listed; 0: only the best is sought.
    most: usize,
    used: Vec<(usize, u32)>,
    /// Per kind how many pieces in the joint are kept apart from it.
    barred: Vec<u32>,
    found: Vec<Vec<(usize, u32)>>,
}

impl<'f, 'l> Search<'f, 'l> {
    fn new(fill: &'f Fill<'l>, best: i64, left: u64, most: usize) -> Search<'f, 'l> {
        Search {
            fill,
            left,
            best,
            most,
            used: Vec::new(),
            barred: vec![0; fill.lot.kinds.len()],
            found: Vec::new(),
        }
    }

    /// Keeps the pattern at hand; false when they are too many.
    fn note(&mut self, value: i64) -> bool {
        if self.most == 0 {
            self.best = value;
            self.found.clear();
        }
        self.found.push(self.used.clone());
        self.found.len() <= self.most.max(1)
    }

    /// Everything from `first` on; false when the nodes or the places ran out.
    fn visit(&mut self, first: usize, value: i64, room: i64) -> bool {
        let fits = room <= self.fill.waste && !self.used.is_empty();
        if fits && value > self.best && !self.note(value) {
            return false;
        }
        let (fill, lot) = (self.fill, self.fill.lot);
        for (t, thing) in fill.things.iter().enumerate().skip(first) {
            if value + fill.at(t, room) <= self.best {
                return true;
            }
            let many = self.used.last().filter(|u| u.0 == t).map_or(0, |u| u.1);
            let (value, room) = (value + thing.value, room - thing.weight);
            if room < 0 || many >= thing.most || self.barred[thing.kind as usize] > 0 {
                continue;
            }
            let next = if thing.most == 1 { t + 1 } else { t };
            if value + fill.at(next, room) <= self.best {
                continue;
            }
            if self.left == 0 {
                return false;
            }
            self.left -= 1;
            let apart = &lot.kinds[thing.kind as usize].apart;
            let bar = |barred: &mut Vec<u32>, by: i32| {
                for &o in apart.iter().filter(|o| **o != thing.kind) {
                    let was = &mut barred[o as usize];
                    *was = was.saturating_add_signed(by);
                }
            };
            bar(&mut self.barred, 1);
            match self.used.last_mut() {
                Some(last) if last.0 == t => last.1 += 1,
                _ => self.used.push((t, 1)),
            }
            let whole = self.visit(next, value, room);
            bar(&mut self.barred, -1);
            match self.used.last_mut() {
                Some(last) if last.1 > 1 => last.1 -= 1,
                _ => drop(self.used.pop()),
            }
            if !whole {
                return false;
            }
        }
        true
    }
}
