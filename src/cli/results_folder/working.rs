//! The fresh folder: written beside the results folder, marked as unfinished until it is whole.

use std::ffi::OsString;
use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};
use std::thread;

use crate::report::ResultFile;

use super::super::durable::{sync_folder, write_new};
use super::names::{Purpose, numbered};

/// The file that marks a folder as not yet whole: everything in such a folder was put there by us.
pub(super) const MARKER: &str = ".longpoint-unfinished";
/// What the marker holds.
const WORDS: &str =
    "longpoint is writing this folder; its next run clears it away if this one was cut off.\n";
/// Files written at once: most of the time goes into waiting for the disk, which takes several together.
const TOGETHER: usize = 8;

/// A folder that is being written.
pub(super) struct Working(PathBuf);

impl Working {
    /// A new folder beside `target` under the first name that is free, marked.
    ///
    /// # Errors
    /// The disk refuses; then nothing is left behind.
    pub fn begin(target: &Path) -> io::Result<Working> {
        let mut number = 1;
        let path = loop {
            let path = numbered(target, Purpose::New, number);
            match fs::create_dir(&path) {
                Ok(()) => break path,
                Err(e) if e.kind() == io::ErrorKind::AlreadyExists && number < 1000 => number += 1,
                Err(e) => return Err(e),
            }
        };
        let working = Working(path);
        match write_new(&working.0.join(MARKER), WORDS.as_bytes()) {
            Ok(()) => Ok(working),
            Err(e) => {
                working.abandon();
                Err(e)
            }
        }
    }

    /// Where it stands.
    pub fn path(&self) -> &Path {
        &self.0
    }

    /// Writes our files, each through to the disk.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn fill(&self, files: &[ResultFile]) -> io::Result<()> {
        let every = |first: usize| {
            let mut own = files.iter().skip(first).step_by(TOGETHER);
            own.try_for_each(|(name, bytes)| write_new(&self.0.join(name), bytes))
        };
        thread::scope(|scope| {
            let workers: Vec<_> = (0..TOGETHER.min(files.len()))
                .map(|first| scope.spawn(move || every(first)))
                .collect();
            let mut ends = workers.into_iter().map(|w| w.join());
            ends.try_for_each(|end| {
                end.unwrap_or_else(|_| Err(io::Error::other("a writer ended early")))
            })
        })
    }

    /// Puts the user's own files of `target` into it, so that they never leave the results folder: the same
    /// files under a second name, or copies where a file system has no such names.
    ///
    /// # Errors
    /// The disk refuses. A file that may not be read is left to be brought over after the swap.
    pub fn carry(&self, target: &Path, names: &[OsString]) -> io::Result<()> {
        let mut names = names.iter();
        names.try_for_each(|name| carry(&target.join(name), &self.0.join(name)))
    }

    /// Takes the mark away when everything is on the disk.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn complete(&self) -> io::Result<()> {
        sync_folder(&self.0)?;
        fs::remove_file(self.0.join(MARKER))?;
        sync_folder(&self.0)
    }

    /// Takes it away again, under the mark should it be cut off while it does.
    pub fn abandon(&self) {
        let _ = write_new(&self.0.join(MARKER), WORDS.as_bytes());
        // What a disk that refuses leaves is cleared away by the next run, which knows it by the marker.
        let _ = discard(&self.0);
    }
}

/// Whether a folder bears the mark, whole or cut off while it was written.
pub(super) fn is_unfinished(folder: &Path) -> bool {
    fs::read_to_string(folder.join(MARKER)).is_ok_and(|text| WORDS.starts_with(&text))
}

/// Takes an unfinished folder away; the marker goes last.
pub(super) fn discard(folder: &Path) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        if entry.file_name() == MARKER {
            continue;
        }
        if entry.file_type()?.is_dir() {
            fs::remove_dir_all(entry.path())?;
        } else {
            fs::remove_file(entry.path())?;
        }
    }
    match fs::remove_file(folder.join(MARKER)) {
        Err(e) if e.kind() != io::ErrorKind::NotFound => return Err(e),
        _ => {}
    }
    fs::remove_dir(folder)
}

/// One file, link or folder of the user's under a second name.
fn carry(from: &Path, to: &Path) -> io::Result<()> {
    let about = fs::symlink_metadata(from)?;
    let done = if about.is_dir() {
        carry_folder(from, to)
    } else if about.is_symlink() {
        carry_link(from, to)
    } else {
        fs::hard_link(from, to).or_else(|e| copy(from, to, &about, e))
    };
    match done {
        // It is moved when the folders have changed places.
        Err(e) if e.kind() == io::ErrorKind::PermissionDenied => Ok(()),
        other => other,
    }
}

fn carry_folder(from: &Path, to: &Path) -> io::Result<()> {
    fs::create_dir(to)?;
    for entry in fs::read_dir(from)? {
        let name = entry?.file_name();
        carry(&from.join(&name), &to.join(&name))?;
    }
    fs::set_permissions(to, fs::metadata(from)?.permissions())?;
    sync_folder(to)
}

#[cfg(unix)]
fn carry_link(from: &Path, to: &Path) -> io::Result<()> {
    std::os::unix::fs::symlink(fs::read_link(from)?, to)
}

/// Elsewhere links are moved when the folders have changed places.
#[cfg(not(unix))]
fn carry_link(_: &Path, _: &Path) -> io::Result<()> {
    Ok(())
}

/// A copy with the same bytes, time and permissions; what is no plain file is moved later.
fn copy(from: &Path, to: &Path, about: &fs::Metadata, linked: io::Error) -> io::Result<()> {
    if !about.is_file() {
        return Ok(());
    }
    // A file that went away meanwhile is the user's doing.
    if linked.kind() == io::ErrorKind::NotFound && !from.exists() {
        return Ok(());
    }
    fs::copy(from, to)?;
    let copied = File::options().write(true).open(to)?;
    copied.set_modified(about.modified()?)?;
    copied.sync_all()
}
