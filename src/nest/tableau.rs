//! A small dual simplex on a condensed tableau, for integer programs whose columns are all known.
//!
//! min Σ cost·x, every cost ≥ 0, every row's sum and every column within bounds. With costs ≥ 0 the basis
//! of the rows' own sums is dual feasible, and it stays so whatever bounds change, so a search may move
//! bounds to and fro and go on from the basis at hand: no first phase, no copies. There is no right side:
//! the sum of a row is a variable with bounds. Method: C. E. Lemke's dual steps (1954) with bounded
//! variables; the penalties of N. J. Driebeck (1966) look one step ahead.

/// A value this far out of its bounds counts as inside.
pub(super) const OUT: f64 = 1e-7;
/// Least size of a pivot.
const PIVOT: f64 = 1e-7;
/// Entries nearer to 0 than this count as 0.
const DUST: f64 = 1e-11;
/// Reduced costs nearer to 0 than this leave a variable at the bound it stands at.
const SIGN: f64 = 1e-10;
/// Pivots between fresh starts from the rows as given.
const FRESH: u32 = 400;

/// How a solve ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum End {
    /// Least cost within the bounds.
    Least,
    /// Nothing within the bounds costs less than the cutoff.
    Cut,
    /// Numbers went astray or the pivots ran out: nothing is known.
    Lost,
}

/// A column as given: cost, most and entries (row, number).
pub(super) type Given = (f64, f64, Vec<(u32, f64)>);

/// The tableau: each basic variable as a sum of the others. Variables 0.. are the columns, those after
/// them the sums of the rows.
#[derive(Clone, Debug)]
pub(super) struct Tableau {
    rows: usize,
    columns: usize,
    given: Vec<f64>,
    costs: Vec<f64>,
    table: Vec<f64>,
    reduced: Vec<f64>,
    basic: Vec<usize>,
    other: Vec<usize>,
    at_high: Vec<bool>,
    /// Bounds of each variable: low, high.
    span: Vec<[f64; 2]>,
    value: Vec<f64>,
    cost: f64,
    since: u32,
    /// The caller's number of each column.
    pub names: Vec<usize>,
    /// Entries touched.
    pub work: u64,
}

impl Tableau {
    /// Rows given by their bounds, columns by cost, most and entries (row, number).
    pub fn new(bounds: &[(f64, f64)], columns: &[Given]) -> Tableau {
        let (m, n) = (bounds.len(), columns.len());
        let mut given = vec![0.0; m * n];
        for (j, column) in columns.iter().enumerate() {
            for &(r, a) in &column.2 {
                given[r as usize * n + j] += a;
            }
        }
        let highs = columns.iter().map(|c| [0.0, c.1]);
        let span = highs.chain(bounds.iter().map(|b| [b.0, b.1])).collect();
        let costs: Vec<f64> = columns.iter().map(|c| c.0).collect();
        Tableau {
            rows: m,
            columns: n,
            table: given.clone(),
            reduced: costs.clone(),
            given,
            costs,
            basic: (n..n + m).collect(),
            other: (0..n).collect(),
            at_high: vec![false; n],
            span,
            value: vec![0.0; m],
            cost: 0.0,
            since: 0,
            names: (0..n).collect(),
            work: (m * n) as u64,
        }
    }

    /// Bounds of a variable.
    pub fn bounds(&self, variable: usize) -> (f64, f64) {
        self.span[variable].into()
    }

    /// Moves the bounds of a variable; call [`Tableau::solve`] after.
    pub fn set_bounds(&mut self, variable: usize, bounds: (f64, f64)) {
        self.span[variable] = bounds.into();
    }

    /// Where a variable out of the basis stands.
    fn stands(&self, place: usize) -> f64 {
        self.span[self.other[place]][usize::from(self.at_high[place])]
    }

    /// Cost of the basis last solved for: nothing within the bounds is cheaper.
    pub fn cost(&self) -> f64 {
        self.cost
    }

    /// Values of the variables in the basis.
    pub fn basics(&self) -> impl Iterator<Item = (usize, f64)> + '_ {
        self.basic.iter().copied().zip(self.value.iter().copied())
    }

    /// Values of the columns that are not 0, by the caller's numbers.
    pub fn values(&self) -> Vec<(usize, f64)> {
        let others = self.other.iter().enumerate();
        let stood = others.map(|(place, &v)| (v, self.stands(place)));
        stood
            .chain(self.basics())
            .filter(|(v, value)| *v < self.columns && *value != 0.0)
            .map(|(v, value)| (self.names[v], value))
            .collect()
    }

    /// The caller's number of a variable; rows come after `columns` of them.
    pub fn name(&self, variable: usize, columns: usize) -> usize {
        match self.names.get(variable) {
            Some(&name) => name,
            None => columns + variable - self.columns,
        }
    }

    /// How many columns it has.
    pub fn columns(&self) -> usize {
        self.columns
    }

    /// The same without the columns that stand at 0 and cost more than `room` to use.
    pub fn within(&self, room: f64) -> Tableau {
        let (m, n) = (self.rows, self.columns);
        let far = |j: &usize| {
            let v = self.other[*j];
            v < n && self.reduced[*j] > room && self.stands(*j) == 0.0
        };
        let kept: Vec<usize> = (0..n).filter(|j| !far(j)).collect();
        let mut stays = vec![true; n];
        for j in (0..n).filter(far) {
            stays[self.other[j]] = false;
        }
        let old: Vec<usize> = (0..n).filter(|&v| stays[v]).collect();
        let mut place = vec![0; n + m];
        for (new, &v) in old.iter().enumerate() {
            place[v] = new;
        }
        for r in 0..m {
            place[n + r] = old.len() + r;
        }
        let by_row = |table: &[f64], pick: &[usize]| -> Vec<f64> {
            let rows = (0..m).flat_map(|i| pick.iter().map(move |&j| i * n + j));
            rows.map(|at| table[at]).collect()
        };
        let columns = old.iter().map(|&v| self.span[v]);
        let span = columns.chain(self.span[n..].iter().copied()).collect();
        Tableau {
            rows: m,
            columns: old.len(),
            given: by_row(&self.given, &old),
            costs: old.iter().map(|&v| self.costs[v]).collect(),
            table: by_row(&self.table, &kept),
            reduced: kept.iter().map(|&j| self.reduced[j]).collect(),
            basic: self.basic.iter().map(|&v| place[v]).collect(),
            other: kept.iter().map(|&j| place[self.other[j]]).collect(),
            at_high: kept.iter().map(|&j| self.at_high[j]).collect(),
            span,
            value: self.value.clone(),
            cost: self.cost,
            since: self.since,
            names: old.iter().map(|&v| self.names[v]).collect(),
            work: (m * (n + old.len()) * 2) as u64,
        }
    }

    /// How many columns stand at 0 and cost more than `room` to use.
    pub fn far(&self, room: f64) -> usize {
        (0..self.columns)
            .filter(|&j| {
                self.other[j] < self.columns && self.reduced[j] > room && self.stands(j) == 0.0
            })
            .count()
    }

    fn evaluate(&mut self) {
        let mut moved: Vec<(usize, f64)> = Vec::new();
        self.cost = 0.0;
        for j in 0..self.columns {
            let d = self.reduced[j];
            if d.abs() > SIGN {
                self.at_high[j] = d < 0.0;
            }
            let at = self.stands(j);
            if at != 0.0 {
                self.cost += d * at;
                moved.push((j, at));
            }
        }
        self.work += (self.columns * 2 + self.rows * moved.len()) as u64;
        for i in 0..self.rows {
            let row = &self.table[i * self.columns..(i + 1) * self.columns];
            self.value[i] = moved.iter().map(|&(j, at)| row[j] * at).sum();
        }
    }

    /// Dual steps until every basic value is within its bounds, or the cost is over `cutoff`.
    pub fn solve(&mut self, cutoff: f64, most_pivots: u32) -> End {
        let mut left = most_pivots;
        loop {
            if self.since >= FRESH && !self.restart() {
                return End::Lost;
            }
            self.evaluate();
            if self.cost > cutoff {
                return End::Cut;
            }
            let Some((row, up)) = self.worst() else {
                return End::Least;
            };
            let Some(enter) = self.entering(row, up) else {
                return End::Cut;
            };
            if left == 0 {
                return End::Lost;
            }
            left -= 1;
            self.pivot(row, enter);
            self.at_high[enter] = !up;
        }
    }

    /// The row farthest out of its bounds; true when it must rise.
    fn worst(&self) -> Option<(usize, bool)> {
        let mut worst = (OUT, None);
        for (i, &v) in self.basic.iter().enumerate() {
            let (under, over) = (
                self.span[v][0] - self.value[i],
                self.value[i] - self.span[v][1],
            );
            if under > worst.0 {
                worst = (under, Some((i, true)));
            }
            if over > worst.0 {
                worst = (over, Some((i, false)));
            }
        }
        worst.1
    }

    /// The column that may move the row at least cost per unit.
    fn entering(&self, row: usize, up: bool) -> Option<usize> {
        let row = &self.table[row * self.columns..(row + 1) * self.columns];
        let mut best: Option<(f64, f64, usize)> = None;
        for (j, &a) in row.iter().enumerate() {
            if a.abs() <= PIVOT {
                continue;
            }
            let v = self.other[j];
            let d = self.reduced[j];
            if ((a > 0.0) == up) == self.at_high[j] || self.span[v][0] == self.span[v][1] {
                continue;
            }
            let (ratio, size) = (d.abs() / a.abs(), a.abs());
            if best.is_none_or(|(r, s, _)| ratio < r - 1e-12 || (ratio <= r + 1e-12 && size > s)) {
                best = Some((ratio, size, j));
            }
        }
        best.map(|b| b.2)
    }

    /// Least rise of the cost when a basic variable is moved down by `down` or up by `up`.
    pub fn penalties(&self, row: usize, (down, up): (f64, f64)) -> (f64, f64) {
        let row = &self.table[row * self.columns..(row + 1) * self.columns];
        let (mut falls, mut rises) = (f64::INFINITY, f64::INFINITY);
        for (j, &a) in row.iter().enumerate() {
            let v = self.other[j];
            if a.abs() <= PIVOT || self.span[v][0] == self.span[v][1] {
                continue;
            }
            let d = self.reduced[j];
            let ratio = d.abs() / a.abs();
            if (a > 0.0) != self.at_high[j] {
                rises = rises.min(ratio);
            } else {
                falls = falls.min(ratio);
            }
        }
        (falls * down, rises * up)
    }

    fn pivot(&mut self, leave: usize, enter: usize) {
        let n = self.columns;
        self.since += 1;
        let mut row = self.table[leave * n..(leave + 1) * n].to_vec();
        let scale = 1.0 / row[enter];
        for a in &mut row {
            *a *= -scale;
        }
        row[enter] = scale;
        let filled: Vec<usize> = (0..n)
            .filter(|&j| row[j].abs() > DUST && j != enter)
            .collect();
        let sparse = filled.len() * 3 < n;
        let mut touched = 0;
        let mut update = |target: &mut [f64]| {
            let by = target[enter];
            if by.abs() <= DUST {
                target[enter] = 0.0;
                return;
            }
            touched += 1;
            if sparse {
                for &j in &filled {
                    target[j] += by * row[j];
                }
            } else {
                for (t, a) in target.iter_mut().zip(&row) {
                    *t += by * a;
                }
            }
            target[enter] = by * scale;
        };
        for i in (0..self.rows).filter(|i| *i != leave) {
            update(&mut self.table[i * n..(i + 1) * n]);
        }
        update(&mut self.reduced);
        self.table[leave * n..(leave + 1) * n].copy_from_slice(&row);
        std::mem::swap(&mut self.basic[leave], &mut self.other[enter]);
        let each = if sparse { filled.len() * 2 } else { n };
        self.work += (touched * each + n * 4) as u64;
    }

    /// The same basis from the rows as given; false when it cannot be made.
    fn restart(&mut self) -> bool {
        let (m, n) = (self.rows, self.columns);
        let mut wanted: Vec<bool> = vec![false; n + m];
        for &v in &self.basic {
            wanted[v] = true;
        }
        self.table.copy_from_slice(&self.given);
        self.reduced.copy_from_slice(&self.costs);
        self.basic = (n..n + m).collect();
        self.other = (0..n).collect();
        for column in (0..n).filter(|&j| wanted[j]) {
            let free = (0..m).filter(|&i| !wanted[self.basic[i]]);
            let size = |i: usize| self.table[i * n + column].abs();
            let row = free.max_by(|&a, &b| size(a).total_cmp(&size(b)).then(b.cmp(&a)));
            match row {
                Some(row) if size(row) > PIVOT => self.pivot(row, column),
                _ => return false,
            }
        }
        self.since = 0;
        true
    }
}
