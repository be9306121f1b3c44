//! Writing a results folder whole or not at all, without touching what is not ours.

use std::collections::BTreeSet;
use std::ffi::OsString;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::report::{DOCUMENT, FORMAT, ResultFile};

use super::failure::Failure;

/// How a results folder is known as ours: a document that says its format and lists our files.
#[derive(Clone, Copy, Debug)]
pub(super) struct Signature {
    /// The document's name.
    pub document: &'static str,
    /// Its `format`.
    pub format: &'static str,
}

/// A plan's results folder.
pub(super) const PLAN: Signature = Signature {
    document: DOCUMENT,
    format: FORMAT,
};

/// Writes `files` as the folder `target`.
///
/// They are first written into a sibling folder, which then takes the place of `target`. A folder
/// that is there is replaced only when its document says that longpoint wrote it; files in it
/// that longpoint did not write stay in it.
///
/// # Errors
/// The folder is somebody else's, or the disk refuses; then nothing is left behind.
pub(super) fn write_results(
    target: &Path,
    files: &[ResultFile],
    sign: Signature,
) -> Result<(), Failure> {
    let target = settled(target)?;
    let strangers = strangers(&target, files, sign)?;
    let fresh = sibling(&target, "new")?;
    if let Err(e) = fill(&fresh, files) {
        let _ = fs::remove_dir_all(&fresh);
        return Err(Failure::disk(&target, &e));
    }
    let swapped = if target.exists() {
        replace(&target, &fresh, &strangers)
    } else {
        rename(&fresh, &target, &target)
    };
    if swapped.is_err() {
        let _ = fs::remove_dir_all(&fresh);
    }
    swapped
}

/// What to say of an earlier plan's sheets that a failed plan leaves as they were; `None`: no such
/// sheets.
pub(super) fn earlier_sheets(target: &Path) -> Option<String> {
    let value = ours(target, PLAN)?;
    let number = value.get("plan")?.as_str()?;
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
    strangers(target, &[], sign).map(|_| ())
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

/// Names in `target` that longpoint did not write. Refuses a folder that is not ours, and a
/// stranger that stands where one of `files` must go.
fn strangers(
    target: &Path,
    files: &[ResultFile],
    sign: Signature,
) -> Result<Vec<OsString>, Failure> {
    if !target.exists() {
        return Ok(Vec::new());
    }
    if !target.is_dir() {
        return Err(Failure::refused(format!(
            "{}: a file is in the way; give another folder with --out.",
            target.display()
        )));
    }
    let mut found = Vec::new();
    for entry in fs::read_dir(target).map_err(|e| Failure::disk(target, &e))? {
        found.push(entry.map_err(|e| Failure::disk(target, &e))?.file_name());
    }
    found.sort();
    if found.is_empty() {
        return Ok(found);
    }
    let Some(ours) = written_by_us(target, sign) else {
        return Err(Failure::refused(format!(
            "{}: holds files that longpoint did not write, so it is left alone; empty it or give \
             another folder with --out.",
            target.display()
        )));
    };
    found.retain(|name| !name.to_str().is_some_and(|n| ours.contains(n)));
    let clash = found.iter().find(|name| {
        files
            .iter()
            .any(|(file, _)| name.as_os_str() == file.as_str())
    });
    match clash {
        Some(name) => Err(Failure::refused(format!(
            "{}: not written by longpoint and in the way of a sheet; move it.",
            target.join(name).display()
        ))),
        None => Ok(found),
    }
}

/// File names listed in a results folder's document; `None` when it is not ours.
fn written_by_us(target: &Path, sign: Signature) -> Option<BTreeSet<String>> {
    let value = ours(target, sign)?;
    let names = value.get("files")?.as_array()?;
    Some(
        names
            .iter()
            .filter_map(|n| n.as_str().map(str::to_owned))
            .collect(),
    )
}

/// A results folder's document; `None` when it is not ours.
fn ours(target: &Path, sign: Signature) -> Option<serde_json::Value> {
    let text = fs::read_to_string(target.join(sign.document)).ok()?;
    let value: serde_json::Value = serde_json::from_str(&text).ok()?;
    (value.get("format")?.as_str()? == sign.format).then_some(value)
}

/// A new folder beside `target`.
fn sibling(target: &Path, what: &str) -> Result<PathBuf, Failure> {
    let name = target.file_name().unwrap_or_default().to_string_lossy();
    let path = target.with_file_name(format!(".{name}.{what}-{}", std::process::id()));
    Ok(path)
}

/// The working folder's own name is nothing to the user: whoever calls names the folder asked for.
fn fill(folder: &Path, files: &[ResultFile]) -> io::Result<()> {
    fs::create_dir(folder)?;
    for (name, bytes) in files {
        fs::write(folder.join(name), bytes)?;
    }
    Ok(())
}

/// `fresh` takes the place of `target`; strangers move over; the old folder goes last.
fn replace(target: &Path, fresh: &Path, strangers: &[OsString]) -> Result<(), Failure> {
    let old = sibling(target, "old")?;
    rename(target, &old, target)?;
    if let Err(failure) = rename(fresh, target, target) {
        let _ = fs::rename(&old, target);
        return Err(failure);
    }
    for name in strangers {
        let there = target.join(name);
        rename(&old.join(name), &there, &there)?;
    }
    fs::remove_dir_all(&old).map_err(|e| Failure::disk(target, &e))
}

/// Moves; a refusal names `known`, the path that the user knows.
fn rename(from: &Path, to: &Path, known: &Path) -> Result<(), Failure> {
    fs::rename(from, to).map_err(|e: io::Error| Failure::disk(known, &e))
}
