//! `Facing`: a gate and its mirror image are computed as one and the same model, so a mirrored gate
//! gives mirrored results bit for bit.
//!
//! A band factored from the other end rounds differently. So every gate is turned, end for end, the
//! way whose diagonals lean (as seen from the horizontal that carries) toward the tail, and what was
//! found is turned back. A gate and the same gate upside down are turned alike. Places are first put
//! on a grid of 2⁻²⁰ in: there leaf − x is exact, and turning twice gives x again.

use super::{Lift, Model};
use crate::order::{Carrier, Lean};

/// Steps in an inch: 2²⁰, about a millionth each; far under any saw's care.
const STEPS: f64 = 1_048_576.0;

/// The model as computed, and whether it stands end for end.
#[derive(Clone, Debug)]
pub(super) struct Facing {
    pub model: Model,
    pub turned: bool,
}

impl Facing {
    /// Of a model. One with a nose load has no mirror image among the models and is never turned.
    pub fn of(model: &Model) -> Facing {
        let grid = |x: f64| (x * STEPS).round() / STEPS;
        let model = Model {
            lines: model.lines.iter().map(|x| grid(*x)).collect(),
            front_open: grid(model.front_open),
            front_closed: grid(model.front_closed),
            spacing: grid(model.spacing),
            ..model.clone()
        };
        let away = match model.carrier {
            Carrier::Bottom | Carrier::Both => Lean::HeadToLatch,
            Carrier::Top => Lean::HeadToTail,
        };
        let turned = model.lean == away && model.nose_load == 0.0;
        Facing {
            model: if turned { mirrored(&model) } else { model },
            turned,
        }
    }

    /// Front roller's place in the computed model, gate closed.
    pub fn closed(&self) -> f64 {
        if self.turned {
            self.model.front_open
        } else {
            self.model.front_closed
        }
    }

    /// The same, gate open.
    pub fn open(&self) -> f64 {
        if self.turned {
            self.model.front_closed
        } else {
            self.model.front_open
        }
    }

    /// x of the gate's latch end in the computed model, and of its tail end.
    pub fn ends(&self) -> [f64; 2] {
        [self.back(0.0), self.back(self.model.leaf())]
    }

    /// x of the computed model as the gate's, or the reverse.
    pub fn back(&self, x: f64) -> f64 {
        if self.turned {
            self.model.leaf() - x
        } else {
            x
        }
    }

    /// Lifts as the gate's: front roller's first.
    pub fn lifts(&self, found: &[Lift]) -> Vec<Lift> {
        let (front, rear) = found.split_at(found.len() / 2);
        let posts = if self.turned {
            [rear, front]
        } else {
            [front, rear]
        };
        let all = posts.into_iter().flatten();
        all.map(|lift| Lift {
            x: self.back(lift.x),
            ..*lift
        })
        .collect()
    }
}

/// End for end: what was latch is tail, closed is open.
fn mirrored(model: &Model) -> Model {
    let leaf = model.leaf();
    Model {
        lines: model.lines.iter().rev().map(|x| leaf - x).collect(),
        posts: [model.posts[1], model.posts[0]],
        lean: match model.lean {
            Lean::HeadToTail => Lean::HeadToLatch,
            Lean::HeadToLatch => Lean::HeadToTail,
        },
        front_open: leaf - model.front_closed - model.spacing,
        front_closed: leaf - model.front_open - model.spacing,
        ..model.clone()
    }
}
