//! `Names`: every supplier by one spelling, whichever rows and files name him.

use crate::measure::FaultCode;
use std::collections::BTreeMap;

use super::faults::{Faults, Spot};
use super::spelling::{folded, look};

/// Names met so far.
#[derive(Debug, Default)]
pub(super) struct Names {
    /// By what all spellings of a name share.
    seen: BTreeMap<String, Seen>,
    /// By how a name looks: the first name of that look.
    looks: BTreeMap<String, String>,
}

#[derive(Debug)]
struct Seen {
    name: String,
    spot: Spot,
    /// Other spellings that were told of.
    told: Vec<String>,
}

impl Names {
    /// The spelling that a name first had; another one is said once, and a name that only looks like another is a
    /// fault.
    pub fn settle(&mut self, name: String, spot: &Spot, faults: &mut Faults) -> String {
        let key = folded(&name);
        if let Some(seen) = self.seen.get_mut(&key) {
            if seen.name != name && !seen.told.contains(&name) {
                let first = seen.spot.origin().words();
                faults.note(
                    FaultCode::NamesAlike, spot,
                    &format!(
                        "it is taken as \"{}\" of {first}: upper and lower case and spaces make no other supplier",
                        seen.name
                    ),
                    "nothing; or spell it alike everywhere",
                );
                seen.told.push(name);
            }
            return seen.name.clone();
        }
        match self.looks.get(&look(&name)).cloned() {
            Some(other) if !(name.is_ascii() && other.is_ascii()) => {
                let first = self
                    .seen
                    .get(&folded(&other))
                    .map(|s| s.spot.origin().words());
                faults.error(
                    FaultCode::NamesAlike,
                    spot,
                    &format!(
                        "it looks like \"{other}\" of {}, in other letters",
                        first.unwrap_or_default()
                    ),
                    "type it again by hand, in the letters of the other",
                );
                return other;
            }
            Some(_) => {}
            None => {
                self.looks.insert(look(&name), name.clone());
            }
        }
        let seen = Seen {
            name: name.clone(),
            spot: spot.clone(),
            told: Vec::new(),
        };
        self.seen.insert(key, seen);
        name
    }

    /// Whether some row has named him.
    pub fn knows(&self, name: &str) -> bool {
        self.seen.contains_key(&folded(name))
    }

    /// Where a name first stands.
    pub fn spot(&self, name: &str) -> Option<&Spot> {
        self.seen.get(&folded(name)).map(|s| &s.spot)
    }
}
