//! Median, least and worst of what a bench measured.

use std::fmt;

/// Figures in the order they came.
#[derive(Clone, Debug, Default)]
pub struct Spread(Vec<f64>);

impl Spread {
    /// One more.
    pub fn add(&mut self, figure: f64) {
        self.0.push(figure);
    }

    /// How many there are.
    pub fn count(&self) -> usize {
        self.0.len()
    }

    /// How many are no more than this.
    pub fn within(&self, most: f64) -> usize {
        self.0.iter().filter(|f| **f <= most).count()
    }

    fn sorted(&self) -> Vec<f64> {
        let mut sorted = self.0.clone();
        sorted.sort_by(f64::total_cmp);
        sorted
    }

    /// The middle one (the upper of two).
    pub fn median(&self) -> f64 {
        let sorted = self.sorted();
        sorted.get(sorted.len() / 2).copied().unwrap_or(0.0)
    }

    /// The greatest.
    pub fn worst(&self) -> f64 {
        self.sorted().last().copied().unwrap_or(0.0)
    }
}

impl fmt::Display for Spread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "median {:.3}, worst {:.3}", self.median(), self.worst())
    }
}

/// `part` in percent of `all`.
pub fn percent(part: i64, all: i64) -> f64 {
    100.0 * part as f64 / all.max(1) as f64
}
