//! One run at a time writes one results folder: a lock that the system keeps and that ends with its process.

use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, Read, Seek, Write};
use std::path::{Path, PathBuf};
use std::thread;
use std::time::{Duration, Instant};

use jiff::Timestamp;

use super::super::failure::Failure;
use super::names::beside;

/// How long a run waits for another that writes the same folder: writing takes well under a second, so a
/// longer wait means a run that hangs.
const PATIENCE: Duration = Duration::from_secs(10);
/// Between two looks at a lock that another run holds.
const PAUSE: Duration = Duration::from_millis(20);
/// What a lock file of ours begins with.
const OURS: &str = "longpoint, ";

/// Held while a results folder is written.
///
/// The file names its holder for the message alone. The lock itself is the system's: it ends with the
/// process, so no number of a process that is gone, or of one in another container, can block anybody.
pub(super) struct Lock {
    file: File,
    path: PathBuf,
}

impl Lock {
    /// Takes the lock of `target`, waiting for a run that holds it; `known` is the folder as the user knows
    /// it.
    ///
    /// # Errors
    /// Another run still holds it after [`PATIENCE`], a file that is not ours is in its place, or the disk
    /// refuses.
    pub fn take(target: &Path, known: &Path) -> Result<Lock, Failure> {
        let started = Instant::now();
        loop {
            if let Some(lock) = Lock::if_free(target).map_err(|e| Failure::disk(known, &e))? {
                return Ok(lock);
            }
            if started.elapsed() > PATIENCE {
                return Err(Failure::refused(format!(
                    "{}: another run writes this folder: {}. Nothing was written: wait for it, or end it.",
                    known.display(),
                    holder(&beside(target, "lock"))
                )));
            }
            thread::sleep(PAUSE);
        }
    }

    /// Takes the lock of `target` where no other run holds it.
    ///
    /// # Errors
    /// A file that is not ours is in its place, or the disk refuses.
    pub fn if_free(target: &Path) -> io::Result<Option<Lock>> {
        let path = beside(target, "lock");
        let mut open = OpenOptions::new();
        open.create(true).read(true).write(true).truncate(false);
        let mut file = open.open(&path)?;
        let locked = match file.try_lock() {
            Ok(()) => true,
            Err(TryLockError::WouldBlock) => return Ok(None),
            // A file system without locks: every step of the swap is whole all the same, and folders being
            // written have names of their own.
            Err(TryLockError::Error(_)) => false,
        };
        // The run that held it before may have taken the file away between the two calls.
        if locked && !stands_at(&file, &path) {
            return Ok(None);
        }
        let mut text = String::new();
        file.read_to_string(&mut text)?;
        if !text.is_empty() && !OURS.starts_with(&text) && !text.starts_with(OURS) {
            let what = format!("{} is no lock of ours and in the way", path.display());
            return Err(io::Error::other(what));
        }
        // From here on the file is ours to take away.
        let mut lock = Lock { file, path };
        lock.sign()?;
        Ok(Some(lock))
    }

    /// Writes who holds it.
    fn sign(&mut self) -> io::Result<()> {
        let now = Timestamp::now().strftime("%Y-%m-%d %H:%M:%S UTC");
        let text = format!("{OURS}process {} since {now}\n", std::process::id());
        self.file.set_len(0)?;
        self.file.rewind()?;
        self.file.write_all(text.as_bytes())
    }
}

impl Drop for Lock {
    /// The file goes before the lock does, so that nobody's fresh lock is taken away.
    fn drop(&mut self) {
        if cfg!(unix) && stands_at(&self.file, &self.path) {
            let _ = fs::remove_file(&self.path);
        }
    }
}

/// Whether the open file is the one that stands at `path` now.
#[cfg(unix)]
fn stands_at(file: &File, path: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    let identity = |m: fs::Metadata| (m.dev(), m.ino());
    match (file.metadata(), fs::metadata(path)) {
        (Ok(open), Ok(there)) => identity(open) == identity(there),
        _ => false,
    }
}

/// Elsewhere a lock file is never taken away.
#[cfg(not(unix))]
fn stands_at(_: &File, _: &Path) -> bool {
    true
}

/// Who holds the lock, as far as it can be read.
fn holder(path: &Path) -> String {
    let text = fs::read_to_string(path).unwrap_or_default();
    match text.trim() {
        "" => "longpoint".to_owned(),
        known => known.to_owned(),
    }
}
