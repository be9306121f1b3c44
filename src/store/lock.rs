//! The one writer: a lock file of its own, and beside it who holds it.
//!
//! The lock is the operating system's, so it goes with the process however that ends. The holder's name
//! stands in a second file, as a locked file cannot be read everywhere.

use std::fs::{self, File, TryLockError};
use std::path::{Path, PathBuf};

use super::StoreFault;

/// Held while writing.
#[derive(Debug)]
pub(super) struct Lock {
    _file: File,
    holder: PathBuf,
}

/// How locking came out.
pub(super) enum Locked {
    /// It is ours; `unclean`: the last holder did not let go in order.
    Ours { lock: Lock, unclean: bool },
    /// Another process has it: who, in words.
    Theirs(String),
    /// The file system knows no locks.
    Nowhere(String),
}

/// Tries once; whoever wants to wait tries again.
pub(super) fn lock(database: &Path, me: &str) -> Result<Locked, StoreFault> {
    let path = database.with_extension("lock");
    let holder = database.with_extension("holder");
    let file = File::options()
        .create(true)
        .truncate(false)
        .write(true)
        .open(&path)
        .map_err(|e| StoreFault::disk(&path, &e))?;
    match file.try_lock() {
        Ok(()) => {
            let unclean = holder.exists();
            fs::write(&holder, me).map_err(|e| StoreFault::disk(&holder, &e))?;
            let lock = Lock {
                _file: file,
                holder,
            };
            Ok(Locked::Ours { lock, unclean })
        }
        Err(TryLockError::WouldBlock) => {
            let who = fs::read_to_string(&holder).unwrap_or_default();
            let who = who.trim();
            Ok(Locked::Theirs(if who.is_empty() {
                "another process".to_owned()
            } else {
                who.to_owned()
            }))
        }
        Err(TryLockError::Error(why)) => Ok(Locked::Nowhere(why.to_string())),
    }
}

impl Drop for Lock {
    fn drop(&mut self) {
        // Gone in order: the next one need not ask whether the database is whole.
        let _ = fs::remove_file(&self.holder);
    }
}
