//! `GateOrder` → `Frame`: centre lines, bays, nodes, joints (which pipe runs through, which is coped).
//!
//! Coordinates, in ticks as `f64`: **x** from the outside face of the latch end's post toward the
//! tail; **y** up from the bottom horizontal's axis.

mod frame;

pub use frame::{Bay, End, Frame, Meeting, Member, Point, Role, Rollers, Sway};
