//! `Entry`: one thing told, as it stays for good.

use std::fmt;

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use super::Told;

/// Version of the entries' form. Older forms stay readable; a newer one is refused by name.
pub const FORM: u32 = 1;

/// A name made by whoever tells it, so that telling twice changes nothing.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct EntryId(pub String);

impl fmt::Display for EntryId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

/// One thing told.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Entry {
    /// Version of this form.
    pub form: u32,
    /// Its name.
    pub id: EntryId,
    /// When it was told, by the clock of whoever told it; the order is the yard's own.
    pub at: Timestamp,
    /// Who told it.
    pub who: String,
    /// Week it speaks of: the folder's name.
    pub week: String,
    /// Plan number it speaks of, where a plan was issued.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub plan: Option<String>,
    /// Revision on the sheet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub revision: Option<u32>,
    /// A note; may be empty.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// What was told.
    pub told: Told,
}

impl Entry {
    /// The entry as one line of JSON, without its line break.
    ///
    /// # Errors
    /// When a figure cannot be written as JSON, which no entry holds.
    pub fn to_line(&self) -> Result<String, serde_json::Error> {
        serde_json::to_string(self)
    }

    /// Reads a line.
    ///
    /// # Errors
    /// What is wrong with it, in words.
    pub fn from_line(line: &str) -> Result<Entry, String> {
        #[derive(Deserialize)]
        struct Opening {
            form: u32,
        }
        // The common case first: the opening is read by itself only to say what is wrong.
        match serde_json::from_str::<Entry>(line) {
            Ok(entry) if entry.form <= FORM => return Ok(entry),
            Ok(_) => {}
            Err(wrong) => match serde_json::from_str::<Opening>(line) {
                Ok(opening) if opening.form > FORM => {}
                _ => return Err(format!("it is no entry of this form: {wrong}")),
            },
        }
        Err(format!(
            "it is of a newer form than {FORM}: a newer longpoint wrote it"
        ))
    }

    /// Whether two tellings under one id say the same; the clock may have gone on between them.
    pub fn says_the_same(&self, other: &Entry) -> bool {
        let plain = |e: &Entry| Entry {
            at: Timestamp::UNIX_EPOCH,
            ..e.clone()
        };
        plain(self) == plain(other)
    }
}
