//! r_s of DESIGN §9: the least of cost − credit − worth over the non-empty patterns of a stock, by
//! one bounded knapsack over the weights length + kerf, exact in integers.

use crate::nest::Pool;

/// A thing that may be cut: weight length + kerf, its worth, how often it may occur.
#[derive(Clone, Copy, Debug)]
pub(super) struct Load {
    pub(super) weight: i64,
    pub(super) worth: i128,
    pub(super) most: u64,
}

/// Cells of the table at most; more are made coarser: weights rounded down, which can only lower r. Pieces
/// lighter than a cell then all lie in any pattern.
const MOST_CELLS: i64 = 1 << 21;

/// Best worth by weight of what is cut, in cells of `grain` units.
#[derive(Clone, Debug)]
pub(super) struct Table {
    grain: i64,
    /// `None`: no pattern of just this weight.
    best: Vec<Option<i128>>,
    /// What all pieces lighter than a cell are worth; `None`: there are none.
    light: Option<i128>,
}

fn gcd(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { gcd(b, a % b) }
}

impl Table {
    /// The table of every weight up to `capacity` (usable length + kerf).
    pub(super) fn new(loads: &[Load], capacity: i64) -> Table {
        let loads: Vec<Load> = loads
            .iter()
            .copied()
            .filter(|l| l.weight > 0 && l.weight <= capacity && l.most > 0)
            .collect();
        let exact = loads.iter().map(|l| l.weight).fold(0, gcd).max(1);
        let coarse = capacity / MOST_CELLS + 1;
        let grain = if coarse > exact { coarse } else { exact };
        let cells = usize::try_from(capacity.max(0) / grain).unwrap_or(0) + 1;
        let mut best = vec![None; cells];
        best[0] = Some(0);
        let mut light: Option<i128> = None;
        for load in loads {
            let weight = usize::try_from(load.weight / grain).unwrap_or(usize::MAX);
            if weight == 0 {
                let most = i128::from(load.most).min(i128::from(capacity / load.weight));
                light = Some(light.unwrap_or(0) + load.worth * most);
            }
            add(&mut best, weight, load);
        }
        Table { grain, best, light }
    }

    /// Least money − credit × scale − worth over the non-empty patterns of a stock; `None` when
    /// nothing fits.
    pub(super) fn reduced(
        &self,
        pool: &Pool,
        usable: i64,
        money: i128,
        scale: i128,
    ) -> Option<i128> {
        let capacity = usable + pool.kerf;
        let mut least: Option<i128> = None;
        // Cell 0 is the empty pattern, unless pieces lighter than a cell are in it.
        let (first, light) = self.light.map_or((1, 0), |light| (0, light));
        for (cell, worth) in self.best.iter().enumerate().skip(first) {
            let weight = i64::try_from(cell)
                .unwrap_or(i64::MAX)
                .saturating_mul(self.grain);
            if weight > capacity {
                break;
            }
            let Some(worth) = worth else { continue };
            let drop = (usable - weight).max(0);
            let r = money - i128::from(credit(pool, drop)) * scale - worth - light;
            if least.is_none_or(|l| r < l) {
                least = Some(r);
            }
        }
        least
    }
}

/// Credit of a drop, by its definition.
pub(super) fn credit(pool: &Pool, drop: i64) -> i64 {
    if drop < pool.credit.keep {
        0
    } else {
        pool.credit.per_foot.saturating_mul(drop / pool.credit.foot)
    }
}

/// Adds a load up to its count: freely where the table ends before the count does, else in bundles
/// of 1, 2, 4, … and the rest.
fn add(best: &mut [Option<i128>], weight: usize, load: Load) {
    if weight == 0 || weight >= best.len() {
        return;
    }
    let fits = u64::try_from((best.len() - 1) / weight).unwrap_or(u64::MAX);
    if load.most >= fits {
        for cell in weight..best.len() {
            raise(best, cell, weight, load.worth);
        }
        return;
    }
    let (mut left, mut bundle) = (load.most, 1u64);
    while left > 0 {
        let n = bundle.min(left);
        let together = weight.saturating_mul(usize::try_from(n).unwrap_or(usize::MAX));
        for cell in (together..best.len()).rev() {
            raise(best, cell, together, load.worth * i128::from(n));
        }
        left -= n;
        bundle *= 2;
    }
}

fn raise(best: &mut [Option<i128>], cell: usize, weight: usize, worth: i128) {
    if let Some(under) = best[cell - weight] {
        let new = under + worth;
        if best[cell].is_none_or(|old| new > old) {
            best[cell] = Some(new);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::nest::Credit;

    fn pool(kerf: i64, per_foot: i64) -> Pool {
        Pool {
            name: "p".into(),
            mark: 1,
            kerf,
            credit: Credit {
                keep: 30,
                foot: 10,
                per_foot,
            },
            stocks: Vec::new(),
            items: Vec::new(),
            groups: Vec::new(),
        }
    }

    fn load(length: i64, worth: i128, most: u64) -> Load {
        Load {
            weight: length + 1,
            worth,
            most,
        }
    }

    #[test]
    fn counts_bound_the_pattern() {
        let loads = [load(30, 7, 2), load(20, 4, 1)];
        let table = Table::new(&loads, 101);
        // Two 30s and one 20 (62 + 21 = 83) are worth 18; three 30s would be 21 but only two exist.
        assert_eq!(table.reduced(&pool(1, 0), 100, 50, 1), Some(50 - 18));
    }

    #[test]
    fn the_credit_of_the_drop_is_weighed_in() {
        let table = Table::new(&[load(30, 7, 1)], 101);
        // u = 70, drop 69: six whole feet at 5.
        assert_eq!(table.reduced(&pool(1, 5), 100, 50, 1), Some(50 - 30 - 7));
        assert_eq!(Table::new(&[], 101).reduced(&pool(1, 5), 100, 50, 1), None);
    }
}
