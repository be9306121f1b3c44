//! The same week under other stock, prices and rules, beside a named reference.
//!
//! A [`Variant`] changes a copy of the week; each [`Row`] is a whole run of the ordinary rooms
//! (take-off, plan, check) on the changed week, so only checked plans count. Rows run in parallel
//! and stand in the order of the variants: the same answer for any number of threads.

mod break_even;
mod figures;
mod offer;
mod reprice;
mod row;
mod shelf;
mod stages;
mod table;
mod turns;
mod variant;
mod variants;
mod weeks;

pub use break_even::{BreakEven, Question, Turn};
pub use figures::{Figures, MoneySplit};
pub use offer::{Offer, joint_words};
pub use row::{How, Outcome, Row, run};
pub use shelf::Shelf;
pub use table::{Comparison, NoSuch, Wishes, compare};
pub use turns::Sweep;
pub use variant::{Change, Variant};
pub use variants::variants;
pub use weeks::{Tally, Total, tally};
