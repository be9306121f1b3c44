//! Rows over columns that are there already, and columns that are not wanted any more.

use super::{Sense, Simplex};

impl Simplex {
    /// Adds a row of at most `right` over columns that are there (each named once). Call [`Simplex::solve`] after.
    pub fn add_cut(&mut self, right: f64, penalty: f64, entries: &[(usize, f64)]) -> usize {
        let new = self.add_row(Sense::Le, right, penalty);
        for &(column, a) in entries {
            self.columns[column].entries.push((new as u32, a));
        }
        let stride = self.stride;
        let (above, own) = self.inverse.split_at_mut(new * stride);
        for i in 0..new {
            let last = self.columns[self.basis[i]].entries.last();
            let Some(&(_, a)) = last.filter(|e| e.0 as usize == new) else {
                continue;
            };
            self.value[new] -= a * self.value[i];
            for (own, row) in own[..new].iter_mut().zip(&above[i * stride..]) {
                *own -= a * row;
            }
        }
        self.work += (new * new / 4) as u64;
        new
    }

    /// No value is under 0.
    pub fn is_feasible(&self) -> bool {
        self.worst_value().is_none()
    }

    /// A column may come in.
    pub fn is_open(&self, column: usize) -> bool {
        self.columns[column].open
    }

    /// A column comes in no more.
    pub fn close(&mut self, column: usize) {
        self.columns[column].open = false;
    }
}
