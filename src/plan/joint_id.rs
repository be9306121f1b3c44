//! `JointId` and `LineId`: numbers on paper, and whose they are.

use std::fmt;

use serde::{Deserialize, Serialize};

/// A joint by its number. Within a week a number means one content for all time, over every revision
/// of the plan; hence the week, not the plan number, stands beside it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct JointId {
    /// Week folder's name.
    pub week: String,
    /// Number on the cut sheet.
    pub number: u32,
}

/// A line of what a week buys, by its number over all the plan's orders.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LineId {
    /// Week folder's name.
    pub week: String,
    /// Number of the line, 1...
    pub number: u32,
}

impl fmt::Display for JointId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&format!("joint {} of {}", self.number, self.week))
    }
}

impl fmt::Display for LineId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&format!("line {} of {}", self.number, self.week))
    }
}
