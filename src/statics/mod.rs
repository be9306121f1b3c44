//! `Frame` → how hard each horizontal works as the gate rolls: a plane frame, and its travel envelope.
//!
//! # The model
//!
//! Inches, pounds-force, psi. x = 0 at the latch end post's axis, y = 0 at the bottom horizontal's
//! axis. Euler–Bernoulli members of the pipes' A and I along centre lines; linear, no shear
//! deformation, no second-order effect. Both horizontals run through. An upright at every bay line,
//! a diagonal in every bay. Verticals, end posts and diagonals are welded rigidly (or pinned at both
//! ends). A diagonal ends on the bay lines' nodes, or with a landing offset that far inside its bay.
//!
//! Loads: on each horizontal load factor × (pipe weight + fabric weight × half the height); on every
//! other member load factor × its own weight, straight down along its centre line. A nose load on
//! the latch end's top node, not factored. No deduction at joints, no welds, no hardware.
//!
//! Rollers: front one at xA, rear one at xA + s. Two reactions follow from equilibrium:
//! `RB = W (x_cg − xA) / s`, `RA = W − RB`. Carried on the bottom: where R ≥ 0 the bottom horizontal
//! is held there, where R < 0 the top one. Hung from the top: the reverse. Both held: both
//! horizontals are held at both roller supports.
//!
//! Signs: N tension +; M sagging + on horizontals; V + when it pushes the right-hand part up at its
//! left end; rise + up.
//!
//! Stress |N|/A + |M|/S at 21 stations a bay, the highest over every xA of the travel that puts a
//! roller on a station, and both ends. It ranks places for a splice under self weight. It is no
//! design check.
//!
//! # How it is computed
//!
//! ```text
//! model      Week, Frame → Model (inches)          skeleton   Model → nodes, bars
//! bar        stiffness, fixed ends                 structure  bars → band → banded LDLᵀ
//! rig        factored once + unit lifts            reaction   where and how hard the rollers push
//! facing     a gate and its mirror image as one model, so that both agree bit for bit
//! pose       one place of the rollers              travel, envelope   all of them
//! ```

mod banded;
mod bar;
mod envelope;
mod envelopes;
mod facing;
mod gate_model;
mod model;
mod pose;
mod reaction;
mod rig;
mod section;
mod skeleton;
mod strength;
mod structure;
mod travel;

pub use bar::{Bar, Inner, Node};
pub use envelope::{Envelope, Worst, envelope};
pub use envelopes::Envelopes;
pub use gate_model::model;
pub use model::{Model, STEEL_ELASTICITY, STEEL_WEIGHT, StaticsFault, WebEnds};
pub use pose::{Pose, Side};
pub use rig::{Lift, Rig};
pub use section::Section;
pub use skeleton::Line;
pub use strength::{PSI_PER_MPA, engineer, share_of_yield, stress_notices};
pub use structure::{Solver, Structure};
pub use travel::{PARTS, travel};
