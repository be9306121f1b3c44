//! `Frame` → parts with marks, lengths and clocking; identical parts grouped.

#[allow(clippy::module_inception)]
mod part;

pub use part::{Cope, CopeEnd, Part, TakeOff};
