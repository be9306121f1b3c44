//! Every pattern that a plan cheaper than the best known may hold.
//!
//! Under duals of a bound a pattern dearer than it is worth by more than the gap is in no better plan (as
//! routes are listed in vehicle routing: R. Baldacci, N. Christofides, A. Mingozzi 2008). Patterns that
//! could hold one more piece, or a longer one, for the same money are left out: the fuller one serves.

use super::grid::Grid;
use super::oracle::{Oracle, Thing};
use super::problem::Pool;

/// A listed pattern: stock, (row, count).
pub(super) type Listed = (usize, Vec<(usize, u32)>);

/// Nodes of one stock's search.
const NODES: u64 = 400_000;

/// Rows as things, for the classes in `serves`; with how many pieces of a class may be asked for.
fn things(pool: &Pool, grid: &Grid, serves: u32) -> Vec<Thing> {
    let mut things = Vec::new();
    for (r, row) in grid.rows.iter().enumerate() {
        if serves >> row.class & 1 == 0 {
            continue;
        }
        let most = match grid.linked.get(&row.class) {
            None => row.want,
            Some(list) => {
                let shorter = list.iter().filter(|&&o| grid.rows[o].length <= row.length);
                let wanted: u32 = shorter.map(|&o| grid.rows[o].want).sum();
                wanted + pieces_at_most(pool, row.class)
            }
        };
        things.push(Thing {
            weight: row.length + pool.kerf,
            value: row.value,
            most,
            id: r,
        });
    }
    things
}

/// Most pieces the groups of a class can come to.
pub(super) fn pieces_at_most(pool: &Pool, class: u8) -> u32 {
    let groups = pool.groups.iter().filter(|g| g.class == class);
    groups
        .map(|g| g.count * g.lines.iter().map(|l| l.most_splices + 1).sum::<u32>())
        .sum()
}

/// One table for all stocks that serve the same classes.
pub(super) struct Tables<'p> {
    of: Vec<(u32, Oracle<'p>)>,
}

impl<'p> Tables<'p> {
    /// The tables of a pool on a grid.
    pub fn new(pool: &'p Pool, grid: &Grid) -> Tables<'p> {
        let mut serves: Vec<u32> = pool.stocks.iter().map(|s| s.serves).collect();
        serves.sort_unstable();
        serves.dedup();
        let table = |serves: u32| {
            let alike = pool.stocks.iter().filter(|s| s.serves == serves);
            let room = alike.map(|s| s.usable).max().unwrap_or(0) + pool.kerf;
            let things = things(pool, grid, serves);
            let oracle = Oracle::every(things, &pool.credit, grid.scale, pool.kerf, room);
            (serves, oracle)
        };
        Tables {
            of: serves.into_iter().map(table).collect(),
        }
    }

    fn at(&self, serves: u32) -> Option<usize> {
        self.of.iter().position(|t| t.0 == serves)
    }

    /// A lower bound of the least reduced cost of each stock.
    pub fn least_reduced(&mut self, pool: &Pool, grid: &Grid) -> Vec<i64> {
        let mut least = Vec::new();
        for stock in &pool.stocks {
            let cost = stock.cost * grid.scale - grid.shares.0;
            let table = self.at(stock.serves);
            let bound = table.map(|t| self.of[t].1.dearest(stock.usable, i64::MIN / 4).bound);
            least.push(cost - bound.unwrap_or(0));
        }
        least
    }

    /// No filling of a joint of these classes is worth more in this room, its drop with it.
    pub fn worth_at(&self, serves: u32, room: i64) -> i64 {
        self.at(serves).map_or(0, |t| self.of[t].1.at(0, room))
    }

    /// Steps done.
    pub fn work(&self) -> u64 {
        self.of.iter().map(|t| t.1.work).sum()
    }
}

/// All patterns of reduced cost ≤ `over` above each stock's `base`, at most `most` of them: `None` when there
/// are more. Stocks whose base is `i64::MAX` are out.
pub(super) fn list_patterns(
    (pool, grid, tables): (&Pool, &Grid, &Tables<'_>),
    (base, over): (&[i64], i64),
    most: usize,
    work: &mut u64,
) -> Option<Vec<Listed>> {
    let mut all = Vec::new();
    for (s, stock) in pool.stocks.iter().enumerate() {
        let Some(table) = tables.at(stock.serves).filter(|_| base[s] < i64::MAX) else {
            continue;
        };
        let oracle = &tables.of[table].1;
        let mut lister = Lister {
            pool,
            grid,
            oracle,
            floor: stock.cost * grid.scale - grid.shares.0 - base[s] - over,
            stock: s,
            nodes: 0,
            used: vec![0; oracle.things().len()],
            path: Vec::new(),
            most,
        };
        let whole = lister.visit(0, 0, stock.usable + pool.kerf, &mut all);
        *work += lister.nodes * 15;
        if !whole {
            return None;
        }
    }
    Some(all)
}

struct Lister<'l> {
    pool: &'l Pool,
    grid: &'l Grid,
    oracle: &'l Oracle<'l>,
    floor: i64,
    stock: usize,
    nodes: u64,
    used: Vec<u32>,
    path: Vec<usize>,
    most: usize,
}

impl Lister<'_> {
    /// Everything reachable by adding things from `first` on; false when there is too much.
    fn visit(&mut self, first: usize, value: i64, room: i64, all: &mut Vec<Listed>) -> bool {
        for t in first..self.used.len() {
            if value + self.oracle.at(t, room) < self.floor {
                return true;
            }
            let thing = self.oracle.things()[t];
            if thing.weight > room || self.used[t] >= thing.most {
                continue;
            }
            let (value, room) = (value + thing.value, room - thing.weight);
            if value + self.oracle.at(t, room) < self.floor {
                continue;
            }
            self.nodes += 1;
            self.used[t] += 1;
            self.path.push(t);
            if value + self.oracle.drop(room) >= self.floor && !self.beaten(room) {
                all.push((self.stock, self.oracle.named(&self.path)));
            }
            let more =
                self.nodes <= NODES && all.len() <= self.most && self.visit(t, value, room, all);
            self.path.pop();
            self.used[t] -= 1;
            if !more {
                return false;
            }
        }
        true
    }

    /// One more piece or a longer one fits for the same money.
    fn beaten(&self, room: i64) -> bool {
        let same =
            |more: i64| more <= room && self.oracle.drop(room - more) == self.oracle.drop(room);
        let things = self.oracle.things();
        let fuller = things
            .iter()
            .zip(&self.used)
            .any(|(thing, used)| *used < thing.most && same(thing.weight));
        fuller
            || self.path.iter().any(|&t| {
                let row = self.grid.rows[things[t].id];
                let over = self.grid.next_over(row.class, row.length);
                over.is_some_and(|o| {
                    o <= self.pool.stocks[self.stock].usable && same(o - row.length)
                })
            })
    }
}
