//! `Frame` → parts with marks, lengths and clocking; identical parts grouped.

mod group;
mod measure_up;
#[allow(clippy::module_inception)]
mod part;
mod take_off;
mod weight;

pub use part::{Cope, CopeEnd, Part, TakeOff};
pub use take_off::{parts_of, take_off};
pub use weight::{GateWeight, gate_weight};
