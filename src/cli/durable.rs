//! Writing through to the disk itself, so that not even a power cut leaves half of it.

use std::fs::File;
use std::io::{self, Write};
use std::path::Path;

/// A file that was not there, with these bytes on the disk.
pub(super) fn write_new(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = File::create_new(path)?;
    file.write_all(bytes)?;
    // Some disks say only now that they are full.
    file.sync_all()
}

/// Waits until the entries of a folder are on the disk. Where the system knows no such wait there is nothing
/// to do.
pub(super) fn sync_folder(path: &Path) -> io::Result<()> {
    if !cfg!(unix) {
        return Ok(());
    }
    match File::open(path)?.sync_all() {
        Err(e)
            if matches!(
                e.kind(),
                io::ErrorKind::InvalidInput | io::ErrorKind::Unsupported
            ) =>
        {
            Ok(())
        }
        other => other,
    }
}
