//! `Envelopes`: the gates of a week, each different one computed once.

use std::sync::Arc;

use super::{Envelope, Model, StaticsFault, envelope, model};
use crate::gate::Frame;
use crate::order::Week;

/// What was computed so far. Two gates are equal when every figure of their models is.
#[derive(Clone, Debug, Default)]
pub struct Envelopes {
    seen: Vec<(Model, Result<Arc<Envelope>, StaticsFault>)>,
}

impl Envelopes {
    /// Nothing computed yet.
    pub fn new() -> Envelopes {
        Envelopes::default()
    }

    /// A model's envelope, computed at its first asking.
    pub fn of(&mut self, model: &Model) -> Result<Arc<Envelope>, StaticsFault> {
        if let Some((_, found)) = self.seen.iter().find(|(seen, _)| seen == model) {
            return found.clone();
        }
        let found = envelope(model).map(Arc::new);
        self.seen.push((model.clone(), found.clone()));
        found
    }

    /// A gate's envelope.
    pub fn of_gate(&mut self, week: &Week, frame: &Frame) -> Result<Arc<Envelope>, StaticsFault> {
        self.of(&model(week, frame))
    }

    /// How many different models were asked for.
    pub fn computed(&self) -> usize {
        self.seen.len()
    }
}
