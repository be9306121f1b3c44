//! Entries in the database: appended, read, never changed.

use rusqlite::{OptionalExtension, TransactionBehavior, params};

use super::pack::chain;
use super::plans::PlanFile;
use super::{Store, StoreFault};
use crate::yard::{Entry, EntryId, History, Told, Undone};

impl Store {
    /// Writes entries, all or none; an issued one brings its document and files.
    ///
    /// # Errors
    /// It may only be read, or the disk refuses; then nothing was written.
    pub fn append(
        &mut self,
        entries: &[Entry],
        issued: Option<(&str, &[PlanFile])>,
    ) -> Result<(), StoreFault> {
        self.writable()?;
        let path = self.path.clone();
        let fault = |e: &rusqlite::Error| StoreFault::of(&path, e);
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(|e| fault(&e))?;
        let (mut number, mut hash) = last(&transaction).map_err(|e| fault(&e))?;
        for entry in entries {
            number += 1;
            hash = insert(&transaction, number, hash, entry).map_err(|e| fault(&e))?;
            if let (Told::Issued(_), Some((document, files))) = (&entry.told, issued) {
                super::plans::write(&transaction, &entry.id, document, files)
                    .map_err(|e| fault(&e))?;
            }
        }
        transaction.commit().map_err(|e| fault(&e))
    }

    /// Number and hash of the last entry; zeros where there is none.
    ///
    /// # Errors
    /// It cannot be read.
    pub fn last(&self) -> Result<(u64, i64), StoreFault> {
        last(&self.connection).map_err(|e| self.fault(&e))
    }

    /// The id of the entry of that number.
    ///
    /// # Errors
    /// It cannot be read.
    pub fn numbered(&self, number: u64) -> Result<Option<EntryId>, StoreFault> {
        let number = i64::try_from(number).unwrap_or(i64::MAX);
        let question = "SELECT id FROM entries WHERE number = ?1";
        let found = self
            .connection
            .query_row(question, [number], |row| row.get(0).map(EntryId));
        found.optional().map_err(|e| self.fault(&e))
    }

    /// Every entry's line, in order.
    ///
    /// # Errors
    /// It cannot be read.
    pub fn lines(&self, take: &mut dyn FnMut(u64, &str)) -> Result<(), StoreFault> {
        let mut read = || -> rusqlite::Result<()> {
            let question = "SELECT number, line FROM entries ORDER BY number";
            let mut statement = self.connection.prepare(question)?;
            let mut rows = statement.query([])?;
            while let Some(row) = rows.next()? {
                let number: i64 = row.get(0)?;
                let line = row.get_ref(1)?.as_str()?;
                take(u64::try_from(number).unwrap_or(0), line);
            }
            Ok(())
        };
        read().map_err(|e| self.fault(&e))
    }
}

/// One more entry; hands back the chain's hash after it.
pub(super) fn insert(
    connection: &rusqlite::Connection,
    number: u64,
    before: i64,
    entry: &Entry,
) -> rusqlite::Result<i64> {
    let refused = |e: serde_json::Error| rusqlite::Error::ToSqlConversionFailure(Box::new(e));
    let line = entry.to_line().map_err(refused)?;
    let hash = chain(before, &line);
    let undoing = matches!(entry.told, Told::Undone(_));
    let number = i64::try_from(number).unwrap_or(i64::MAX);
    let row = params![number, entry.id.0, undoing, line, hash];
    connection
        .prepare_cached("INSERT INTO entries VALUES (?1, ?2, ?3, ?4, ?5)")?
        .execute(row)?;
    Ok(hash)
}

/// Number and hash of the last entry.
pub(super) fn last(connection: &rusqlite::Connection) -> rusqlite::Result<(u64, i64)> {
    let question = "SELECT number, hash FROM entries ORDER BY number DESC LIMIT 1";
    let found: Option<(i64, i64)> = connection
        .query_row(question, [], |row| Ok((row.get(0)?, row.get(1)?)))
        .optional()?;
    let (number, hash) = found.unwrap_or((0, 0));
    Ok((u64::try_from(number).unwrap_or(0), hash))
}

/// A line of the database as an entry.
fn entry(number: u64, line: &str) -> Result<Entry, String> {
    Entry::from_line(line).map_err(|why| format!("entry {number}: {why}"))
}

impl History for Store {
    fn each(&self, take: &mut dyn FnMut(u64, Entry)) -> Result<(), String> {
        let mut wrong = None;
        let read = self.lines(&mut |number, line| match entry(number, line) {
            Ok(entry) if wrong.is_none() => take(number, entry),
            Ok(_) => {}
            Err(why) => {
                wrong.get_or_insert(why);
            }
        });
        read.map_err(|e| e.to_string())?;
        wrong.map_or(Ok(()), Err)
    }

    fn find(&self, id: &EntryId) -> Result<Option<(u64, Entry)>, String> {
        let question = "SELECT number, line FROM entries WHERE id = ?1";
        let found: Option<(i64, String)> = self
            .connection
            .query_row(question, [&id.0], |row| Ok((row.get(0)?, row.get(1)?)))
            .optional()
            .map_err(|e| self.fault(&e).to_string())?;
        let Some((number, line)) = found else {
            return Ok(None);
        };
        let number = u64::try_from(number).unwrap_or(0);
        Ok(Some((number, entry(number, &line)?)))
    }

    fn undoings(&self) -> Result<Vec<(EntryId, Undone)>, String> {
        let read = || -> rusqlite::Result<Vec<(i64, String)>> {
            let question = "SELECT number, line FROM entries WHERE undoing = 1 ORDER BY number";
            let mut statement = self.connection.prepare(question)?;
            let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?;
            rows.collect()
        };
        let mut out = Vec::new();
        for (number, line) in read().map_err(|e| self.fault(&e).to_string())? {
            let entry = entry(u64::try_from(number).unwrap_or(0), &line)?;
            if let Told::Undone(undone) = entry.told {
                out.push((entry.id, undone));
            }
        }
        Ok(out)
    }

    fn told(&self) -> Result<u64, String> {
        Ok(self.last().map_err(|e| e.to_string())?.0)
    }
}
