//! `Structure`: nodes, bars and their stiffness, factored once for one set of held unknowns.

use super::banded::Banded;
use super::bar::{Bar, Inner, Lie, Node};

/// A plane structure of straight bars. Unknowns of node k: 3k (ux), 3k+1 (uy), 3k+2 (θ).
#[derive(Clone, Debug)]
pub struct Structure {
    pub(super) nodes: Vec<Node>,
    pub(super) bars: Vec<Bar>,
    pub(super) lies: Vec<Lie>,
}

/// A structure's factored stiffness.
#[derive(Clone, Debug)]
pub struct Solver {
    factor: Banded,
    held: Vec<usize>,
}

impl Structure {
    /// From nodes (inches) and bars, with the modulus of elasticity in psi.
    pub fn new(nodes: Vec<Node>, bars: Vec<Bar>, elasticity: f64) -> Structure {
        let lies = bars
            .iter()
            .map(|bar| Lie::new(bar, nodes[bar.from], nodes[bar.to], elasticity))
            .collect();
        Structure { nodes, bars, lies }
    }

    /// The six unknowns of a bar.
    fn unknowns(bar: &Bar) -> [usize; 6] {
        let (a, b) = (3 * bar.from, 3 * bar.to);
        [a, a + 1, a + 2, b, b + 1, b + 2]
    }

    /// Factors the stiffness with these unknowns held at zero. `None`: a mechanism.
    pub fn solver(&self, held: &[usize]) -> Option<Solver> {
        let apart = self.bars.iter().map(|bar| bar.to.abs_diff(bar.from)).max();
        let half = 3 * apart.unwrap_or(0) + 2;
        let mut matrix = Banded::zero(3 * self.nodes.len(), half);
        for (bar, lie) in self.bars.iter().zip(&self.lies) {
            let unknowns = Structure::unknowns(bar);
            let stiffness = lie.stiffness();
            for (row, values) in unknowns.iter().zip(&stiffness) {
                for (column, value) in unknowns.iter().zip(values) {
                    matrix.add(*row, *column, *value);
                }
            }
        }
        for unknown in held {
            matrix.hold(*unknown);
        }
        Some(Solver {
            factor: matrix.factor()?,
            held: held.to_vec(),
        })
    }

    /// The nodal equivalents of every bar's own load.
    pub fn own_load(&self) -> Vec<f64> {
        let mut load = vec![0.0; 3 * self.nodes.len()];
        for (bar, lie) in self.bars.iter().zip(&self.lies) {
            for (unknown, value) in Structure::unknowns(bar).iter().zip(lie.nodal_load()) {
                load[*unknown] += value;
            }
        }
        load
    }

    /// Displacements of a bar's six unknowns.
    pub fn moved(&self, bar: usize, moved: &[f64]) -> [f64; 6] {
        Structure::unknowns(&self.bars[bar]).map(|unknown| moved[unknown])
    }

    /// What acts at the start of a bar, its own load included.
    pub fn start(&self, bar: usize, moved: &[f64]) -> Inner {
        self.lies[bar].start(self.moved(bar, moved))
    }

    /// What acts `x` inches along a bar under its own load.
    pub fn inner(&self, bar: usize, moved: &[f64], x: f64) -> Inner {
        self.lies[bar].along(self.start(bar, moved), x)
    }
}

impl Solver {
    /// Load on every unknown → its displacement, in place; held unknowns come out zero.
    pub fn solve(&self, load: &mut [f64]) {
        for unknown in &self.held {
            load[*unknown] = 0.0;
        }
        self.factor.solve(load);
    }
}
