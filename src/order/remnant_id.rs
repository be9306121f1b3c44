//! `RemnantId`: the name of a measured piece on the rack.

use std::fmt;

use serde::{Deserialize, Serialize};

/// A tag as painted, and the week that painted it. Every plan begins its tags at K1, so two weeks may
/// paint the same one; the week keeps them apart.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RemnantId {
    /// Week folder's name.
    pub week: String,
    /// Tag.
    pub tag: String,
}

impl fmt::Display for RemnantId {
    /// `week-1/K3`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&format!("{}/{}", self.week, self.tag))
    }
}
