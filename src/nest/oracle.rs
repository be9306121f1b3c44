//! The dearest pattern: max Σ value·count + credit of the drop, over what fits a joint.
//!
//! Depth first over the pieces by falling value per weight, cut off by a table of upper bounds: the same
//! problem with weights and room rounded down to some thousand cells, which a small dynamic program
//! solves for every suffix of the pieces. Joints hold few pieces, so the rounding costs little and the
//! search is short whatever the lengths: no program over raw ticks. The drop's credit depends on the
//! room left alone, so one table serves every stock. When the search grows too long the cells are made
//! finer; when even that fails the bound of the table is returned: still valid, only weaker.

use std::cell::Cell;

use super::problem::Credit;

/// Something a pattern may hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Thing {
    /// Length + kerf.
    pub weight: i64,
    /// Value of one, ≥ 0.
    pub value: i64,
    /// Most of it in a pattern.
    pub most: u32,
    /// The caller's name for it.
    pub id: usize,
}

/// What a search found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Dearest {
    /// No pattern, not even an empty one, is worth more than this (credit included); at least the floor.
    pub bound: i64,
    /// Patterns worth more than the floor, best last: (worth, (id, count)).
    pub found: Vec<(i64, Vec<(usize, u32)>)>,
}

/// The table of suffix bounds over the things of one set of classes.
pub(super) struct Oracle<'a> {
    things: Vec<Thing>,
    credit: &'a Credit,
    /// Money of one unit of credit in the values' scale.
    scale: i64,
    kerf: i64,
    room: i64,
    cell: i64,
    table: Table,
    cells: usize,
    /// Nodes and table entries visited.
    pub work: u64,
}

/// Cells of the first table and of the finest.
const CELLS: (i64, i64) = (1 << 8, 1 << 14);
/// Cells of the finest table of a glance.
const GLANCE: i64 = 1 << 10;
/// Nodes before the table is made finer, and at the finest.
const NODES: (u64, u64) = (3_000, 200_000);
/// Patterns handed back at most.
const KEEP: usize = 3;

thread_local! {
    /// The table of the thread's last oracle: a fresh one costs a page fault every 4 KB.
    static SPARE: Cell<Vec<i64>> = const { Cell::new(Vec::new()) };
}

/// Bounds by thing and room; it may be longer than it needs to be.
struct Table(Vec<i64>);

impl Table {
    /// Room for so many cells, whatever they hold.
    fn make_room(&mut self, cells: usize) {
        if self.0.is_empty() {
            self.0 = SPARE.take();
        }
        if self.0.len() < cells {
            self.0.clear();
            self.0.resize(cells, 0);
        }
    }
}

impl Drop for Table {
    fn drop(&mut self) {
        let cells = std::mem::take(&mut self.0);
        // A thread that ends has nowhere to leave it.
        let _ = SPARE.try_with(|spare| spare.set(cells));
    }
}

struct Search<'s> {
    oracle: &'s Oracle<'s>,
    left: u64,
    nodes: u64,
    best: i64,
    used: Vec<u32>,
    path: Vec<usize>,
    found: Vec<(i64, Vec<usize>)>,
}

impl<'a> Oracle<'a> {
    /// Things may come in any order; `room` is the largest usable length + kerf asked for.
    pub fn new(
        mut things: Vec<Thing>,
        credit: &'a Credit,
        scale: i64,
        kerf: i64,
        room: i64,
    ) -> Self {
        // Of worthless things the lightest may be all a joint holds; the others never pay.
        things.retain(|t| t.value >= 0 && t.most > 0 && t.weight <= room);
        let filler = things.iter().map(|t| (t.weight, t.id)).min();
        things.retain(|t| t.value > 0 || Some((t.weight, t.id)) == filler);
        Oracle::sorted(things, credit, scale, kerf, room).with_cells(CELLS.0)
    }

    /// The same with worthless things kept, on a finer table.
    pub fn every(
        mut things: Vec<Thing>,
        credit: &'a Credit,
        scale: i64,
        kerf: i64,
        room: i64,
    ) -> Self {
        things.retain(|t| t.value >= 0 && t.most > 0 && t.weight <= room);
        Oracle::sorted(things, credit, scale, kerf, room).with_cells(CELLS.0 * 8)
    }

    fn with_cells(mut self, cells: i64) -> Self {
        self.tabulate(cells);
        self
    }

    /// Things by falling value per weight, no table yet.
    fn sorted(
        mut things: Vec<Thing>,
        credit: &'a Credit,
        scale: i64,
        kerf: i64,
        room: i64,
    ) -> Self {
        things.sort_by(|a, b| {
            let left = i128::from(b.value) * i128::from(a.weight);
            let right = i128::from(a.value) * i128::from(b.weight);
            left.cmp(&right)
                .then(b.weight.cmp(&a.weight))
                .then(a.id.cmp(&b.id))
        });
        Oracle {
            things,
            credit,
            scale,
            kerf,
            room,
            cell: 1,
            table: Table(Vec::new()),
            cells: 0,
            work: 0,
        }
    }

    /// Worth of the drop when `left` of usable + kerf is left.
    pub fn drop(&self, left: i64) -> i64 {
        self.credit.of((left - self.kerf).max(0)) * self.scale
    }

    /// Things in the order of the search.
    pub fn things(&self) -> &[Thing] {
        &self.things
    }

    fn tabulate(&mut self, cells: i64) {
        self.cell = (self.room / cells + 1).max(1);
        let width = usize::try_from(self.room / self.cell + 1).unwrap_or(1);
        self.cells = width;
        let rows = self.things.len() + 1;
        // Every cell is written below: what an older table left need not be cleared.
        self.table.make_room(rows * width);
        self.work += (rows * width) as u64 * 2;
        let last = (rows - 1) * width;
        let mut left = self.cell - 1;
        for c in 0..width {
            self.table.0[last + c] = self.drop(left);
            left += self.cell;
        }
        for t in (0..self.things.len()).rev() {
            let thing = self.things[t];
            let step = usize::try_from(thing.weight / self.cell).unwrap_or(usize::MAX);
            let (head, tail) = self.table.0.split_at_mut((t + 1) * width);
            let (row, next) = (&mut head[t * width..], &tail[..width]);
            // Every cell is written once: the tables are larger than the near cache.
            let short = step.min(width);
            row[..short].copy_from_slice(&next[..short]);
            if thing.most == 1 {
                let kept = next[short..].iter().zip(next);
                for (r, (n, m)) in row[short..].iter_mut().zip(kept) {
                    *r = (*n).max(m + thing.value);
                }
            } else if step == 0 {
                let most = i64::from(thing.most).min(self.room / thing.weight);
                for (r, n) in row.iter_mut().zip(next) {
                    *r = n + most * thing.value;
                }
            } else {
                for c in short..width {
                    row[c] = next[c].max(row[c - step] + thing.value);
                }
            }
        }
    }

    /// The dearest pattern of a joint of `usable`, if worth more than `floor`.
    pub fn dearest(&mut self, usable: i64, floor: i64) -> Dearest {
        self.look(usable, floor, false)
    }

    /// The same without finer tables: a dear pattern, and a bound that may be loose.
    pub fn glance(&mut self, usable: i64, floor: i64) -> Dearest {
        self.look(usable, floor, true)
    }

    fn look(&mut self, usable: i64, floor: i64, once: bool) -> Dearest {
        let room = usable + self.kerf;
        loop {
            let most = if once { GLANCE } else { CELLS.1 };
            let finest = self.cell == 1 || self.cells as i64 * 4 > most;
            let mut search = Search {
                oracle: self,
                left: if finest && !once { NODES.1 } else { NODES.0 },
                nodes: 0,
                best: floor,
                used: vec![0; self.things.len()],
                path: Vec::new(),
                found: Vec::new(),
            };
            let whole = search.visit(room);
            let (best, nodes) = (search.best, search.nodes);
            let found = std::mem::take(&mut search.found);
            self.work += nodes * 20;
            if !whole && !finest {
                self.tabulate(self.cells as i64 * 4);
                continue;
            }
            // An empty joint is no pattern, but a bound that allows it needs no smallest piece.
            let reached = if whole {
                best
            } else {
                best.max(self.at(0, room))
            };
            let bound = reached.max(self.drop(room));
            let found = found
                .into_iter()
                .map(|(worth, path)| (worth, self.named(&path)))
                .collect();
            return Dearest { bound, found };
        }
    }

    /// Bound of what things from `thing` on may add in `room`.
    pub fn at(&self, thing: usize, room: i64) -> i64 {
        self.table.0[thing * self.cells + (room / self.cell) as usize]
    }

    /// A path of things as (id, count).
    pub fn named(&self, path: &[usize]) -> Vec<(usize, u32)> {
        let mut counts: Vec<(usize, u32)> = Vec::new();
        for &t in path {
            match counts.last_mut() {
                Some(last) if last.0 == self.things[t].id => last.1 += 1,
                _ => counts.push((self.things[t].id, 1)),
            }
        }
        counts
    }
}

impl Search<'_> {
    /// Everything reachable by adding things one at a time; false when the nodes ran out.
    fn visit(&mut self, room: i64) -> bool {
        let mut frames: Vec<(usize, i64, i64)> = vec![(0, 0, room)];
        while let Some((next, value, room)) = frames.last_mut() {
            let t = *next;
            let over = t == self.oracle.things.len();
            if over || *value + self.oracle.at(t, *room) <= self.best {
                frames.pop();
                if let Some(t) = self.path.pop() {
                    self.used[t] -= 1;
                }
                continue;
            }
            *next += 1;
            let thing = self.oracle.things[t];
            if thing.weight > *room || self.used[t] >= thing.most {
                continue;
            }
            let (value, room) = (*value + thing.value, *room - thing.weight);
            if value + self.oracle.at(t, room) <= self.best {
                continue;
            }
            self.used[t] += 1;
            self.path.push(t);
            frames.push((t, value, room));
            self.nodes += 1;
            if self.nodes > self.left {
                return false;
            }
            self.note(value + self.oracle.drop(room));
        }
        true
    }

    fn note(&mut self, worth: i64) {
        if worth > self.best {
            self.best = worth;
            if self.found.len() == KEEP {
                self.found.remove(0);
            }
            self.found.push((worth, self.path.clone()));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::made::Dice;
    use super::*;

    /// Dearest non-empty pattern by trying everything.
    fn plain(
        things: &[Thing],
        credit: &Credit,
        (kerf, room, any): (i64, i64, bool),
    ) -> Option<i64> {
        let Some((t, rest)) = things.split_first() else {
            return any.then(|| credit.of((room - kerf).max(0)));
        };
        (0..=i64::from(t.most))
            .take_while(|q| q * t.weight <= room)
            .filter_map(|q| {
                let more = plain(rest, credit, (kerf, room - q * t.weight, any || q > 0))?;
                Some(more + q * t.value)
            })
            .max()
    }

    #[test]
    fn finds_what_plain_enumeration_finds() {
        let mut dice = Dice(11);
        let mut next = |n| dice.roll(n);
        for _ in 0..400 {
            let scale = if next(2) == 0 { 1 } else { 1000 };
            let room = (200 + next(200)) * scale;
            let things: Vec<Thing> = (0..5)
                .map(|id| Thing {
                    weight: (20 + next(90)) * scale + next(7),
                    value: 1 + next(60),
                    most: 1 + next(4) as u32,
                    id,
                })
                .collect();
            let credit = Credit {
                keep: next(100) * scale,
                foot: 10 * scale,
                per_foot: next(4),
            };
            let kerf = next(3);
            let best = plain(&things, &credit, (kerf, room, false));
            let mut oracle = Oracle::new(things.clone(), &credit, 1, kerf, room);
            let found = oracle.dearest(room - kerf, -1);
            let (worth, pattern) = found.found.last().expect("something fits");
            let empty = credit.of((room - kerf).max(0));
            assert_eq!(
                (found.bound, best),
                (empty.max(*worth), Some(*worth)),
                "{things:?} {credit:?} {kerf} {room}"
            );
            let weight: i64 = pattern
                .iter()
                .map(|&(id, n)| things[id].weight * i64::from(n))
                .sum();
            assert!(weight <= room && pattern.iter().all(|&(id, n)| n <= things[id].most));
        }
    }
}
