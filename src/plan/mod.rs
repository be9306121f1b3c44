//! Which part of which gate, which joint, which cut; what is bought, kept, welded; sequence; Status.
//!
//! A [`Plan`] is data: it is made here, re-derived and judged by `check`, and printed only as a
//! `CheckedPlan`.

mod kit;
#[allow(clippy::module_inception)]
mod plan;

pub use kit::{KitAdvice, KitJoint, KitOption};
pub use plan::{
    Bought, GateDone, JointSource, Kept, Minutes, NestWork, PieceCut, PipeOutcome, Plan,
    PlannedJoint, Reference, Sitting, Spare, Splice, SplicedLine, Waste,
};
