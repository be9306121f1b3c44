//! Whether a results folder is ours, and which of its files are.

use std::collections::BTreeSet;
use std::ffi::OsString;
use std::fs;
use std::path::Path;

use serde::Deserialize;

use crate::report::{DOCUMENT, FORMAT, ResultFile};

use super::super::failure::Failure;
use super::working::MARKER;

/// How a results folder is known as ours: a document that says its format and lists our files.
#[derive(Clone, Copy, Debug)]
pub(in crate::cli) struct Signature {
    /// The document's name.
    pub document: &'static str,
    /// Its `format`.
    pub format: &'static str,
}

/// A plan's results folder.
pub(in crate::cli) const PLAN: Signature = Signature {
    document: DOCUMENT,
    format: FORMAT,
};

/// Names in `target` that longpoint did not write. Refuses a folder that is not ours, and a
/// stranger that stands where one of `files` must go.
pub(super) fn strangers(
    target: &Path,
    files: &[ResultFile],
    sign: Signature,
) -> Result<Vec<OsString>, Failure> {
    if !target.exists() {
        return Ok(Vec::new());
    }
    if !target.is_dir() {
        return Err(Failure::refused(format!(
            "{}: a file is in the way; give another folder with --out.",
            target.display()
        )));
    }
    let mut found = Vec::new();
    for entry in fs::read_dir(target).map_err(|e| Failure::disk(target, &e))? {
        found.push(entry.map_err(|e| Failure::disk(target, &e))?.file_name());
    }
    found.sort();
    if found.is_empty() {
        return Ok(found);
    }
    let Some(ours) = written_by_us(target, sign) else {
        return Err(Failure::refused(format!(
            "{}: holds files that longpoint did not write, so it is left alone; empty it or give \
             another folder with --out.",
            target.display()
        )));
    };
    found.retain(|name| !name.to_str().is_some_and(|n| ours.contains(n)));
    let clash = found.iter().find(|name| {
        files
            .iter()
            .any(|(file, _)| name.as_os_str() == file.as_str())
    });
    match clash {
        Some(name) => Err(Failure::refused(format!(
            "{}: not written by longpoint and in the way of a sheet; move it.",
            target.join(name).display()
        ))),
        None => Ok(found),
    }
}

/// File names listed in a results folder's document, and the working folder's marker; `None` when the
/// folder is not ours.
pub(super) fn written_by_us(target: &Path, sign: Signature) -> Option<BTreeSet<String>> {
    let names = document_of(target, sign)?.files;
    Some(names.into_iter().chain([MARKER.to_owned()]).collect())
}

/// What a results folder's document says of the folder; all the rest of it, which may be large, is passed over.
#[derive(Deserialize)]
pub(super) struct Document {
    format: String,
    files: Vec<String>,
    /// The plan's number, where it is a plan.
    pub plan: Option<String>,
}

/// A results folder's document; `None` when it is not ours.
pub(super) fn document_of(target: &Path, sign: Signature) -> Option<Document> {
    let text = fs::read_to_string(target.join(sign.document)).ok()?;
    let document: Document = serde_json::from_str(&text).ok()?;
    (document.format == sign.format).then_some(document)
}
