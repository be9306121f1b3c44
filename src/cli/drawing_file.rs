//! Writing the drawing of `splice --svg`: whole or not at all, and over nothing but an earlier drawing of its own.

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use crate::report::svg;

use super::durable::{sync_folder, write_new};
use super::failure::Failure;

/// What such a drawing says it is.
pub(super) const DRAWING: &str = "longpoint splice: where splices may stand";

/// Whether a drawing may be written there, asked before the work.
///
/// # Errors
/// Something else stands there.
pub(super) fn may_draw(path: &Path) -> Result<(), Failure> {
    match fs::metadata(path) {
        Ok(about) if about.is_dir() => Err(Failure::refused(format!(
            "{}: a folder stands there; give the name of a file.\n",
            path.display()
        ))),
        Ok(about) if about.is_file() => {
            if is_ours(path).map_err(|e| Failure::disk(path, &e))? {
                return Ok(());
            }
            Err(Failure::refused(format!(
                "{}: holds something else than an earlier drawing of longpoint splice, so it is left alone; \
                 give another name.\n",
                path.display()
            )))
        }
        // Not there yet; or a device or pipe, which holds nothing that could be lost.
        _ => Ok(()),
    }
}

/// Writes the drawing beside and puts it in place in one step.
///
/// # Errors
/// Something else stands there, or the disk refuses; then nothing is left behind.
pub(super) fn write_drawing(path: &Path, drawing: &str) -> Result<(), Failure> {
    may_draw(path)?;
    let refused = |e| Failure::disk(path, &e);
    match fs::metadata(path) {
        Ok(about) if !about.is_file() => fs::write(path, drawing).map_err(refused),
        // A link stays one: what it leads to is replaced.
        Ok(_) => {
            let there = fs::canonicalize(path).map_err(refused)?;
            put(&there, drawing, |fresh| fs::rename(fresh, &there)).map_err(refused)
        }
        Err(_) => put(path, drawing, |fresh| place_new(fresh, path)).map_err(refused),
    }
}

fn is_ours(path: &Path) -> io::Result<bool> {
    let head = svg::head_of(DRAWING).into_bytes();
    let mut found = Vec::new();
    let most = u64::try_from(head.len()).unwrap_or(u64::MAX);
    File::open(path)?.take(most).read_to_end(&mut found)?;
    Ok(found == head)
}

/// The drawing under a hidden name beside, then in its place.
fn put(path: &Path, drawing: &str, place: impl Fn(&Path) -> io::Result<()>) -> io::Result<()> {
    let fresh = hidden(path)?;
    let done = write_new(&fresh, drawing.as_bytes()).and_then(|()| place(&fresh));
    if done.is_err() {
        let _ = fs::remove_file(&fresh);
        return done;
    }
    let parent = path.parent().filter(|p| *p != Path::new(""));
    // It stands there whatever the disk says of its folder now.
    let _ = sync_folder(parent.unwrap_or(Path::new(".")));
    Ok(())
}

/// Takes a name that nobody else has taken meanwhile.
fn place_new(fresh: &Path, path: &Path) -> io::Result<()> {
    match fs::hard_link(fresh, path) {
        Ok(()) => fs::remove_file(fresh),
        Err(e) if e.kind() == io::ErrorKind::AlreadyExists => Err(e),
        // A file system without second names.
        Err(_) => fs::rename(fresh, path),
    }
}

/// `.gate.svg.new-1` beside `gate.svg`, the first number that is free.
fn hidden(path: &Path) -> io::Result<PathBuf> {
    let name = path
        .file_name()
        .ok_or_else(|| io::Error::other("not the name of a file"))?;
    let numbered = |number: u32| {
        let mut hidden = std::ffi::OsString::from(".");
        hidden.push(name);
        hidden.push(format!(".new-{number}"));
        path.with_file_name(hidden)
    };
    let mut names = (1..1000).map(numbered);
    let free = names.find(|name| fs::symlink_metadata(name).is_err());
    free.ok_or_else(|| io::Error::other("no free name beside it"))
}
