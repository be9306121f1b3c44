//! The earlier folder goes, and nothing of the user's with it.

use std::collections::BTreeSet;
use std::ffi::OsString;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::signature::{Signature, written_by_us};

/// Takes the earlier folder `old` away when `target` has its place; says what there is to say.
///
/// The user's files stand in `target` already. One that was changed or added in `old` while the folders
/// changed places is brought over, and nothing is written over: where both were changed both are kept.
pub(super) fn clear(old: &Path, target: &Path, sign: Signature) -> Vec<String> {
    let ours = written_by_us(old, sign).unwrap_or_default();
    let mut said = Vec::new();
    if let Err(e) = clear_away(old, target, sign, &ours, &mut said) {
        said.push(format!(
            "{}: the earlier folder is still here, under a hidden name: {}: {e}. The next run tries again.",
            target.display(),
            old.display()
        ));
    }
    said
}

fn clear_away(
    old: &Path,
    target: &Path,
    sign: Signature,
    ours: &BTreeSet<String>,
    said: &mut Vec<String>,
) -> io::Result<()> {
    let mut sheets = Vec::new();
    for name in names(old)? {
        let is_file = fs::symlink_metadata(old.join(&name))?.is_file();
        match name.to_str() {
            Some(n) if is_file && ours.contains(n) => sheets.push(name),
            _ => bring_back(&old.join(&name), &target.join(&name), said)?,
        }
    }
    // The document goes last: by it the next run knows what is left here, should this one be cut off.
    sheets.sort_by_key(|name| name == sign.document);
    for name in sheets {
        fs::remove_file(old.join(name))?;
    }
    fs::remove_dir(old)
}

/// Names in a folder, in order.
fn names(folder: &Path) -> io::Result<Vec<OsString>> {
    let entries = fs::read_dir(folder)?.map(|entry| entry.map(|e| e.file_name()));
    let mut names = entries.collect::<io::Result<Vec<_>>>()?;
    names.sort();
    Ok(names)
}

/// What stands at `from` stands at `to` afterwards, or beside it where both are worth keeping.
fn bring_back(from: &Path, to: &Path, said: &mut Vec<String>) -> io::Result<()> {
    let left = fs::symlink_metadata(from)?;
    let Ok(there) = fs::symlink_metadata(to) else {
        return fs::rename(from, to);
    };
    if left.is_dir() && there.is_dir() {
        for name in names(from)? {
            bring_back(&from.join(&name), &to.join(&name), said)?;
        }
        return fs::remove_dir(from);
    }
    if same_file(&left, &there) {
        return fs::remove_file(from);
    }
    let links = left.is_symlink() && there.is_symlink();
    if links && fs::read_link(from)? == fs::read_link(to)? {
        return fs::remove_file(from);
    }
    let files = left.is_file() && there.is_file();
    if files && left.len() == there.len() && fs::read(from)? == fs::read(to)? {
        // The copy gives way to the original, which has its owner.
        return fs::rename(from, to);
    }
    keep_both(from, to, files && newer(&left, &there), said)
}

/// Both stay: the one changed last under the name, the other beside it.
fn keep_both(from: &Path, to: &Path, newer: bool, said: &mut Vec<String>) -> io::Result<()> {
    let beside = free_name(to);
    if newer {
        fs::hard_link(to, &beside).or_else(|_| fs::copy(to, &beside).map(|_| ()))?;
        fs::rename(from, to)?;
    } else {
        fs::rename(from, &beside)?;
    }
    said.push(format!(
        "{}: was changed while its folder was replaced; the other version is kept as {}.",
        to.display(),
        beside.display()
    ));
    Ok(())
}

fn newer(left: &fs::Metadata, there: &fs::Metadata) -> bool {
    match (left.modified(), there.modified()) {
        (Ok(left), Ok(there)) => left > there,
        _ => false,
    }
}

/// `note-2.txt` beside `note.txt`; the first number that is free.
fn free_name(path: &Path) -> PathBuf {
    let stem = path.file_stem().unwrap_or_default();
    let named = |number: u32| {
        let mut name = stem.to_owned();
        name.push(format!("-{number}"));
        if let Some(ending) = path.extension() {
            name.push(".");
            name.push(ending);
        }
        path.with_file_name(name)
    };
    let mut number = 2;
    while fs::symlink_metadata(named(number)).is_ok() {
        number += 1;
    }
    named(number)
}

/// Two names of one file.
#[cfg(unix)]
fn same_file(one: &fs::Metadata, other: &fs::Metadata) -> bool {
    use std::os::unix::fs::MetadataExt;
    (one.dev(), one.ino()) == (other.dev(), other.ino())
}

/// Elsewhere their bytes are compared.
#[cfg(not(unix))]
fn same_file(_: &fs::Metadata, _: &fs::Metadata) -> bool {
    false
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::env;
    use std::time::{Duration, SystemTime};

    const SIGN: Signature = super::super::PLAN;

    /// An earlier folder and the one in its place, both of ours, in a place of this test.
    fn both(name: &str) -> (PathBuf, PathBuf) {
        let place = env::temp_dir().join(format!("longpoint-clear-{}-{name}", std::process::id()));
        let (old, target) = (place.join(".out.new-1"), place.join("out"));
        for folder in [&old, &target] {
            fs::create_dir_all(folder).expect("room");
            let document = format!(
                "{{\"format\": \"{}\", \"files\": [\"cut_sheet.txt\", \"../kept\", \"{}\"]}}",
                SIGN.format, SIGN.document
            );
            fs::write(folder.join(SIGN.document), document).expect("room");
            fs::write(folder.join("cut_sheet.txt"), "ours").expect("room");
        }
        fs::write(place.join("kept"), "outside").expect("room");
        (old, target)
    }

    fn write(path: &Path, words: &str, age: u64) {
        fs::write(path, words).expect("room");
        let file = fs::File::options()
            .write(true)
            .open(path)
            .expect("just written");
        let then = SystemTime::now() - Duration::from_secs(age);
        file.set_modified(then).expect("a disk keeps times");
    }

    fn read(path: PathBuf) -> String {
        fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
    }

    #[test]
    fn what_was_added_or_changed_meanwhile_is_kept() {
        let (old, target) = both("changed");
        write(&old.join("added.txt"), "added", 0);
        write(&old.join("saved.txt"), "newer", 5);
        write(&target.join("saved.txt"), "older", 60);
        write(&old.join("both"), "before", 60);
        write(&target.join("both"), "after", 5);
        fs::create_dir_all(old.join("deep/er")).expect("room");
        fs::create_dir_all(target.join("deep")).expect("room");
        write(&old.join("deep/er/note"), "deep", 0);
        // A sheet that the foreman put a file in the place of, in the new folder's way.
        write(&old.join("taken"), "mine", 60);
        fs::create_dir(target.join("taken")).expect("room");
        let said = clear(&old, &target, SIGN);
        assert!(!old.exists());
        assert_eq!(read(target.join("added.txt")), "added");
        assert_eq!(
            (
                read(target.join("saved.txt")),
                read(target.join("saved-2.txt"))
            ),
            ("newer".into(), "older".into())
        );
        assert_eq!(
            (read(target.join("both")), read(target.join("both-2"))),
            ("after".into(), "before".into())
        );
        assert_eq!(read(target.join("deep/er/note")), "deep");
        assert_eq!(read(target.join("taken-2")), "mine");
        assert_eq!(said.len(), 3, "{said:?}");
        assert!(
            said.iter()
                .all(|s| s.contains("the other version is kept as")),
            "{said:?}"
        );
        let place = target.parent().expect("a place").to_owned();
        assert_eq!(
            read(place.join("kept")),
            "outside",
            "no name leads out of the folder"
        );
        fs::remove_dir_all(place).expect("the place can go");
    }

    #[test]
    fn equal_files_and_second_names_go_without_a_word() {
        let (old, target) = both("equal");
        write(&old.join("copied.txt"), "same", 9);
        write(&target.join("copied.txt"), "same", 60);
        write(&old.join("linked.txt"), "one file", 9);
        fs::hard_link(old.join("linked.txt"), target.join("linked.txt"))
            .expect("the place has links");
        assert_eq!(clear(&old, &target, SIGN), [""; 0]);
        assert!(!old.exists());
        assert_eq!(read(target.join("copied.txt")), "same");
        assert_eq!(read(target.join("linked.txt")), "one file");
        fs::remove_dir_all(target.parent().expect("a place")).expect("the place can go");
    }
}
