//! A basis to start from: that of a program much like this one.

use super::Simplex;

/// Least size of a pivot that takes a column into the first basis.
const FIRM: f64 = 1e-3;

impl Simplex {
    /// Takes as many of these columns into the basis as it has place for, in their order, whatever values come of
    /// it; then dual steps until no value is under 0, or all as it was when that takes too many. For a program not
    /// solved yet.
    pub fn start_from(&mut self, columns: &[usize]) {
        let cold = self.clone();
        let mut taken = vec![false; self.columns.len()];
        for &column in columns {
            let direction = self.direction(column);
            let free = (0..direction.len()).filter(|&i| !taken[self.basis[i]]);
            let size = |i: usize| direction[i].abs();
            let place = free.max_by(|&a, &b| size(a).total_cmp(&size(b)).then(b.cmp(&a)));
            if let Some(place) = place.filter(|&i| size(i) > FIRM) {
                self.pivot(place, column, &direction);
                taken[column] = true;
            }
        }
        self.check();
        let mut left = self.rows();
        while let Some(row) = self.worst_value() {
            if left == 0 || !self.dual_step(row) {
                let work = self.work;
                *self = cold;
                self.work = work;
                return;
            }
            left -= 1;
        }
    }
}
