//! From a solution on the grid to real splices: each piece as long as its joint leaves room for.

use super::grid::Grid;
use super::lattice::pieces_sum;
use super::problem::{Group, Line, Pool};
use super::rules::configuration_cost;
use super::ways::{Run, Spliced};

/// How long the pieces of spliced lines on the chosen joints may be made for the same money.
#[derive(Clone, Debug, Default)]
pub(super) struct Room {
    /// (row, length it may grow to, joint): one piece of a joint grows at most.
    places: Vec<(usize, i64, usize)>,
    joints: usize,
}

impl Room {
    /// Adds `times` joints cut so.
    pub fn add(
        &mut self,
        pool: &Pool,
        grid: &Grid,
        (stock, cuts): (usize, &[(usize, u32)]),
        times: u32,
    ) {
        let spare = spare(pool, grid, stock, cuts);
        for _ in 0..times {
            for &(row, count) in cuts
                .iter()
                .filter(|c| grid.linked.contains_key(&grid.rows[c.0].class))
            {
                let grown = (grid.rows[row].length + spare).div_euclid(pool.mark) * pool.mark;
                self.places
                    .extend((0..count).map(|_| (row, grown, self.joints)));
            }
            self.joints += 1;
        }
    }

    /// Real lines of a chosen way, pieces no longer than the joints allow; the places are taken.
    pub fn make(&mut self, pool: &Pool, grid: &Grid, way: &Spliced) -> Option<Vec<Vec<i64>>> {
        let group = &pool.groups[way.group];
        let mut lines: Vec<Vec<Vec<i64>>> = Vec::new();
        for (line, cuts) in group.lines.iter().zip(&way.lines) {
            let caps = self.caps(pool, grid, (group, line), cuts);
            lines.push(tries(line, pool.mark, cuts, &caps));
        }
        let none = vec![Vec::new()];
        for a in lines.first()? {
            for b in lines.get(1).unwrap_or(&none) {
                let mut made = vec![a.clone()];
                if lines.len() > 1 {
                    made.push(b.clone());
                }
                if configuration_cost(group, pool.mark, &made) == Ok(way.money) {
                    return Some(made);
                }
            }
        }
        None
    }

    /// The most room for each piece of a line, the places taken.
    fn caps(
        &mut self,
        pool: &Pool,
        grid: &Grid,
        (group, line): (&Group, &Line),
        cuts: &[Run],
    ) -> Vec<i64> {
        least_pieces(line, pool.mark, cuts)
            .into_iter()
            .map(|least| {
                let Some(row) = grid.below(group.class, least) else {
                    return least;
                };
                let length = grid.rows[row].length;
                let fits = self.places.iter().enumerate().filter(|(_, p)| {
                    let other = grid.rows[p.0];
                    other.class == group.class && other.length >= length
                });
                let best = fits
                    .min_by_key(|(_, p)| (grid.rows[p.0].length, -p.1))
                    .map(|(at, _)| at);
                let Some(at) = best else { return least };
                let (_, grown, joint) = self.places.swap_remove(at);
                for place in self.places.iter_mut().filter(|p| p.2 == joint) {
                    place.1 = grid.rows[place.0].length;
                }
                grown
            })
            .collect()
    }
}

/// The least each piece of a line cut in these runs can be.
fn least_pieces(line: &Line, mark: i64, cuts: &[Run]) -> Vec<i64> {
    let total = pieces_sum(line, mark, cuts.len().max(1) as u32);
    match cuts {
        [] => vec![line.whole],
        [a] => vec![a.from, total - a.to],
        [a, b, ..] => {
            let least = super::lattice::least_piece(line, mark);
            vec![a.from, (b.from - a.to).max(least), total - b.to]
        }
    }
}

/// The least lengths of the pieces of a way.
pub(super) fn shortest(pool: &Pool, way: &Spliced) -> Vec<(u8, i64)> {
    let group = &pool.groups[way.group];
    let lines = group.lines.iter().zip(&way.lines);
    lines
        .flat_map(|(line, cuts)| least_pieces(line, pool.mark, cuts))
        .map(|length| (group.class, length))
        .collect()
}

/// A few real ways of a line in these runs, pieces within their caps.
fn tries(line: &Line, mark: i64, cuts: &[Run], caps: &[i64]) -> Vec<Vec<i64>> {
    let total = pieces_sum(line, mark, cuts.len().max(1) as u32);
    match (cuts, caps) {
        ([], _) => vec![vec![line.whole]],
        ([a], [first, last]) => {
            let (low, high) = (a.from.max(total - last), a.to.min(*first));
            let ends = if low <= high {
                vec![low, high]
            } else {
                Vec::new()
            };
            ends.into_iter().map(|c| vec![c, total - c]).collect()
        }
        ([a, b], [first, middle, last]) => {
            let (low, high) = (a.from, a.to.min(*first));
            let (near, far) = (b.from.max(total - last), b.to);
            let mut made = Vec::new();
            for x1 in [low, high, (near - middle).max(low), (far - middle).max(low)] {
                for x2 in [near, far.min(x1 + middle)] {
                    if (low..=high).contains(&x1)
                        && (near..=far).contains(&x2)
                        && x2 - x1 <= *middle
                        && x2 > x1
                    {
                        made.push(vec![x1, x2 - x1, total - x2]);
                    }
                }
            }
            made
        }
        _ => Vec::new(),
    }
}

/// What a joint may still hold for the same money, kerf of its last cut aside.
pub(super) fn spare(pool: &Pool, grid: &Grid, stock: usize, cuts: &[(usize, u32)]) -> i64 {
    let weight: i64 = cuts
        .iter()
        .map(|&(r, n)| (grid.rows[r].length + pool.kerf) * i64::from(n))
        .sum();
    let usable = pool.stocks[stock].usable;
    let left = (usable - weight).max(0);
    if pool.credit.of(left) == 0 {
        return usable + pool.kerf - weight;
    }
    let foot = pool.credit.foot.max(1);
    left - (left / foot * foot).max(pool.credit.keep)
}

/// The shortest lengths that joints cut so could not hold for the same money.
pub(super) fn too_long(
    pool: &Pool,
    grid: &Grid,
    stock: usize,
    cuts: &[(usize, u32)],
) -> Vec<(u8, i64)> {
    let spare = spare(pool, grid, stock, cuts);
    let pieces = cuts.iter().map(|&(r, _)| grid.rows[r]);
    pieces
        .filter(|r| grid.linked.contains_key(&r.class))
        .map(|r| {
            let grown = (r.length + spare).div_euclid(pool.mark) * pool.mark;
            (r.class, grown + pool.mark)
        })
        .collect()
}
