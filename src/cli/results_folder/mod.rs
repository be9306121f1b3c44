//! Writing a results folder whole or not at all, without touching what is not ours.
//!
//! ```text
//! signature   whether a folder is ours, and which of its files are
//! lock        one run at a time in one folder
//! working     the fresh folder beside the target: marked, filled, the user's files in it, synced
//! swap        fresh folder ↔ target in one step, or in two that the next run finishes
//! clear       the earlier folder goes; what the user changed meanwhile comes back first
//! earlier     what a run that was cut off has left: finished, undone or cleared away
//! ```
//!
//! At every instant the target is the earlier folder or the new one, whole, with the user's files in it.

mod clear;

mod earlier;
mod lock;
mod names;
mod signature;
mod swap;
mod working;

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::report::ResultFile;

use super::failure::Failure;
use lock::Lock;
use signature::{document_of, strangers};
use working::Working;

pub(super) use earlier::finish_earlier;
pub(super) use signature::{PLAN, Signature};

/// Writes `files` as the folder `target`; what there is to say of it comes back, a line each.
///
/// They are first written into a folder beside `target`, which then takes its place. A folder
/// that is there is replaced only when its document says that longpoint wrote it; files in it
/// that longpoint did not write stay in it.
///
/// # Errors
/// The folder is somebody else's, another run is writing it, or the disk refuses; then nothing is left
/// behind.
pub(super) fn write_results(
    target: &Path,
    files: &[ResultFile],
    sign: Signature,
) -> Result<Vec<String>, Failure> {
    let settled = settled(target)?;
    let refused = |e| Failure::disk(target, &e);
    let _lock = Lock::take(&settled, target)?;
    let mut said = earlier::finish(&settled, sign);
    let strangers = strangers(&settled, files, sign)?;
    let fresh = Working::begin(&settled).map_err(refused)?;
    let filled = fresh
        .fill(files)
        .and_then(|()| fresh.carry(&settled, &strangers))
        .and_then(|()| fresh.complete());
    let swapped = filled.and_then(|()| swap::swap(fresh.path(), &settled));
    let old = swapped.map_err(|e| {
        fresh.abandon();
        refused(e)
    })?;
    if let Some(old) = old {
        said.extend(clear::clear(&old, &settled, sign));
    }
    Ok(said)
}

/// What to say of an earlier plan's sheets that a failed plan leaves as they were; `None`: no such
/// sheets.
pub(super) fn earlier_sheets(target: &Path) -> Option<String> {
    let number = document_of(target, PLAN)?.plan?;
    Some(format!(
        "The sheets in {} are from the earlier plan {number}; they were left as they were.",
        target.display()
    ))
}

/// Whether `target` could be written, asked before the search so that nobody waits for a refusal.
///
/// # Errors
/// As [`write_results`] where the folder is somebody else's.
pub(super) fn may_write(target: &Path, sign: Signature) -> Result<(), Failure> {
    strangers(target, &[], sign)?;
    probe(target).map_err(|e| Failure::disk(target, &e))
}

/// Makes and takes away what writing would make first: the fresh folder, or the folder it would stand in.
fn probe(target: &Path) -> io::Result<()> {
    if let Some(settled) = settled_if_there(target) {
        Working::begin(&settled)?.abandon();
        return Ok(());
    }
    let mut missing = target;
    while let Some(parent) = missing
        .parent()
        .filter(|p| *p != Path::new("") && !p.exists())
    {
        missing = parent;
    }
    fs::create_dir(missing)?;
    fs::remove_dir(missing)
}

/// The folder itself, or where it would stand; `None` where not even its parent is there.
fn settled_if_there(target: &Path) -> Option<PathBuf> {
    if target.exists() {
        return fs::canonicalize(target).ok();
    }
    let parent = target.parent().filter(|p| *p != Path::new(""));
    let parent = fs::canonicalize(parent.unwrap_or(Path::new("."))).ok()?;
    Some(parent.join(target.file_name()?))
}

/// The folder itself when `target` leads there by a link; its parent made when missing.
fn settled(target: &Path) -> Result<PathBuf, Failure> {
    if target.exists() {
        return fs::canonicalize(target).map_err(|e| Failure::disk(target, &e));
    }
    let name = target.file_name().ok_or_else(|| {
        Failure::refused(format!("{}: not the name of a folder.", target.display()))
    })?;
    let parent = match target.parent() {
        Some(p) if p != Path::new("") => p,
        _ => Path::new("."),
    };
    fs::create_dir_all(parent).map_err(|e| Failure::disk(parent, &e))?;
    let parent = fs::canonicalize(parent).map_err(|e| Failure::disk(parent, &e))?;
    Ok(parent.join(name))
}
