//! Against drift: values and duals anew from the inverse, and the inverse anew from the basis.

use super::Simplex;

impl Simplex {
    /// Gives columns another cost; call [`Simplex::solve`] after.
    pub fn set_costs(&mut self, columns: &[usize], cost: f64) {
        for &column in columns {
            self.columns[column].cost = cost;
        }
        self.dual = self.fresh_duals();
        self.work += (self.rows() * self.rows()) as u64;
    }

    /// Recomputes duals and values; rebuilds the inverse when it has drifted.
    pub(super) fn check(&mut self) {
        self.since_check = 0;
        let rows = self.rows();
        let mut rest = self.right.clone();
        for (&c, v) in self.basis.iter().zip(&self.value) {
            for &(r, a) in &self.columns[c].entries {
                rest[r as usize] -= a * v;
            }
        }
        let scale = self.right.iter().fold(1.0f64, |m, r| m.max(r.abs()));
        let fresh = self.fresh_duals();
        let drift = fresh
            .iter()
            .zip(&self.dual)
            .fold(0.0f64, |m, (a, b)| m.max((a - b).abs()));
        if rest.iter().any(|r| r.abs() > 1e-8 * scale) || drift > 1e-8 {
            self.rebuild();
        }
        self.dual = self.fresh_duals();
        for i in 0..rows {
            let row = &self.inverse[i * self.stride..][..rows];
            self.value[i] = row.iter().zip(&self.right).map(|(a, b)| a * b).sum();
        }
    }

    fn fresh_duals(&self) -> Vec<f64> {
        let rows = self.rows();
        let mut dual = vec![0.0; rows];
        for (i, &c) in self.basis.iter().enumerate() {
            let cost = self.columns[c].cost;
            if cost != 0.0 {
                let row = &self.inverse[i * self.stride..][..rows];
                for (d, a) in dual.iter_mut().zip(row) {
                    *d += cost * a;
                }
            }
        }
        dual
    }

    /// The inverse anew, by elimination with the largest pivot of each column.
    fn rebuild(&mut self) {
        let rows = self.rows();
        self.work += (rows * rows * rows) as u64;
        let mut inverse = vec![0.0; rows * rows];
        for i in 0..rows {
            inverse[i * rows + i] = 1.0;
        }
        let mut free: Vec<bool> = vec![true; rows];
        let mut order = self.basis.clone();
        order.sort_by_key(|&c| (self.columns[c].entries.len(), c));
        let mut placed = self.basis.clone();
        for &c in &order {
            let mut direction = vec![0.0; rows];
            for (i, d) in direction.iter_mut().enumerate() {
                let row = &inverse[i * rows..(i + 1) * rows];
                *d = self.columns[c]
                    .entries
                    .iter()
                    .map(|&(r, a)| row[r as usize] * a)
                    .sum();
            }
            let pick = (0..rows).filter(|&i| free[i]).max_by(|&a, &b| {
                direction[a]
                    .abs()
                    .total_cmp(&direction[b].abs())
                    .then(b.cmp(&a))
            });
            let Some(at) = pick.filter(|&i| direction[i].abs() > 1e-11) else {
                return;
            };
            free[at] = false;
            placed[at] = c;
            let scale = 1.0 / direction[at];
            let mut row = inverse[at * rows..(at + 1) * rows].to_vec();
            for a in &mut row {
                *a *= scale;
            }
            for (i, &d) in direction.iter().enumerate() {
                if i != at && d != 0.0 {
                    let target = &mut inverse[i * rows..(i + 1) * rows];
                    for (t, a) in target.iter_mut().zip(&row) {
                        *t -= d * a;
                    }
                }
            }
            inverse[at * rows..(at + 1) * rows].copy_from_slice(&row);
        }
        self.inverse = inverse;
        self.stride = rows;
        self.basis = placed;
    }
}
