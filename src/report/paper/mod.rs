//! The sheets drawn: what the floor works from, as one PDF set per week, and elevations as SVG.
//!
//! Each sheet is a [`Section`] of [`Block`]s; `flow` puts them on pages without splitting a block.
//! Sheets read the checked plan and draw; lengths print by the named roundings of `measure`.

mod block;
pub(super) mod buy;
pub(super) mod cope;
pub(super) mod cover;
pub(super) mod cut;
pub(super) mod desk;
pub mod elevation;
mod flow;
pub(super) mod gate;
mod grid;
pub(super) mod kit;
mod labels;
mod set;
mod size;
pub(super) mod splice;
pub(super) mod table;
mod tags;
pub(super) mod verdict;
mod wrap;

pub use block::{Block, TICK};
pub use flow::{Furniture, Laid, Piece, Section, bind};
pub use set::{elevations, pages, set};
pub use size::{POINTS_PER_MM, Paper};
