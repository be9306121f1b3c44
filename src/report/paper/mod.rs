//! The sheets drawn: what the floor works from, as one PDF set per week, and elevations as SVG.
//!
//! Each sheet is a [`Section`] of [`Block`]s; `flow` puts them on pages without splitting a block.
//! Sheets read the checked plan and draw; lengths print by the named roundings of `measure`.

mod block;
mod buy;
mod cope;
mod cover;
mod cut;
mod desk;
pub mod elevation;
mod flow;
mod gate;
mod grid;
mod kit;
mod labels;
mod set;
mod size;
mod splice;
mod table;
mod tags;
mod verdict;
mod wrap;

pub use block::{Block, TICK};
pub use flow::{Furniture, Piece, Section, bind, page_counts};
pub use set::{elevations, pages, set};
pub use size::{POINTS_PER_MM, Paper};
