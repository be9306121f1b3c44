//! Which part of which gate, which joint, which cut; what is bought, kept, welded; sequence; Status.
//!
//! A [`Plan`] is data: it is made here ([`make`]), re-derived and judged by `check`, and printed
//! only as a `CheckedPlan`.

mod advise;
mod buy;
mod clock;
mod day;
mod down_the_list;
mod due_order;
mod earn;
mod fee;
mod floor;
mod gap;
mod gate_cost;
mod joint_id;
mod keep_notice;
mod kit;
mod kit_joints;
mod lay;
mod ledger;
mod make;
mod number;
mod offered;
mod outcome;
mod owner;
#[allow(clippy::module_inception)]
mod plan;
mod pooled;
mod problem;
#[cfg(test)]
mod refused_tests;
mod rewrite;
mod search;
mod sequence;
mod short;
mod slide;
mod slide_yard;
mod still;
#[cfg(test)]
mod stopped_tests;
mod tail;
#[cfg(test)]
mod tests;
mod too_long;
mod uncut;
mod welded;

pub use day::{SawDay, saw_days};
pub use due_order::{Buildable, PassedOver, Unit, in_due_order};
pub(crate) use fee::fees;
pub use fee::{Fee, FeeKind};
pub use gap::{Gap, gap_of_whole};
pub use gate_cost::{GateCost, settled_splices};
pub use joint_id::{JointId, LineId};
pub use keep_notice::keep_notices;
pub use kit::{KitAdvice, KitJoint, KitOption};
pub use ledger::Ledger;
pub use make::{PlanOptions, make};
pub(crate) use number::number as plan_number;
pub use offered::Offered;
pub use plan::{
    Bought, GateDone, JointSource, Kept, Minutes, NestWork, PieceCut, PipeOutcome, Plan,
    PlannedJoint, Reference, Sitting, Spare, Splice, SplicedLine, Waste,
};
pub use tail::TailJoint;
pub use uncut::Uncut;
