//! What was told, and where everything is: entries → [`Stand`]; pure, no files, no clock.
//!
//! ```text
//! Entry (one thing told) → Stand::apply → moves between accounts, states of joints, pieces, lines, gates
//!        ↑ read_plan: plan.json → IssuedPlan, what an `issued` entry carries
//! Desk: history + stand + one entry → taken, held as a question, refused by name
//! ```
//!
//! The stand is derived and never stored: the same entries in the same order give the same stand.
//! Nothing told is changed or deleted; a mistake is undone by a new entry, and the stand is then what
//! the other entries alone come to. Every length moves from one [`Account`] to another, so each entry
//! sums to zero by construction; [`breaches`] asks, by other means, that what lies agrees with the
//! accounts, that no account is below zero, and that every joint adds up.

mod account;
mod apply;
mod conserve;
mod desk;
mod entry;
mod gate_stand;
mod issued;
mod joint_stand;
mod line_stand;
mod pairs;
mod piece_stand;
mod read_plan;
mod remnant;
mod stand;
mod told;
mod told_buying;
mod trouble;
mod week_stand;

pub use account::{Account, Accounts};
pub use conserve::{Breach, breaches};
pub use desk::{Desk, History, Verdict, undone_by};
pub use entry::{Entry, EntryId, FORM};
pub use gate_stand::{CopyStand, GateStand};
pub use issued::{
    IssuedGate, IssuedJoint, IssuedLine, IssuedPiece, IssuedPipe, IssuedPlan, IssuedRack,
    IssuedSource, IssuedSplices,
};
pub use joint_stand::{JointPiece, JointStand, Source, Tally};
pub use line_stand::LineStand;
pub use piece_stand::{PieceStand, PieceState};
pub use read_plan::read_plan;
pub use remnant::Remnant;
pub use stand::{PipeStand, Question, Stand};
pub use told::{
    Accepted, Changed, ChangedRow, Coped, Counted, CountedPiece, Cut, GateCopy, Lot, Measured,
    MeasuredWhat, Recut, Reserved, Scrapped, Spoiled, TagFrom, Tagged, Told, Undone, Welded,
    Withdrawn,
};
pub use told_buying::{
    Bent, Cancelled, Comes, Delivered, Ordered, OrderedLine, Promised, SentBack, Short,
};
pub use trouble::Trouble;
pub use week_stand::{WeekPlan, WeekStand};
