//! `Store`: the open database.

use std::path::{Path, PathBuf};
use std::thread::sleep;
use std::time::{Duration, Instant};

use rusqlite::{Connection, OpenFlags};

use super::StoreFault;
use super::lock::{Lock, Locked, lock};
use super::schema::{APPLICATION, SETTINGS, TABLES, VERSION};

/// Its name in a shop folder.
pub const DATABASE: &str = "yard.db";

/// Longest wait for another writer.
pub(super) const PATIENCE: Duration = Duration::from_secs(5);
/// Between two tries.
const PAUSE: Duration = Duration::from_millis(50);

/// The yard's database.
#[derive(Debug)]
pub struct Store {
    pub(super) connection: Connection,
    pub(super) path: PathBuf,
    lock: Option<Lock>,
    only_read: Option<String>,
}

impl Store {
    /// Opens the yard of a shop to be written; makes it where there is none. `me` says who writes: host,
    /// process, since.
    ///
    /// A database that is newer or damaged, or that lies where locks do not work, is opened to be read alone;
    /// [`Store::only_read`] says why.
    ///
    /// # Errors
    /// Another process writes, it is no yard, or the disk refuses.
    pub fn to_write(shop: &Path, me: &str) -> Result<Store, StoreFault> {
        let path = shop.join(DATABASE);
        let started = Instant::now();
        let (lock, unclean) = loop {
            match lock(&path, me)? {
                Locked::Ours { lock, unclean } => break (lock, unclean),
                Locked::Theirs(who) if started.elapsed() >= PATIENCE => {
                    return Err(StoreFault::Busy(format!(
                        "{} is being written by {who}; nothing was written, try again when it is done",
                        path.display()
                    )));
                }
                Locked::Theirs(_) => sleep(PAUSE),
                Locked::Nowhere(why) => {
                    return Store::read_because(
                        path,
                        format!("the folder it lies in knows no locks ({why})"),
                    );
                }
            }
        };
        let connection = Connection::open(&path).map_err(|e| StoreFault::of(&path, &e))?;
        let mut store = Store {
            connection,
            path: path.clone(),
            lock: Some(lock),
            only_read: None,
        };
        store.prepare()?;
        let found = store.found()?;
        if found == (0, 0) && store.empty()? {
            store.make()?;
        }
        match store.unfit(unclean)? {
            None => Ok(store),
            Some(why) => {
                drop(store);
                Store::read_because(path, why)
            }
        }
    }

    /// Opens the yard of a shop to be read; `None` where there is none.
    ///
    /// # Errors
    /// It is no yard, or the disk refuses.
    pub fn to_read(shop: &Path) -> Result<Option<Store>, StoreFault> {
        let path = shop.join(DATABASE);
        if !path.exists() {
            return Ok(None);
        }
        roll_back(&path);
        let store = Store::reading(path)?;
        // Made and not yet filled: nothing was told.
        if store.found()? == (0, 0) && store.empty()? {
            return Ok(None);
        }
        Ok(Some(store))
    }

    /// Why it may only be read; `None`: it may be written.
    pub fn only_read(&self) -> Option<&str> {
        self.only_read.as_deref()
    }

    /// Where it lies.
    pub fn path(&self) -> &Path {
        &self.path
    }

    fn read_because(path: PathBuf, why: String) -> Result<Store, StoreFault> {
        let mut store = Store::reading(path)?;
        store.only_read = Some(format!(
            "{} is opened to be read only: {why}",
            store.path.display()
        ));
        Ok(store)
    }

    fn reading(path: PathBuf) -> Result<Store, StoreFault> {
        let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let connection =
            Connection::open_with_flags(&path, flags).map_err(|e| StoreFault::of(&path, &e))?;
        let mut store = Store {
            connection,
            lock: None,
            only_read: None,
            path,
        };
        store.settle_reading()?;
        let why = store.strange()?;
        if let Some(why) = why {
            return Err(StoreFault::Unfit(store.path, why));
        }
        store.only_read = Some(format!("{} is opened to be read", store.path.display()));
        Ok(store)
    }

    fn settle_reading(&self) -> Result<(), StoreFault> {
        let set = self.connection.busy_timeout(PATIENCE);
        let set = set.and_then(|()| {
            self.connection
                .execute_batch("PRAGMA query_only = ON; PRAGMA trusted_schema = OFF;")
        });
        set.map_err(|e| self.fault(&e))
    }

    fn prepare(&mut self) -> Result<(), StoreFault> {
        let set = self.connection.busy_timeout(PATIENCE);
        let set = set.and_then(|()| self.connection.execute_batch(SETTINGS));
        set.map_err(|e| self.fault(&e))
    }

    pub(super) fn fault(&self, error: &rusqlite::Error) -> StoreFault {
        StoreFault::of(&self.path, error)
    }

    fn number(&self, question: &str) -> Result<i64, StoreFault> {
        let answer = self.connection.query_row(question, [], |row| row.get(0));
        answer.map_err(|e| self.fault(&e))
    }

    /// `application_id` and `user_version`.
    fn found(&self) -> Result<(i64, i64), StoreFault> {
        let application = self.number("PRAGMA application_id")?;
        Ok((application, self.number("PRAGMA user_version")?))
    }

    fn empty(&self) -> Result<bool, StoreFault> {
        Ok(self.number("SELECT COUNT(*) FROM sqlite_schema")? == 0)
    }

    /// Tables and marks in one transaction.
    fn make(&mut self) -> Result<(), StoreFault> {
        let batch = format!(
            "BEGIN IMMEDIATE;{TABLES}PRAGMA application_id = {APPLICATION};PRAGMA user_version = \
             {VERSION};COMMIT;"
        );
        let made = self.connection.execute_batch(&batch);
        made.map_err(|e| self.fault(&e))
    }

    /// What makes it no yard that can be read at all.
    fn strange(&self) -> Result<Option<String>, StoreFault> {
        let (application, version) = self.found()?;
        if (application, version) == (0, 0) && self.empty()? {
            return Ok(None);
        }
        Ok((application != APPLICATION).then(|| "it is no yard of longpoint's".to_owned()))
    }

    /// Why it must not be written; an error where it is no yard at all.
    fn unfit(&self, unclean: bool) -> Result<Option<String>, StoreFault> {
        if let Some(why) = self.strange()? {
            return Err(StoreFault::Unfit(self.path.clone(), why));
        }
        let (_, version) = self.found()?;
        if version > VERSION {
            return Ok(Some(format!(
                "a newer longpoint made it (form {version}, this one knows {VERSION})"
            )));
        }
        if unclean {
            let check = self
                .connection
                .query_row("PRAGMA quick_check(1)", [], |row| row.get::<_, String>(0));
            match check {
                Ok(answer) if answer == "ok" => {}
                Ok(answer) => return Ok(Some(format!("it is damaged: {answer}"))),
                Err(e) => return Ok(Some(format!("it is damaged: {e}"))),
            }
        }
        Ok(None)
    }

    /// Refuses where it may only be read.
    pub(super) fn writable(&self) -> Result<(), StoreFault> {
        match (&self.only_read, &self.lock) {
            (Some(why), _) => Err(StoreFault::ReadOnly(why.clone())),
            (None, Some(_)) => Ok(()),
            (None, None) => Err(StoreFault::ReadOnly("it is opened to be read".to_owned())),
        }
    }
}

/// A write that was cut off leaves its journal; whoever may only read could not roll it back, so that is done by
/// a connection that may write, before. Where it cannot be, SQLite refuses the reading and says so.
fn roll_back(path: &Path) {
    let mut journal = path.as_os_str().to_owned();
    journal.push("-journal");
    if !Path::new(&journal).exists() {
        return;
    }
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    if let Ok(connection) = Connection::open_with_flags(path, flags) {
        let _ = connection.busy_timeout(PATIENCE);
        let _ = connection.query_row("SELECT COUNT(*) FROM sqlite_schema", [], |_| Ok(()));
    }
}
