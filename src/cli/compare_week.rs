//! `longpoint compare`: the same week under other stock, prices and rules.

use std::path::PathBuf;

use crate::compare::{Comparison, How, Outcome, Wishes, compare};
use crate::nest::Limits;
use crate::order::Week;
use crate::report::comparison::{DOCUMENT, FORMAT, results, text};

use super::arguments::CompareArguments;
use super::failure::{Failure, code};
use super::refusals::violations;
use super::results_folder::{Signature, may_write, write_results};
use super::run::say;
use super::stop::Stop;
use super::threads::with_threads;
use super::voice::Voice;
use super::week_folder::read_folder;

/// How a comparison's folder is known as ours.
const SIGNATURE: Signature = Signature {
    document: DOCUMENT,
    format: FORMAT,
};

/// Compares a week under its variants, writes sheet, workbook and plots, says the sheet (or with `--json`
/// the document).
///
/// # Errors
/// Bad input, a plan that the checker refuses, a reference that is no row, or a disk that refuses:
/// nothing is written.
pub(super) fn compare_week(
    arguments: &CompareArguments,
    voice: &mut Voice<'_>,
) -> Result<u8, Failure> {
    let target: PathBuf = match &arguments.out {
        Some(out) => out.clone(),
        None => arguments.folder.join("comparison"),
    };
    let stop = Stop::listening();
    let week = read_folder(&arguments.folder, arguments.date.as_deref(), voice)?;
    may_write(&target, SIGNATURE)?;
    let comparison = with_threads(arguments.threads, || {
        compared(&week, &arguments.wishes(), &stop)
    })??;
    let date = arguments.date.as_deref();
    let files = results(&comparison, date).map_err(|e| Failure::internal(e.to_string()))?;
    write_results(&target, &files, SIGNATURE)?;
    if arguments.json {
        let document = files.iter().find(|(name, _)| name == DOCUMENT);
        // The document is JSON text; the lossless reading costs nothing.
        let words = document.map(|(_, bytes)| String::from_utf8_lossy(bytes));
        say(voice, words.as_deref().unwrap_or_default())?;
    } else {
        say(voice, &text(&comparison, date))?;
        voice.message(&format!(
            "Results: {}, with plots as SVG and PNG beside it.",
            target.join("comparison.xlsx").display()
        ));
    }
    Ok(code::DONE)
}

/// A week's comparison; a plan that the checker refuses ends it.
fn compared(week: &Week, wishes: &Wishes, stop: &Stop) -> Result<Comparison, Failure> {
    let how = How {
        limits: Limits::default(),
        watch: stop,
    };
    let comparison = compare(week, wishes, how).map_err(|names| {
        Failure::refused(format!(
            "--reference: no row of that name. The rows: {}.",
            names.join("; ")
        ))
    })?;
    let refused = comparison.rows.iter().find_map(|row| match &row.outcome {
        Outcome::Refused(found) => Some((row, found)),
        _ => None,
    });
    match refused {
        Some((row, found)) => Err(Failure::internal(format!(
            "{}: {}",
            row.name,
            violations(found)
        ))),
        None => Ok(comparison),
    }
}
