//! `longpoint splice`: windows and bending of one gate, as text and as a drawing.

use std::path::{Path, PathBuf};

use jiff::civil::Date;

use crate::check::check;
use crate::nest::Limits;
use crate::order::{Fault, Severity, Week};
use crate::part::take_off;
use crate::plan::{PlanOptions, make};
use crate::report::bending::{Bending, document, drawing, text};
use crate::report::svg;

use crate::text::shown;

use super::drawing_file::{DRAWING, may_draw, write_drawing};
use super::failure::{Failure, code};
use super::refusals::{impossible, violations};
use super::run::{say, say_document};
use super::stop::Stop;
use super::voice::Voice;
use super::week_folder::{read_folder, tell};

/// Prints one gate's windows, envelope and splices, as words or as a JSON document; with `svg` writes the drawing
/// to that file.
///
/// The splices are those of the week's plan; a week that cannot be planned whole is planned without
/// what is impossible, and says so.
///
/// # Errors
/// Bad input, no such gate, a gate that cannot be made, or a disk that refuses.
pub(super) fn splice_gate(
    folder: &Path,
    date: Option<Date>,
    gate: &str,
    shown: (Option<&PathBuf>, bool),
    voice: &mut Voice<'_>,
) -> Result<u8, Failure> {
    if let Some(path) = shown.0 {
        may_draw(path)?;
    }
    let week = read_folder(folder, date)?;
    let mut notices = week.notices.clone();
    show(week, gate, shown, (&mut notices, voice)).map_err(|failure| failure.beside(&notices))
}

/// As [`splice_gate`], of a week that is read: what is noticed is told before the result, together.
fn show(
    week: Week,
    gate: &str,
    shown: (Option<&PathBuf>, bool),
    (notices, voice): (&mut Vec<Fault>, &mut Voice<'_>),
) -> Result<u8, Failure> {
    let gate = find(&week, gate)?;
    let (take_off, left_out) = take_off(&week);
    let stop = Stop::listening();
    let options = PlanOptions {
        partial: true,
        date: week.shop.buying.order_date.map(|day| day.to_string()),
        revision: 0,
        limits: Limits::default(),
        watch: &stop,
        left_out,
        offers: &[],
        tail: &[],
    };
    let planned = make(&week, &take_off, &options);
    let missing = match &planned {
        Ok(plan) => &plan.left_out,
        Err(items) => items,
    };
    notices.extend(impossible(&week, missing, Severity::Warning));
    match planned {
        Ok(plan) => {
            let checked = check(week, take_off, plan)
                .map_err(|found| Failure::internal(violations(&found)))?;
            let view = Bending::planned(&checked, gate);
            write(view.as_ref(), shown, (notices, "", voice))
        }
        Err(_) => {
            let none = "No plan was made: the windows stand, no splices are shown.";
            let view = Bending::of(&week, &take_off, gate);
            write(view.as_ref(), shown, (notices, none, voice))
        }
    }
}

fn write(
    view: Option<&Bending<'_>>,
    (drawn, json): (Option<&PathBuf>, bool),
    (notices, none, voice): (&[Fault], &str, &mut Voice<'_>),
) -> Result<u8, Failure> {
    let Some(view) = view else {
        return Err(Failure::refused("This gate cannot be made as ordered.\n"));
    };
    if let Some(path) = drawn {
        write_drawing(path, &svg::file_of(&drawing(view), DRAWING))?;
    }
    tell(notices, voice);
    voice.message(none);
    let said = if json {
        let text = document(view, notices).map_err(|e| Failure::internal(e.to_string()))?;
        say_document(voice, &text)
    } else {
        say(voice, &text(view))
    };
    said.map_err(|failure| match drawn {
        Some(path) => failure.but_written(path),
        None => failure,
    })?;
    Ok(code::DONE)
}

/// The gate of that mark, without regard to case.
fn find(week: &Week, mark: &str) -> Result<usize, Failure> {
    let wanted = mark.trim().to_lowercase();
    let mut marks = week.gates.iter().map(|g| g.mark.as_str());
    if let Some(found) = marks.clone().position(|m| m.to_lowercase() == wanted) {
        return Ok(found);
    }
    let known: Vec<&str> = marks.by_ref().take(40).collect();
    Err(Failure::refused(format!(
        "{mark}: no gate of this week. Its gates: {}.",
        if known.is_empty() {
            "none".to_owned()
        } else {
            shown(&known.join(", "))
        }
    )))
}
