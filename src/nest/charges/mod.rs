//! Charges over sets of stocks: what couples the pools.
//!
//! Branch and bound over what the charges count. In a node every charge has an interval of its number and
//! a line under it (`curve`), which moves into the costs of the joints; the pools, each by itself and each
//! moved pool once, are the engine's (`moved`, `relax`). Plans of the moved pools at their true
//! money, with joints bought uncut and taken elsewhere (`recast`) where that pays, are the plans of the whole (`plan`).

mod admit;
mod curve;
mod hopeless;
mod moved;
mod place;
mod plan;
mod reach;
mod recast;
mod relax;
mod split;
mod tree;

pub(super) use admit::admit_charges;
pub(super) use hopeless::hopeless;
pub(super) use reach::{most_joints, uncut};
pub(super) use tree::solve_charged;
