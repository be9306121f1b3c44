//! Pipe on pipe: setback curve, long point, throat, cutback, wrap template.
//!
//! Pure geometry in `f64` (any one unit of length; the program uses ticks), angles in radians.
//! Knows nothing of gates. Source of the setback formula: the elevation of the curve is the
//! equilateral hyperbola z² − x² = R² − r² (D. Marin, *The intersection of cylindrical surfaces*);
//! parallel-line development as in sheet-metal drafting texts.
//!
//! How extremes are found (no sampling): between its turning lines, which are known in closed form
//! (a quartic when the axes are offset), each main's curve only rises or only falls. So between two
//! neighbouring turning lines of all mains the largest of the rising curves rises, the largest of
//! the falling ones falls, and their one crossing is the sharp tip of a corner.

mod curve;
mod end;
mod extremes;
mod roots;
mod same;
mod template;

pub use curve::setback;
pub use end::{Branch, CopeFault, EndCut, Main, Method};
pub use extremes::end_cut;
pub use same::same_profile;
pub use template::{Ordinate, Template, wrap_template};
