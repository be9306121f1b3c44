//! `Rig`: a gate factored once, with its answer to its own weight and to a unit lift at every node
//! of both horizontals. From these any place of the rollers follows by adding a few columns.
//!
//! The free gate is held at three unknowns only so that it can be factored. Whatever the rollers
//! do, all forces on it add up to nothing, so these three carry nothing: only the gate's place in
//! the plane depends on them, and that is settled afterwards (two rollers, two conditions).
//! A lift between two nodes is what Hermite's cubics make of it on those nodes, plus the bar's own
//! bending with both ends fixed: exact for a bar under point loads, so no node need be inserted.

use super::bar::{Inner, fixed_rise, fixed_sag, hermite};
use super::skeleton::{Chain, Skeleton};
use super::structure::Solver;
use super::{Line, Model, StaticsFault};

/// A force up on a horizontal (a roller's reaction; negative: it holds the gate down).
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Lift {
    /// Which horizontal.
    pub line: Line,
    /// x from the latch end post's axis, in.
    pub x: f64,
    /// lbf, + up.
    pub force: f64,
}

/// A place on a horizontal: the bar it lies on and how far along.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spot {
    pub line: Line,
    /// Index into the horizontal's bars.
    pub bar: usize,
    /// From the bar's start, in.
    pub along: f64,
}

/// A factored gate.
#[derive(Clone, Debug)]
pub struct Rig {
    pub(super) model: Model,
    pub(super) skeleton: Skeleton,
    /// Displacements under the gate's own weight.
    pub(super) own: Vec<f64>,
    /// Displacements under a unit uy and a unit θ load at each node of each horizontal.
    columns: [Vec<[Vec<f64>; 2]>; 2],
    /// Starts of all bars of both horizontals (bottom's first) under the own weight.
    pub(super) own_starts: Vec<Inner>,
    /// The same under each unit load.
    starts: [Vec<[Vec<Inner>; 2]>; 2],
    weight: f64,
    centre: f64,
}

impl Rig {
    /// Factors a gate.
    pub fn new(model: &Model) -> Result<Rig, StaticsFault> {
        model.judge()?;
        let skeleton = Skeleton::new(model);
        let [first, last] = {
            let chain = &skeleton.chains[if skeleton.chains[0].nodes[0] == 0 {
                0
            } else {
                1
            }];
            [chain.nodes[0], chain.nodes[chain.nodes.len() - 1]]
        };
        let held = [3 * first, 3 * first + 1, 3 * last + 1];
        let solver = skeleton
            .structure
            .solver(&held)
            .ok_or(StaticsFault::Mechanism)?;
        let mut own = skeleton.structure.own_load();
        own[3 * skeleton.chains[1].nodes[0] + 1] -= model.nose_load;
        solver.solve(&mut own);
        let own_starts = starts(&skeleton, |bar| skeleton.structure.start(bar, &own));
        let columns = [0, 1].map(|i| columns(&skeleton.chains[i], &solver, own.len()));
        let starts = [0, 1].map(|i: usize| unit_starts(&skeleton, &columns[i]));
        let (weight, centre) = weigh(model, &skeleton);
        let model = model.clone();
        Ok(Rig {
            model,
            skeleton,
            own,
            columns,
            own_starts,
            starts,
            weight,
            centre,
        })
    }

    /// Everything that pulls down, lbf: pipe and fabric times the load factor, and the nose load.
    pub fn weight(&self) -> f64 {
        self.weight
    }

    /// Where it pulls, in from the latch end post's axis.
    pub fn centre(&self) -> f64 {
        self.centre
    }

    /// The model.
    pub fn model(&self) -> &Model {
        &self.model
    }

    /// Where on a horizontal x lies; at a node it is the start of the bar that begins there.
    pub(super) fn spot(&self, line: Line, x: f64) -> Spot {
        let chain = &self.skeleton.chains[line.index()];
        let after = chain.at.partition_point(|at| *at <= x);
        let bar = after.saturating_sub(1).min(chain.bars.len() - 1);
        Spot {
            line,
            bar,
            along: x - chain.at[bar],
        }
    }

    pub(super) fn bar_length(&self, spot: Spot) -> f64 {
        let bar = self.skeleton.chains[spot.line.index()].bars[spot.bar];
        self.skeleton.structure.lies[bar].length
    }

    /// The four unit columns a lift at a spot is made of, with their shares.
    fn shares(&self, spot: Spot) -> [(f64, usize, usize); 4] {
        let h = hermite(self.bar_length(spot), spot.along);
        let j = spot.bar;
        [
            (h[0], j, 0),
            (h[1], j, 1),
            (h[2], j + 1, 0),
            (h[3], j + 1, 1),
        ]
    }

    /// Adds a lift's displacements.
    pub(super) fn add_moved(&self, moved: &mut [f64], spot: Spot, force: f64) {
        for (share, node, kind) in self.shares(spot) {
            let column = &self.columns[spot.line.index()][node][kind];
            for (sum, value) in moved.iter_mut().zip(column) {
                *sum += force * share * value;
            }
        }
    }

    /// Adds a lift to the starts of all bars of both horizontals; the loaded bar's own share too.
    pub(super) fn add_starts(&self, sums: &mut [Inner], spot: Spot, force: f64) {
        let shares = self.shares(spot);
        for (share, node, kind) in shares {
            let scale = force * share;
            for (sum, unit) in sums
                .iter_mut()
                .zip(&self.starts[spot.line.index()][node][kind])
            {
                sum.axial += scale * unit.axial;
                sum.shear += scale * unit.shear;
                sum.moment += scale * unit.moment;
            }
        }
        let first = if spot.line == Line::Bottom {
            0
        } else {
            self.skeleton.chains[0].bars.len()
        };
        let loaded = &mut sums[first + spot.bar];
        loaded.shear -= force * shares[0].0;
        loaded.moment += force * shares[1].0;
    }

    /// Rise (+ up) of a spot when the nodes move so; the bar's own bending left out.
    pub(super) fn rise_between(&self, moved: &[f64], spot: Spot) -> f64 {
        let nodes = &self.skeleton.chains[spot.line.index()].nodes;
        let sum =
            |(share, node, kind): (f64, usize, usize)| share * moved[3 * nodes[node] + 1 + kind];
        self.shares(spot).into_iter().map(sum).sum()
    }

    /// Rise of a spot within its bar under the bar's own load, ends fixed.
    pub(super) fn sag_within(&self, spot: Spot) -> f64 {
        let bar = self.skeleton.chains[spot.line.index()].bars[spot.bar];
        let lie = &self.skeleton.structure.lies[bar];
        fixed_sag(lie.flexural, lie.length, lie.load, spot.along)
    }

    /// Rise of a spot within its bar under a unit lift at another, ends fixed.
    pub(super) fn rise_within(&self, spot: Spot, lifted: Spot) -> f64 {
        if spot.line != lifted.line || spot.bar != lifted.bar {
            return 0.0;
        }
        let bar = self.skeleton.chains[spot.line.index()].bars[spot.bar];
        let lie = &self.skeleton.structure.lies[bar];
        fixed_rise(lie.flexural, lie.length, lifted.along, spot.along)
    }

    /// Rise of a spot under a unit lift at another (the free gate held for the factor).
    pub(super) fn give(&self, spot: Spot, lifted: Spot) -> f64 {
        let by_nodes = |(share, node, kind): (f64, usize, usize)| {
            share * self.rise_between(&self.columns[lifted.line.index()][node][kind], spot)
        };
        let sum: f64 = self.shares(lifted).into_iter().map(by_nodes).sum();
        sum + self.rise_within(spot, lifted)
    }
}

fn starts(skeleton: &Skeleton, start: impl Fn(usize) -> Inner) -> Vec<Inner> {
    let bars = skeleton.chains.iter().flat_map(|chain| &chain.bars);
    bars.map(|bar| start(*bar)).collect()
}

fn columns(chain: &Chain, solver: &Solver, unknowns: usize) -> Vec<[Vec<f64>; 2]> {
    let unit = |node: &usize, kind: usize| {
        let mut load = vec![0.0; unknowns];
        load[3 * node + 1 + kind] = 1.0;
        solver.solve(&mut load);
        load
    };
    chain
        .nodes
        .iter()
        .map(|node| [unit(node, 0), unit(node, 1)])
        .collect()
}

fn unit_starts(skeleton: &Skeleton, columns: &[[Vec<f64>; 2]]) -> Vec<[Vec<Inner>; 2]> {
    let of = |moved: &Vec<f64>| {
        starts(skeleton, |bar| {
            let structure = &skeleton.structure;
            structure.lies[bar].start_unloaded(structure.moved(bar, moved))
        })
    };
    columns
        .iter()
        .map(|pair| [of(&pair[0]), of(&pair[1])])
        .collect()
}

/// Weight and its centre.
fn weigh(model: &Model, skeleton: &Skeleton) -> (f64, f64) {
    let structure = &skeleton.structure;
    let (mut weight, mut moment) = (model.nose_load, 0.0);
    for (bar, lie) in structure.bars.iter().zip(&structure.lies) {
        let pull = lie.load * lie.length;
        weight += pull;
        moment += pull * (structure.nodes[bar.from].x + structure.nodes[bar.to].x) / 2.0;
    }
    (weight, moment / weight)
}
