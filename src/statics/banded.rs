//! LDLᵀ of a symmetric banded matrix, and its solve.
//!
//! Own code by measured need: a plane frame numbered along the leaf has 66 unknowns and a half
//! width of 11, and the factor is used for some 50 right sides; a dense factor from a library costs
//! fifty times as much. `tests` hold it against nalgebra. Source: G. H. Golub and C. F. Van Loan,
//! *Matrix Computations*, the LDLᵀ and band Cholesky algorithms (from memory).

/// A symmetric matrix kept as its lower band, and after [`Banded::factor`] its L and D.
#[derive(Clone, Debug)]
pub(super) struct Banded {
    size: usize,
    half: usize,
    /// Row i holds columns i−half..=i; the last entry of a row is its diagonal.
    rows: Vec<f64>,
}

/// A pivot this small against its row's own diagonal means a mechanism.
const SINGULAR: f64 = 1e-13;

impl Banded {
    /// A zero matrix with `half` entries beside the diagonal.
    pub fn zero(size: usize, half: usize) -> Banded {
        Banded {
            size,
            half,
            rows: vec![0.0; size * (half + 1)],
        }
    }

    fn at(&self, row: usize, column: usize) -> usize {
        row * (self.half + 1) + self.half + column - row
    }

    /// Adds to an entry; of the two mirror images only the lower is kept.
    pub fn add(&mut self, row: usize, column: usize, value: f64) {
        if column <= row {
            let place = self.at(row, column);
            self.rows[place] += value;
        }
    }

    /// Holds an unknown at zero: its row and column become those of the unit matrix.
    pub fn hold(&mut self, unknown: usize) {
        for other in unknown.saturating_sub(self.half)..self.size.min(unknown + self.half + 1) {
            let place = self.at(other.max(unknown), other.min(unknown));
            self.rows[place] = if other == unknown { 1.0 } else { 0.0 };
        }
    }

    /// Factors in place. `None` when a pivot vanishes (the structure is a mechanism).
    pub fn factor(mut self) -> Option<Banded> {
        for row in 0..self.size {
            let first = row.saturating_sub(self.half);
            let diagonal = self.at(row, row);
            let before = self.rows[diagonal];
            let mut pivot = before;
            for column in first..row {
                let inner = first.max(column.saturating_sub(self.half));
                let (a, b) = (self.at(row, inner), self.at(column, inner));
                let n = column - inner;
                let dot: f64 = (0..n).map(|k| self.rows[a + k] * self.rows[b + k]).sum();
                let place = self.at(row, column);
                self.rows[place] -= dot;
            }
            for column in first..row {
                let place = self.at(row, column);
                let scaled = self.rows[place] / self.rows[self.at(column, column)];
                pivot -= self.rows[place] * scaled;
                self.rows[place] = scaled;
            }
            if pivot.is_nan() || pivot <= SINGULAR * before {
                return None;
            }
            self.rows[diagonal] = pivot;
        }
        Some(self)
    }

    /// Solves in place with a factored matrix; `right` has one value per unknown.
    pub fn solve(&self, right: &mut [f64]) {
        for row in 0..self.size {
            let first = row.saturating_sub(self.half);
            let from = self.at(row, first);
            let factors = &self.rows[from..from + row - first];
            let dot: f64 = factors
                .iter()
                .zip(&right[first..row])
                .map(|(l, r)| l * r)
                .sum();
            right[row] -= dot;
        }
        for (row, value) in right.iter_mut().enumerate().take(self.size) {
            *value /= self.rows[self.at(row, row)];
        }
        for row in (0..self.size).rev() {
            let first = row.saturating_sub(self.half);
            let from = self.at(row, first);
            let value = right[row];
            let factors = &self.rows[from..from + row - first];
            for (l, r) in factors.iter().zip(&mut right[first..row]) {
                *r -= l * value;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use nalgebra::{DMatrix, DVector};
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn agrees_with_a_dense_library(
            size in 1_usize..30,
            half in 0_usize..8,
            seeds in prop::collection::vec(-1.0..1.0_f64, 30 * 9 + 30),
        ) {
            let half = half.min(size - 1);
            let mut dense = DMatrix::<f64>::zeros(size, size);
            let mut band = Banded::zero(size, half);
            for row in 0..size {
                for column in row.saturating_sub(half)..=row {
                    let spread = if row == column { 20.0 } else { 0.0 };
                    let value = seeds[row * 9 + row - column] + spread;
                    dense[(row, column)] = value;
                    dense[(column, row)] = value;
                    band.add(row, column, value);
                    if row != column {
                        band.add(column, row, 99.0); // the upper image is dropped
                    }
                }
            }
            let right = &seeds[30 * 9..30 * 9 + size];
            let expected = dense.lu().solve(&DVector::from_column_slice(right)).expect("dominant");
            let mut found = right.to_vec();
            band.factor().expect("positive definite").solve(&mut found);
            for (a, b) in expected.iter().zip(&found) {
                prop_assert!((a - b).abs() < 1e-12, "{a} {b}");
            }
        }
    }

    #[test]
    fn a_mechanism_has_no_factor() {
        let mut band = Banded::zero(2, 1);
        for (row, column, value) in [(0, 0, 1.0), (1, 0, -1.0), (1, 1, 1.0)] {
            band.add(row, column, value);
        }
        assert!(band.clone().factor().is_none());
        band.hold(0);
        let mut right = [0.0, 3.0];
        band.factor().expect("held").solve(&mut right);
        assert_eq!(right, [0.0, 3.0]);
    }
}
