//! `Stand`: where everything is, after the entries told so far.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{Account, Accounts, Entry, Remnant, WeekStand};
use crate::measure::Length;
use crate::order::{PipeKey, RemnantId};

/// One pipe.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct PipeStand {
    /// Trade name, as the last plan wrote it.
    pub name: String,
    /// Balances.
    pub accounts: Accounts,
}

/// An entry that waits for an answer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Question {
    /// Its number in the yard.
    pub number: u64,
    /// The entry.
    pub entry: Entry,
    /// What does not agree.
    pub what: String,
    /// What is missing.
    pub mend: String,
}

/// Where everything is.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Stand {
    /// Entries told, those undone and held among them.
    pub told: u64,
    /// Pipes.
    pub pipes: BTreeMap<PipeKey, PipeStand>,
    /// Weeks by folder name.
    pub weeks: BTreeMap<String, WeekStand>,
    /// The rack.
    #[serde(with = "super::pairs")]
    pub rack: BTreeMap<RemnantId, Remnant>,
    /// Entries held as questions, in order.
    pub questions: Vec<Question>,
}

impl Stand {
    /// Moves pipe between two accounts.
    pub(super) fn shift(&mut self, pipe: &PipeKey, from: Account, to: Account, length: Length) {
        if length != Length::ZERO {
            // Every caller moves pipe that the stand knows.
            if let Some(stand) = self.pipes.get_mut(pipe) {
                stand.accounts.shift(from, to, length);
            }
        }
    }

    /// Tags that lie under this painted tag.
    pub fn tagged(&self, tag: &str) -> Vec<&RemnantId> {
        let lie = self.rack.iter().filter(|(_, r)| r.count > 0);
        lie.filter(|(id, _)| id.tag.eq_ignore_ascii_case(tag))
            .map(|(id, _)| id)
            .collect()
    }
}
