//! `StoreFault`: why the yard's database could not be read or written.

use std::fmt;
use std::path::{Path, PathBuf};

/// What stands in the way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum StoreFault {
    /// Another process writes: who, in words.
    Busy(String),
    /// It may only be read: why.
    ReadOnly(String),
    /// It is no yard, or of a newer longpoint, or damaged.
    Unfit(PathBuf, String),
    /// The disk or the database refused.
    Refused(PathBuf, String),
}

impl StoreFault {
    pub(super) fn of(path: &Path, error: &rusqlite::Error) -> StoreFault {
        use rusqlite::ErrorCode::{DatabaseBusy, DatabaseLocked, DiskFull, NotADatabase, ReadOnly};
        match error.sqlite_error_code() {
            Some(DatabaseBusy | DatabaseLocked) => StoreFault::Busy(format!(
                "{} is being written by another program; try again when it is done",
                path.display()
            )),
            Some(DiskFull) => StoreFault::Refused(path.to_owned(), "the disk is full".to_owned()),
            Some(NotADatabase) => {
                StoreFault::Unfit(path.to_owned(), "it is no yard of longpoint's".to_owned())
            }
            Some(ReadOnly) => StoreFault::ReadOnly(format!(
                "{} may not be written: mend its permissions",
                path.display()
            )),
            _ => StoreFault::Refused(path.to_owned(), error.to_string()),
        }
    }

    pub(super) fn disk(path: &Path, error: &std::io::Error) -> StoreFault {
        StoreFault::Refused(path.to_owned(), error.to_string())
    }
}

impl fmt::Display for StoreFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            StoreFault::Busy(who) => write!(f, "{who}."),
            StoreFault::ReadOnly(why) => write!(f, "{why}. Nothing was written."),
            StoreFault::Unfit(path, why) | StoreFault::Refused(path, why) => {
                write!(f, "{}: {why}.", path.display())
            }
        }
    }
}
