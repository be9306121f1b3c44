//! `PieceId`: the name of one piece of one gate, whatever run speaks of it.

use std::fmt;

use serde::{Deserialize, Serialize};

/// One piece: of which part, for which copy of the gate, which of the like ones in it, and which
/// piece of a spliced line.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PieceId {
    /// The part's mark (`A1-HB`).
    pub mark: String,
    /// Copy of the gate, 1..count; 0 for an extra part.
    pub copy: u32,
    /// Which of the gate's pieces of this part, 1...
    pub serial: u32,
    /// Piece of a spliced line from the latch end, 1..; `None` when cut whole.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub piece: Option<u32>,
}

impl fmt::Display for PieceId {
    /// `A1-HB copy 2 no. 1 piece 2`; the mark painted on it is the plan's to say.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut words = self.mark.clone();
        if self.copy > 0 {
            words.push_str(&format!(" copy {}", self.copy));
        }
        words.push_str(&format!(" no. {}", self.serial));
        if let Some(piece) = self.piece {
            words.push_str(&format!(" piece {piece}"));
        }
        f.pad(&words)
    }
}
