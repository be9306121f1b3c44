//! Issued plans: the document whole, and the files it was made from.

use rusqlite::{Connection, OptionalExtension, params};

use super::pack::{pack, unpack};
use super::{Store, StoreFault};
use crate::yard::EntryId;

/// A file that a plan was made from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlanFile {
    /// Name.
    pub name: String,
    /// Bytes.
    pub bytes: Vec<u8>,
}

/// An issued plan as it was.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StoredPlan {
    /// plan.json.
    pub document: String,
    /// Files, by name.
    pub files: Vec<PlanFile>,
}

/// Writes a plan beside its entry, in the same transaction.
pub(super) fn write(
    connection: &Connection,
    entry: &EntryId,
    document: &str,
    files: &[PlanFile],
) -> rusqlite::Result<()> {
    connection.execute(
        "INSERT INTO plans VALUES (?1, ?2)",
        params![entry.0, pack(document.as_bytes())],
    )?;
    for file in files {
        connection.execute(
            "INSERT INTO files VALUES (?1, ?2, ?3)",
            params![entry.0, file.name, pack(&file.bytes)],
        )?;
    }
    Ok(())
}

impl Store {
    /// The plan that an entry issued.
    ///
    /// # Errors
    /// It cannot be read.
    pub fn plan(&self, entry: &EntryId) -> Result<Option<StoredPlan>, StoreFault> {
        let open = |packed: Vec<u8>| {
            unpack(&packed).map_err(|why| StoreFault::Unfit(self.path.clone(), why))
        };
        let question = "SELECT document FROM plans WHERE entry = ?1";
        let document: Option<Vec<u8>> = self
            .connection
            .query_row(question, [&entry.0], |row| row.get(0))
            .optional()
            .map_err(|e| self.fault(&e))?;
        let Some(document) = document else {
            return Ok(None);
        };
        let document = String::from_utf8(open(document)?)
            .map_err(|e| StoreFault::Unfit(self.path.clone(), e.to_string()))?;
        let read = || -> rusqlite::Result<Vec<(String, Vec<u8>)>> {
            let question = "SELECT name, bytes FROM files WHERE entry = ?1 ORDER BY name";
            let mut statement = self.connection.prepare(question)?;
            let rows = statement.query_map([&entry.0], |row| Ok((row.get(0)?, row.get(1)?)))?;
            rows.collect()
        };
        let mut files = Vec::new();
        for (name, packed) in read().map_err(|e| self.fault(&e))? {
            let bytes = open(packed)?;
            files.push(PlanFile { name, bytes });
        }
        Ok(Some(StoredPlan { document, files }))
    }
}
