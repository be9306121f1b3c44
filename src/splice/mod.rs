//! Rules + envelope → slots on each horizontal where a splice may stand, with zone and charge.

mod window;

pub use window::{ReachForm, SpliceLine, SpliceSet, Window, WindowClass};
