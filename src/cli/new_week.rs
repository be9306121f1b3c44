//! `longpoint new`: a commented starter week that runs as it is.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::order::starter_week;

use super::durable::write_new;
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
    let mut made = Made::default();
    let written = made.folder(folder).and_then(|()| {
        let files = starter_week();
        let mut files = files.iter();
        files.try_for_each(|(name, text)| made.file(&folder.join(name), text))
    });
    if let Err(e) = written {
        made.take_back();
        return Err(Failure::disk(folder, &e));
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
    )
    .map_err(|failure| failure.but_written(folder))?;
    Ok(code::DONE)
}

/// What was made so far, in order.
#[derive(Default)]
struct Made {
    folders: Vec<PathBuf>,
    files: Vec<PathBuf>,
}

impl Made {
    /// A folder and those above it that are missing.
    fn folder(&mut self, folder: &Path) -> io::Result<()> {
        let missing = folder
            .ancestors()
            .take_while(|f| *f != Path::new("") && !f.exists());
        let missing: Vec<&Path> = missing.collect();
        for folder in missing.into_iter().rev() {
            fs::create_dir(folder)?;
            self.folders.push(folder.to_owned());
        }
        Ok(())
    }

    /// A new file.
    fn file(&mut self, path: &Path, text: &str) -> io::Result<()> {
        let written = write_new(path, text.as_bytes());
        // What somebody else put there meanwhile is not ours to take back.
        if !matches!(&written, Err(e) if e.kind() == io::ErrorKind::AlreadyExists) {
            self.files.push(path.to_owned());
        }
        written
    }

    fn take_back(&self) {
        for path in &self.files {
            let _ = fs::remove_file(path);
        }
        for folder in self.folders.iter().rev() {
            let _ = fs::remove_dir(folder);
        }
    }
}
