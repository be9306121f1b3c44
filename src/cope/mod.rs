//! Pipe on pipe: setback curve, long point, throat, cutback, wrap template.
//!
//! Pure geometry in `f64` (any one unit of length; the program uses ticks), angles in radians.
//! Knows nothing of gates. Source of the setback formula: the elevation of the curve is the
//! equilateral hyperbola z² − x² = R² − r² (D. Marin, *The intersection of cylindrical surfaces*);
//! parallel-line development as in sheet-metal drafting texts.

mod end;

pub use end::{Branch, CopeFault, EndCut, Main, Method};
