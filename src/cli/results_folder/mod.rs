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
    let number = plan_in(target)?;
    Some(format!(
        "The sheets in {} are from the earlier plan {number}; they were left as they were.",
        target.display()
    ))
}

/// Number of the plan whose sheets stand in a folder.
pub(super) fn plan_in(target: &Path) -> Option<String> {
    document_of(target, PLAN)?.plan
}

/// Whether `target` could be written, asked before the search so that nobody waits for a refusal.
///
/// # Errors
/// As [`write_results`] where the folder is somebody else's.
pub(super) fn may_write(target: &Path, sign: Signature) -> Result<(), Failure> {
    strangers(target, &[], sign)?;
    probe(target).map_err(|e| Failure::disk(target, &e))
}

/// Makes and takes away a folder where writing would make its first one: beside `target`, or beside the
/// first folder on the way there that is missing.
///
/// It is made under the lock: without it a run that tidies up would take it for what a cut off run has left.
/// Where another run holds the lock, the place can be written.
fn probe(target: &Path) -> io::Result<()> {
    let mut first = target;
    while let Some(parent) = first
        .parent()
        .filter(|p| *p != Path::new("") && !p.exists())
    {
        first = parent;
    }
    let first = settled_if_there(first).ok_or(io::ErrorKind::NotFound)?;
    let Some(_lock) = Lock::if_free(&first)? else {
        return Ok(());
    };
    Working::begin(&first)?.abandon();
    Ok(())
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

#[cfg(test)]
mod tests {
    use super::*;
    use std::{env, thread};

    /// Runs at once, each of which asks whether it may write, finishes what was left, and writes.
    fn at_once(target: &Path, runs: usize) -> Vec<Vec<String>> {
        let document = format!(
            "{{\"format\": \"{}\", \"files\": [\"{}\"]}}",
            PLAN.format, PLAN.document
        );
        let files = [(PLAN.document.to_owned(), document.into_bytes())];
        let run = || {
            may_write(target, PLAN)?;
            let mut said = finish_earlier(target, PLAN);
            said.extend(write_results(target, &files, PLAN)?);
            Ok(said)
        };
        thread::scope(|scope| {
            let all: Vec<_> = (0..runs).map(|_| scope.spawn(run)).collect();
            let ended = all.into_iter().map(|one| one.join().expect("a run ends"));
            ended
                .map(|said| said.unwrap_or_else(|e: Failure| panic!("{}", e.text())))
                .collect()
        })
    }

    #[test]
    fn runs_at_once_neither_fail_nor_tidy_up_after_each_other() {
        let place = env::temp_dir().join(format!("longpoint-at-once-{}", std::process::id()));
        fs::create_dir_all(&place).expect("room");
        for round in 0..40 {
            // The folder it stands in is missing, too, at every other round.
            let target = place.join(format!("{round}/week/out"));
            if round % 2 == 0 {
                fs::create_dir_all(target.with_file_name("")).expect("room");
            }
            for said in at_once(&target, 6) {
                assert_eq!(said, [""; 0], "round {round}");
            }
            let week = target.parent().expect("it stands in one");
            for folder in [week, week.parent().expect("it stands in one")] {
                assert_eq!(fs::read_dir(folder).expect("it is there").count(), 1);
            }
        }
        fs::remove_dir_all(place).expect("the place can go");
    }
}
