//! A small dense revised simplex for column generation: the inverse of the basis is kept whole, columns
//! are sparse and may be added at any time, right sides may change between solves.
//!
//! Why our own: good_lp's pure-Rust solver hands out no duals and must be asked through the dual problem;
//! `benches/simplex.rs` measures that (the figure is in benches/LOG.md). Nothing here is trusted: bounds and plans are verified in
//! exact integers outside. Primal steps after new columns, dual steps after changed right sides; every
//! row has a penalty column, so a basis always exists. Method: Dantzig's rule, Bland's after a run of
//! degenerate steps (G. B. Dantzig 1963; R. G. Bland 1977).

/// Sense of a row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Sense {
    /// At least.
    Ge,
    /// At most.
    Le,
    /// Equal.
    Eq,
}

#[derive(Clone, Debug)]
struct Column {
    cost: f64,
    entries: Vec<(u32, f64)>,
    open: bool,
    basic: bool,
}

/// Least size of a pivot.
const PIVOT: f64 = 1e-8;
/// Reduced costs and values nearer to 0 than this count as 0 (costs are scaled to about 1).
const ZERO: f64 = 1e-9;
/// Entries of the inverse nearer to 0 than this count as 0.
const DUST: f64 = 1e-14;
/// Columns from which looking at all of them at each step takes longer than the step.
const MANY_COLUMNS: usize = 1500;
/// Candidates kept between two looks at all columns (multiple pricing).
const CANDIDATES: usize = 40;
/// Steps between two looks at whether to stop.
const LOOK_EVERY: u64 = 500_000;
/// Pivots between checks of the inverse.
const CHECK_EVERY: u32 = 100;

/// The state of a linear program between solves.
#[derive(Clone, Debug, Default)]
pub(super) struct Simplex {
    right: Vec<f64>,
    columns: Vec<Column>,
    basis: Vec<usize>,
    value: Vec<f64>,
    dual: Vec<f64>,
    /// Rows of the inverse, `stride` apart: room to grow without copying at every new row.
    inverse: Vec<f64>,
    stride: usize,
    since_check: u32,
    /// Columns whose reduced costs were lowest when all were last looked at.
    candidates: Vec<usize>,
    /// Steps (about a nanosecond each), for the work budget.
    pub work: u64,
}

impl Simplex {
    fn rows(&self) -> usize {
        self.right.len()
    }

    /// Adds a row with its slack and penalty columns and returns its index. No column added before has an
    /// entry in it. Right sides are ≥ 0 here.
    pub fn add_row(&mut self, sense: Sense, right: f64, penalty: f64) -> usize {
        let (old, r) = (self.rows(), self.rows() as u32);
        let new = old + 1;
        self.make_room(new);
        self.inverse[old * self.stride..][..new].fill(0.0);
        for i in 0..old {
            self.inverse[i * self.stride + old] = 0.0;
        }
        self.inverse[old * self.stride + old] = 1.0;
        self.work += new as u64;
        self.right.push(right);
        let slack = match sense {
            Sense::Ge => -1.0,
            Sense::Le => 1.0,
            Sense::Eq => 0.0,
        };
        let sign = if sense == Sense::Le { -1.0 } else { 1.0 };
        let penalty_column = self.add_column(penalty, vec![(r, sign)]);
        let slack_column = self.add_column(0.0, vec![(r, slack)]);
        self.columns[slack_column].open = sense != Sense::Eq;
        let surplus = sense == Sense::Ge && right <= 0.0;
        let basic = if surplus || sense == Sense::Le {
            slack_column
        } else {
            penalty_column
        };
        if surplus {
            self.inverse[old * self.stride + old] = -1.0;
        }
        self.columns[basic].basic = true;
        self.basis.push(basic);
        self.value.push(if surplus { -right } else { right });
        let cost = self.columns[basic].cost;
        self.dual.push(if surplus || sense == Sense::Le {
            0.0
        } else {
            cost
        });
        old
    }

    /// Room for so many rows.
    fn make_room(&mut self, rows: usize) {
        if rows <= self.stride {
            return;
        }
        let (old, stride) = (self.stride, (rows * 3 / 2).max(16));
        let mut inverse = vec![0.0; stride * stride];
        for (to, from) in inverse
            .chunks_mut(stride)
            .zip(self.inverse.chunks(old.max(1)))
        {
            to[..old].copy_from_slice(from);
        }
        self.work += (stride * stride) as u64;
        self.inverse = inverse;
        self.stride = stride;
    }

    /// Adds a column and returns its index.
    pub fn add_column(&mut self, cost: f64, entries: Vec<(u32, f64)>) -> usize {
        self.columns.push(Column {
            cost,
            entries,
            open: true,
            basic: false,
        });
        self.columns.len() - 1
    }

    /// Changes a right side; call [`Simplex::solve`] after.
    pub fn set_right(&mut self, row: usize, right: f64) {
        let change = right - self.right[row];
        if change == 0.0 {
            return;
        }
        self.right[row] = right;
        for (i, value) in self.value.iter_mut().enumerate() {
            *value += self.inverse[i * self.stride + row] * change;
        }
    }

    /// Right side of a row.
    pub fn right(&self, row: usize) -> f64 {
        self.right[row]
    }

    /// Values of the basic columns: (column, value).
    pub fn basics(&self) -> impl Iterator<Item = (usize, f64)> + '_ {
        self.basis.iter().copied().zip(self.value.iter().copied())
    }

    /// Row duals.
    pub fn duals(&self) -> &[f64] {
        &self.dual
    }

    /// Cost of the present basis.
    pub fn objective(&self) -> f64 {
        self.basis
            .iter()
            .zip(&self.value)
            .map(|(&c, v)| self.columns[c].cost * v)
            .sum()
    }

    /// Cost less duals times entries.
    fn reduced(&self, column: &Column) -> f64 {
        column.cost
            - column
                .entries
                .iter()
                .map(|&(r, a)| self.dual[r as usize] * a)
                .sum::<f64>()
    }

    /// Runs dual steps while a value is negative, then primal steps to the end. `over` is told the steps
    /// done since it was last asked and says when to end. False when it or the pivot limit ended the run
    /// (the state stays usable).
    pub fn solve(&mut self, most_pivots: u32, over: &mut dyn FnMut(u64) -> bool) -> bool {
        let mut told = self.work;
        let whole = self.run(most_pivots, &mut |work| {
            let due = work - told >= LOOK_EVERY;
            due && over(work - std::mem::replace(&mut told, work))
        });
        let over = over(self.work - told);
        whole && !over
    }

    fn run(&mut self, most_pivots: u32, over: &mut dyn FnMut(u64) -> bool) -> bool {
        let mut left = most_pivots;
        while let Some(row) = self.worst_value() {
            if left == 0 || over(self.work) || !self.dual_step(row) {
                break;
            }
            left -= 1;
        }
        for value in &mut self.value {
            if *value < 0.0 && *value > -1e-7 {
                *value = 0.0;
            }
        }
        let mut idle = 0u32;
        let calm = self.rows() as u32 + 50;
        loop {
            let Some(enter) = self.entering(idle > calm) else {
                return true;
            };
            if left == 0 || over(self.work) {
                return false;
            }
            left -= 1;
            match self.primal_step(enter) {
                Some(moved) => idle = if moved { 0 } else { idle + 1 },
                None => self.columns[enter].open = false,
            }
        }
    }

    fn worst_value(&self) -> Option<usize> {
        let worst = (0..self.rows()).min_by(|&a, &b| self.value[a].total_cmp(&self.value[b]))?;
        (self.value[worst] < -1e-7).then_some(worst)
    }

    /// The column to bring in; `None` when none lowers the cost. `first`: the first such column (Bland), else
    /// the best of a few candidates, which are chosen anew among all when none of them serves any more.
    fn entering(&mut self, first: bool) -> Option<usize> {
        if first {
            return (0..self.columns.len()).find(|&j| self.lowers(j).is_some());
        }
        if self.columns.len() < MANY_COLUMNS {
            self.candidates.clear();
        }
        if let Some(best) = self.best_candidate() {
            return Some(best);
        }
        let all = 0..self.columns.len();
        let mut found: Vec<(f64, usize)> = all.filter_map(|j| Some((self.lowers(j)?, j))).collect();
        let by_cost = |a: &(f64, usize), b: &(f64, usize)| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1));
        if found.len() > CANDIDATES {
            found.select_nth_unstable_by(CANDIDATES, by_cost);
            found.truncate(CANDIDATES);
        }
        self.candidates = found.into_iter().map(|(_, j)| j).collect();
        self.best_candidate()
    }

    /// The candidate of least reduced cost; those that no longer lower the cost are let go.
    fn best_candidate(&mut self) -> Option<usize> {
        let mut best: Option<(f64, usize)> = None;
        let mut list = std::mem::take(&mut self.candidates);
        list.retain(|&j| {
            let reduced = self.lowers(j);
            if let Some(r) = reduced
                && best.is_none_or(|b| (r, j) < b)
            {
                best = Some((r, j));
            }
            reduced.is_some()
        });
        self.candidates = list;
        best.map(|(_, j)| j)
    }

    /// Reduced cost of a column that may come in and lowers the cost.
    fn lowers(&self, j: usize) -> Option<f64> {
        let column = &self.columns[j];
        if !column.open || column.basic {
            return None;
        }
        let reduced = self.reduced(column);
        (reduced < -ZERO).then_some(reduced)
    }

    /// Inverse × column.
    fn direction(&self, column: usize) -> Vec<f64> {
        let rows = self.rows();
        let entries = &self.columns[column].entries;
        let row = |i: usize| &self.inverse[i * self.stride..][..rows];
        (0..rows)
            .map(|i| {
                let row = row(i);
                entries.iter().map(|&(r, a)| row[r as usize] * a).sum()
            })
            .collect()
    }

    /// Brings a column in; true when the cost fell. `None`: no pivot to be had.
    fn primal_step(&mut self, enter: usize) -> Option<bool> {
        let direction = self.direction(enter);
        let mut least = f64::INFINITY;
        for (value, d) in self.value.iter().zip(&direction) {
            if *d > PIVOT {
                least = least.min((value.max(0.0) + 1e-10) / d);
            }
        }
        let ratio = |i: usize| self.value[i].max(0.0) / direction[i];
        let leave = (0..direction.len())
            .filter(|&i| direction[i] > PIVOT && ratio(i) <= least)
            .max_by(|&a, &b| direction[a].total_cmp(&direction[b]).then(b.cmp(&a)))?;
        let step = ratio(leave);
        self.pivot(leave, enter, &direction);
        Some(step > 1e-11)
    }

    fn dual_step(&mut self, leave: usize) -> bool {
        let rows = self.rows();
        let row = self.inverse[leave * self.stride..][..rows].to_vec();
        let mut best: Option<(f64, f64, usize)> = None;
        for (j, column) in self
            .columns
            .iter()
            .enumerate()
            .filter(|(_, c)| c.open && !c.basic)
        {
            let alpha: f64 = column
                .entries
                .iter()
                .map(|&(r, a)| row[r as usize] * a)
                .sum();
            if alpha >= -PIVOT {
                continue;
            }
            let ratio = self.reduced(column).max(0.0) / -alpha;
            let better =
                best.is_none_or(|(r, a, _)| ratio < r - 1e-12 || (ratio < r + 1e-12 && alpha < a));
            if better {
                best = Some((ratio, alpha, j));
            }
        }
        let Some((_, _, enter)) = best else {
            return false;
        };
        let direction = self.direction(enter);
        if direction[leave].abs() <= PIVOT {
            return false;
        }
        self.pivot(leave, enter, &direction);
        true
    }

    fn pivot(&mut self, leave: usize, enter: usize, direction: &[f64]) {
        let rows = self.rows();
        self.work += (rows * rows / 4 + self.columns.len() * 6) as u64;
        let step = self.value[leave] / direction[leave];
        let reduced = self.reduced(&self.columns[enter]);
        let scale = 1.0 / direction[leave];
        let mut row = self.inverse[leave * self.stride..][..rows].to_vec();
        for a in &mut row {
            *a *= scale;
        }
        // Most of a row of the inverse is 0 in practice: touch the rest only.
        let filled: Vec<usize> = (0..rows).filter(|&k| row[k].abs() > DUST).collect();
        let sparse = filled.len() * 4 < rows;
        for (i, &d) in direction.iter().enumerate() {
            if i == leave || d.abs() <= DUST {
                continue;
            }
            let target = &mut self.inverse[i * self.stride..][..rows];
            if sparse {
                for &k in &filled {
                    target[k] -= d * row[k];
                }
            } else {
                for (t, a) in target.iter_mut().zip(&row) {
                    *t -= d * a;
                }
            }
            self.value[i] -= d * step;
        }
        for (dual, a) in self.dual.iter_mut().zip(&row) {
            *dual += reduced * a;
        }
        self.inverse[leave * self.stride..][..rows].copy_from_slice(&row);
        self.value[leave] = step;
        let left = std::mem::replace(&mut self.basis[leave], enter);
        self.columns[left].basic = false;
        self.columns[enter].basic = true;
        self.since_check += 1;
        if self.since_check >= CHECK_EVERY {
            self.check();
        }
    }
}

mod cut;
mod refresh;
mod start;
#[cfg(test)]
mod tests;
