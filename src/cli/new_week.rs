//! `longpoint new`: a commented starter shop or week that runs as it is.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::order::starter_week;

use super::durable::write_new;
use super::failure::{Failure, code};
use super::run::say;
use super::shop_folder::{SHARED, is_shop};
use super::voice::Voice;

/// The first week of a new shop.
const FIRST: &str = "week-1";

/// What is written where: names within a folder, and their text.
type Files = Vec<(PathBuf, String)>;

/// Writes a shop with a first week; in a shop folder one more week; or a week alone.
///
/// # Errors
/// The folder holds something already, or the disk refuses; then nothing of ours is left in it.
pub(super) fn new_folder(folder: &Path, lone: bool, voice: &mut Voice<'_>) -> Result<u8, Failure> {
    if folder.exists() {
        let mut entries = fs::read_dir(folder).map_err(|e| Failure::disk(folder, &e))?;
        if entries.next().is_some() {
            return Err(Failure::refused(format!(
                "{}: is not empty, and nothing is ever overwritten; give another name.",
                folder.display()
            )));
        }
    }
    let above = folder.parent().filter(|p| *p != Path::new(""));
    let in_shop = is_shop(above.unwrap_or(Path::new(".")));
    let shared = |name: &str| SHARED.contains(&name.split('.').next().unwrap_or(name));
    let files = starter_week().into_iter().filter_map(|(name, text)| {
        let place = match (lone, in_shop, shared(name)) {
            (true, _, _) | (false, true, false) => PathBuf::from(name),
            (false, true, true) => return None,
            (false, false, true) => PathBuf::from(name),
            (false, false, false) => Path::new(FIRST).join(name),
        };
        Some((place, text))
    });
    let files: Files = files.collect();
    let mut made = Made::default();
    let written = made.folder(folder).and_then(|()| {
        files.iter().try_for_each(|(name, text)| {
            let path = folder.join(name);
            made.folder(path.parent().unwrap_or(folder))?;
            made.file(&path, text)
        })
    });
    if let Err(e) = written {
        made.take_back();
        return Err(Failure::disk(folder, &e));
    }
    let week = if lone || in_shop {
        folder.to_owned()
    } else {
        folder.join(FIRST)
    };
    let names: Vec<String> = files.iter().map(|(n, _)| n.display().to_string()).collect();
    say(
        voice,
        &format!(
            "{}: wrote {}. Its shop, gates and prices are invented: put yours in.\n\
             Next: longpoint plan {}\n",
            folder.display(),
            names.join(", "),
            week.display()
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
