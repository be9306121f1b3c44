//! `GateOrder` → `Frame`: centre lines, bays, nodes, joints (which pipe runs through, which is coped).
//!
//! Coordinates, in ticks as `f64`: **x** from the outside face of the latch end's post toward the
//! tail; **y** up from the bottom horizontal's axis.
//!
//! [`build`] judges everything that can be wrong with one gate's geometry and says what would free
//! it; [`lay_out`] only draws, from bay lines as given. Uses `cope` for pure geometry (does a
//! diagonal's corner differ from its neighbour's, is there pipe left between two copes).

mod build;
mod diagonals;
mod frame;
mod lay_out;
mod layout;
mod limits;
mod members;
mod remedy;
mod short_standoff;
mod sway;
mod trouble;
mod words;

pub use build::build;
pub use frame::{Bay, End, Frame, Meeting, Member, Point, Role, Rollers, Sway};
pub use lay_out::{bay_lines_of_equal_bays, branch_of, lay_out, mains_of, method_of};
pub use limits::strictly_under;
pub use short_standoff::standoff_notices;
