//! `longpoint new`: a commented starter week that runs as it is.

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};

use crate::order::starter_week;

use super::failure::{Failure, code};
use super::run::say;
use super::voice::Voice;

/// Writes the starter week into a folder that is new or empty.
///
/// # Errors
/// The folder holds something already, or the disk refuses; then nothing of ours is left in it.
pub(super) fn new_week(folder: &Path, voice: &mut Voice<'_>) -> Result<u8, Failure> {
    if folder.exists() {
        let mut entries = fs::read_dir(folder).map_err(|e| Failure::disk(folder, &e))?;
        if entries.next().is_some() {
            return Err(Failure::refused(format!(
                "{}: is not empty, and nothing is ever overwritten; give another name.",
                folder.display()
            )));
        }
    }
    fs::create_dir_all(folder).map_err(|e| Failure::disk(folder, &e))?;
    let mut written = Vec::new();
    for (name, text) in starter_week() {
        let path = folder.join(name);
        if let Err(e) = write_new(&path, &text) {
            remove(&written);
            return Err(Failure::disk(&path, &e));
        }
        written.push(path);
    }
    let names: Vec<&str> = starter_week().iter().map(|(name, _)| *name).collect();
    say(
        voice,
        &format!(
            "{}: wrote {}. Its shop, gates and prices are invented: put yours in.\n\
             Next: longpoint plan {}\n",
            folder.display(),
            names.join(", "),
            folder.display()
        ),
    )?;
    Ok(code::DONE)
}

fn write_new(path: &Path, text: &str) -> std::io::Result<()> {
    let mut file = fs::File::create_new(path)?;
    file.write_all(text.as_bytes())
}

fn remove(written: &[PathBuf]) {
    for path in written {
        let _ = fs::remove_file(path);
    }
}
