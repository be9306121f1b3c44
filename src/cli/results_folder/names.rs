//! The hidden names that a swap needs beside the results folder.

use std::fs;
use std::path::{Path, PathBuf};

/// What a hidden folder beside the results folder is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Purpose {
    /// The folder that is being written; after an exchange it holds the earlier results.
    New,
    /// The earlier results, set aside where the system cannot exchange two folders.
    Old,
}

impl Purpose {
    fn word(self) -> &'static str {
        match self {
            Purpose::New => "new",
            Purpose::Old => "old",
        }
    }
}

/// `.results.new-1` beside `results`.
pub(super) fn numbered(target: &Path, purpose: Purpose, number: u32) -> PathBuf {
    beside(target, &format!("{}-{number}", purpose.word()))
}

/// `.results.lock` beside `results`.
pub(super) fn beside(target: &Path, what: &str) -> PathBuf {
    let mut name = std::ffi::OsString::from(".");
    name.push(target.file_name().unwrap_or_default());
    name.push(format!(".{what}"));
    target.with_file_name(name)
}

/// Folders of that purpose beside `target`, in name order: their names end in a number. Links are not
/// followed.
pub(super) fn all_numbered(target: &Path, purpose: Purpose) -> Vec<PathBuf> {
    let stem = beside(target, &format!("{}-", purpose.word()));
    let (Some(parent), Some(stem)) = (target.parent(), stem.file_name()) else {
        return Vec::new();
    };
    let stem = stem.as_encoded_bytes();
    let Ok(entries) = fs::read_dir(parent) else {
        return Vec::new();
    };
    let mut found: Vec<PathBuf> = entries
        .flatten()
        .filter(|entry| {
            let name = entry.file_name();
            let number = name.as_encoded_bytes().strip_prefix(stem);
            number.is_some_and(|n| !n.is_empty() && n.iter().all(u8::is_ascii_digit))
                && entry.file_type().is_ok_and(|kind| kind.is_dir())
        })
        .map(|entry| entry.path())
        .collect();
    found.sort();
    found
}
