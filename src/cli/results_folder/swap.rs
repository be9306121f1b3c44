//! The fresh folder takes the place of the earlier one.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::super::durable::sync_folder;
use super::names::{Purpose, numbered};

/// Puts `fresh` at `target` and hands back where the earlier folder stands now; `None`: there was none.
///
/// Where the system can exchange two names that is one step. Elsewhere it is two, and the next run finishes
/// what a cut between them leaves: hidden names tell it what is missing.
///
/// # Errors
/// The disk refuses; then `target` is as it was.
pub(super) fn swap(fresh: &Path, target: &Path) -> io::Result<Option<PathBuf>> {
    if !target.exists() {
        fs::rename(fresh, target)?;
        settle(target);
        return Ok(None);
    }
    fs::set_permissions(fresh, fs::metadata(target)?.permissions())?;
    let old = match exchange(fresh, target) {
        Ok(()) => fresh.to_owned(),
        // Not every file system can; what refuses for another reason refuses the plain way, too.
        Err(_) => set_aside(fresh, target)?,
    };
    settle(target);
    Ok(Some(old))
}

/// The new names go to the disk before anything of the earlier folder is taken away.
fn settle(target: &Path) {
    if let Some(parent) = target.parent() {
        // The folders have changed places whatever the disk says now.
        let _ = sync_folder(parent);
    }
}

/// Exchanges two names in one step.
#[cfg(all(target_os = "linux", target_env = "gnu"))]
fn exchange(one: &Path, other: &Path) -> io::Result<()> {
    use nix::fcntl::{AT_FDCWD, RenameFlags, renameat2};
    let both = RenameFlags::RENAME_EXCHANGE;
    Ok(renameat2(AT_FDCWD, one, AT_FDCWD, other, both)?)
}

#[cfg(not(all(target_os = "linux", target_env = "gnu")))]
fn exchange(_: &Path, _: &Path) -> io::Result<()> {
    Err(io::ErrorKind::Unsupported.into())
}

/// Two steps: the earlier folder aside, the fresh one into its place.
fn set_aside(fresh: &Path, target: &Path) -> io::Result<PathBuf> {
    let mut names = (1..).map(|n| numbered(target, Purpose::Old, n));
    let free = names.find(|name| fs::symlink_metadata(name).is_err());
    let old = free.ok_or_else(|| io::Error::other("no free name"))?;
    fs::rename(target, &old)?;
    if let Err(e) = fs::rename(fresh, target) {
        let _ = fs::rename(&old, target);
        return Err(e);
    }
    Ok(old)
}
