//! Copies of the database.

use std::path::Path;

use rusqlite::{Connection, OpenFlags};

use super::open::PATIENCE;
use super::{Store, StoreFault};

impl Store {
    /// A copy that is whole, whatever happens meanwhile. The file must not be there.
    ///
    /// # Errors
    /// It is there, or the disk refuses.
    pub fn copy_to(&self, target: &Path) -> Result<(), StoreFault> {
        if target.exists() {
            let why = "a file of that name is there, and nothing is overwritten";
            return Err(StoreFault::Refused(target.to_owned(), why.to_owned()));
        }
        let Some(name) = target.to_str() else {
            let why = "its name cannot be written as text";
            return Err(StoreFault::Refused(target.to_owned(), why.to_owned()));
        };
        // A connection that may only read could not make the other file; SQLite's own locks keep this one whole.
        let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let copied = Connection::open_with_flags(&self.path, flags).and_then(|source| {
            source.busy_timeout(PATIENCE)?;
            source.execute("VACUUM INTO ?1", [name])
        });
        copied.map_err(|e| StoreFault::of(target, &e)).map(|_| ())
    }
}
