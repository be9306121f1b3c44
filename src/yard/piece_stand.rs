//! `PieceStand`: one piece that a week wants: missing, or made.

use serde::{Deserialize, Serialize};

use crate::measure::Length;
use crate::order::PipeKey;

/// Whether a piece is there.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PieceState {
    /// It is not.
    Missing,
    /// It is cut.
    Made {
        /// As measured, else its saw length.
        length: Length,
        /// Joint it was cut from.
        joint: u32,
        /// Measured off by more than the tolerance and not accepted: it does not count as its part.
        doubt: bool,
        /// Its ends are coped.
        coped: bool,
    },
}

/// A piece.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PieceStand {
    /// Mark painted on it.
    pub mark: String,
    /// Pipe.
    pub pipe: PipeKey,
    /// Order mark of its gate; `None`: an extra part.
    pub gate: Option<String>,
    /// Saw length.
    pub saw: Length,
    /// Ends to cope.
    pub copes: u32,
    /// Whether it is there.
    pub state: PieceState,
    /// How often it was spoiled.
    pub spoiled: u32,
    /// A plan handed out still wants it.
    pub wanted: bool,
}

impl PieceStand {
    /// It is there and counts as its part.
    pub fn counts(&self) -> bool {
        matches!(self.state, PieceState::Made { doubt: false, .. })
    }

    /// It is there, whatever it counts as.
    pub fn made(&self) -> bool {
        matches!(self.state, PieceState::Made { .. })
    }

    /// Its ends are coped, or want none.
    pub fn coped(&self) -> bool {
        match self.state {
            PieceState::Made { coped, .. } => coped || self.copes == 0,
            PieceState::Missing => false,
        }
    }
}
