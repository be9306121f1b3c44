//! The stand as it was after the last entry: it saves a fold, and may go at any time.

use rusqlite::{OptionalExtension, params};

use super::pack::{pack, unpack};
use super::{Store, StoreFault};
use crate::yard::{Desk, Stand};

/// From so many entries on a fold takes long enough to be saved.
const WORTH: u64 = 2_000;

/// What a stand means hangs on the program's version and on the form of entries.
const PROGRAM: &str = env!("CARGO_PKG_VERSION");

impl Store {
    /// The desk of this yard: by the kept stand where it is of the last entry, else by a fold.
    ///
    /// # Errors
    /// It cannot be read.
    pub fn desk(&self) -> Result<Desk<'_, Store>, String> {
        match self.kept() {
            Some(stand) => Desk::at(self, stand),
            None => Desk::open(self),
        }
    }

    /// The kept stand, where number, hash and program are those of now. Whatever is wrong with it, it is as if it
    /// were not there.
    fn kept(&self) -> Option<Stand> {
        let (number, hash) = self.last().ok()?;
        let question = "SELECT stand FROM cache WHERE number = ?1 AND hash = ?2 AND program = ?3";
        let key = params![i64::try_from(number).ok()?, hash, PROGRAM];
        let packed: Option<Vec<u8>> = self
            .connection
            .query_row(question, key, |row| row.get(0))
            .optional()
            .ok()?;
        let stand: Stand = serde_json::from_slice(&unpack(&packed?).ok()?).ok()?;
        (stand.told == number).then_some(stand)
    }

    /// Keeps the stand after the last entry, where that is worth it.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn keep(&mut self, stand: &Stand) -> Result<(), StoreFault> {
        let (number, hash) = self.last()?;
        if number < WORTH || stand.told != number || self.writable().is_err() {
            return Ok(());
        }
        let refused = |why: String| StoreFault::Refused(self.path.clone(), why);
        let json = serde_json::to_vec(stand).map_err(|e| refused(e.to_string()))?;
        let number = i64::try_from(number).map_err(|e| refused(e.to_string()))?;
        let row = params![number, hash, PROGRAM, pack(&json)];
        let written = self.connection.execute(
            "INSERT OR REPLACE INTO cache VALUES (1, ?1, ?2, ?3, ?4)",
            row,
        );
        written.map_err(|e| self.fault(&e)).map(|_| ())
    }
}
