//! `longpoint parts`: stop at the take-off.

use std::path::Path;

use jiff::civil::Date;

use crate::order::Severity;
use crate::part::take_off;
use crate::report::{take_off_json, take_off_text};

use super::failure::{Failure, code};
use super::refusals::impossible;
use super::run::{say, say_document};
use super::voice::Voice;
use super::week_folder::{read_folder, tell};

/// Lists the parts of a week on stdout.
///
/// # Errors
/// Bad input, or gates that cannot be made (unless `partial`).
pub(super) fn list_parts(
    folder: &Path,
    date: Option<Date>,
    (json, partial): (bool, bool),
    voice: &mut Voice<'_>,
) -> Result<u8, Failure> {
    let week = read_folder(folder, date)?;
    let (take_off, left_out) = take_off(&week);
    if !left_out.is_empty() && !partial {
        let faults = impossible(&week, &left_out, Severity::Error);
        let hint = "Nothing was listed; --partial lists the rest.\n";
        return Err(Failure::faulty(faults, hint).beside(&week.notices));
    }
    let mut notices = week.notices.clone();
    notices.extend(impossible(&week, &left_out, Severity::Warning));
    tell(&notices, voice);
    if json {
        let text = take_off_json(&week, &take_off, &left_out);
        say_document(voice, &text.map_err(|e| Failure::internal(e.to_string()))?)?;
    } else {
        say(voice, &take_off_text(&week, &take_off))?;
    }
    Ok(if left_out.is_empty() {
        code::DONE
    } else {
        code::PARTIAL
    })
}
