//! What a run that was cut off has left beside the results folder: finished, undone or cleared away.

use std::fs;
use std::io;
use std::path::Path;

use super::clear::clear;
use super::lock::Lock;
use super::names::{Purpose, all_numbered, beside};
use super::settled_if_there;
use super::signature::{Signature, document_of};
use super::working::{discard, is_unfinished};

/// Finishes or undoes what an earlier run left when it was cut off; says so, a line each. Does nothing where
/// nothing was left, or while another run is at work on the folder.
pub(in crate::cli) fn finish_earlier(target: &Path, sign: Signature) -> Vec<String> {
    let Some(target) = settled_if_there(target) else {
        return Vec::new();
    };
    let left = |purpose| !all_numbered(&target, purpose).is_empty();
    let locked = fs::symlink_metadata(beside(&target, "lock")).is_ok();
    if !locked && !left(Purpose::New) && !left(Purpose::Old) {
        return Vec::new();
    }
    // A lock that cannot be taken is met again, and said, where the folder is written.
    let Ok(Some(_lock)) = Lock::if_free(&target) else {
        return Vec::new();
    };
    finish(&target, sign)
}

/// The same under the lock. What the disk refuses is said and left to the next run.
pub(super) fn finish(target: &Path, sign: Signature) -> Vec<String> {
    let mut said = Vec::new();
    // Cut between the two steps of a plain swap, or before a first folder took its place: whole, and in no
    // place yet.
    for purpose in [Purpose::New, Purpose::Old] {
        for folder in all_numbered(target, purpose) {
            let whole = !is_unfinished(&folder) && document_of(&folder, sign).is_some();
            if whole && !target.exists() {
                let moved = fs::rename(&folder, target);
                said.push(told(target, &folder, put_in_place(purpose), moved));
            }
        }
    }
    for purpose in [Purpose::New, Purpose::Old] {
        for folder in all_numbered(target, purpose) {
            let gone = if is_unfinished(&folder) {
                discard(&folder)
            } else if document_of(&folder, sign).is_some() {
                said.extend(clear(&folder, target, sign));
                Ok(())
            } else if fs::remove_dir(&folder).is_ok() {
                Ok(())
            } else {
                // Neither empty nor ours by its contents: somebody else's.
                continue;
            };
            said.push(told(target, &folder, "what it left was cleared away", gone));
        }
    }
    said
}

fn put_in_place(purpose: Purpose) -> &'static str {
    match purpose {
        Purpose::New => "the results that it had written were put in place",
        Purpose::Old => "the results from before were put back",
    }
}

/// What was done about a run that was cut off, or what could not be.
fn told(target: &Path, folder: &Path, done: &str, outcome: io::Result<()>) -> String {
    let cut = format!(
        "{}: an earlier run was cut off while it wrote",
        target.display()
    );
    match outcome {
        Ok(()) => format!("{cut}; {done}."),
        Err(e) => format!(
            "{cut}, and {} could not be moved or cleared away: {e}.",
            folder.display()
        ),
    }
}
