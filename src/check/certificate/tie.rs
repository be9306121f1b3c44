//! `Ties`: whole numbers tied by differences (x − y ≤ by), kept as a matrix and closed by shortest
//! paths (Floyd; Warshall): every bound exact, the least and greatest solution read off. Variable 0
//! is the origin.

/// No bound yet; twice it still fits.
const FREE: i64 = i64::MAX / 4;

/// A system of difference bounds.
#[derive(Clone, Debug)]
pub(super) struct Ties {
    size: usize,
    most: Vec<i64>,
}

impl Ties {
    /// `variables` numbers besides the origin, nothing tied.
    pub(super) fn new(variables: usize) -> Ties {
        let size = variables + 1;
        let mut most = vec![FREE; size * size];
        for i in 0..size {
            most[i * size + i] = 0;
        }
        Ties { size, most }
    }

    /// x − y ≤ by.
    pub(super) fn at_most(&mut self, x: usize, y: usize, by: i64) {
        let cell = &mut self.most[x * self.size + y];
        *cell = (*cell).min(by);
    }

    /// x − y ≥ by.
    pub(super) fn at_least(&mut self, x: usize, y: usize, by: i64) {
        self.at_most(y, x, -by);
    }

    /// Closes the system; false when it has no solution.
    pub(super) fn close(&mut self) -> bool {
        let n = self.size;
        for via in 0..n {
            for x in 0..n {
                let first = self.most[x * n + via];
                if first >= FREE {
                    continue;
                }
                for y in 0..n {
                    let second = self.most[via * n + y];
                    if second < FREE && first + second < self.most[x * n + y] {
                        self.most[x * n + y] = first + second;
                    }
                }
            }
        }
        (0..n).all(|x| self.most[x * n + x] >= 0)
    }

    /// Whether every solution of this closed system is one of the other's.
    pub(super) fn is_within(&self, other: &Ties) -> bool {
        self.most
            .iter()
            .zip(&other.most)
            .all(|(own, theirs)| own <= theirs)
    }

    /// The system with nothing known of one variable.
    pub(super) fn freed(&self, x: usize) -> Ties {
        let mut out = self.clone();
        for y in (0..self.size).filter(|y| *y != x) {
            out.most[x * self.size + y] = FREE;
            out.most[y * self.size + x] = FREE;
        }
        out
    }

    /// In a closed system: variable `to` is from now on what `from` is.
    pub(super) fn moved(&mut self, from: usize, to: usize) {
        let n = self.size;
        for y in (0..n).filter(|y| *y != to) {
            self.most[to * n + y] = self.most[from * n + y];
            self.most[y * n + to] = self.most[y * n + from];
        }
    }

    /// The greatest x − y of a closed system.
    pub(super) fn greatest(&self, x: usize, y: usize) -> i64 {
        self.most[x * self.size + y]
    }

    /// The least x − y of a closed system.
    pub(super) fn least(&self, x: usize, y: usize) -> i64 {
        -self.greatest(y, x)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn closes_and_reads_off_the_extremes() {
        let mut ties = Ties::new(2);
        ties.at_least(1, 0, 3);
        ties.at_most(1, 0, 10);
        ties.at_least(2, 1, 4);
        ties.at_most(2, 0, 12);
        assert!(ties.close());
        assert_eq!((ties.least(1, 0), ties.greatest(1, 0)), (3, 8));
        assert_eq!((ties.least(2, 0), ties.greatest(2, 1)), (7, 9));
        ties.at_most(2, 1, 3);
        assert!(!ties.close());
    }
}
