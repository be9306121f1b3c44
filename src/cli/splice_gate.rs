//! `longpoint splice`: windows and bending of one gate, as text and as a drawing.

use std::fs;
use std::path::{Path, PathBuf};

use jiff::civil::Date;

use crate::check::check;
use crate::nest::Limits;
use crate::order::Week;
use crate::part::take_off;
use crate::plan::{PlanOptions, make};
use crate::report::bending::{Bending, drawing, text};
use crate::report::svg;

use super::failure::{Failure, code};
use super::refusals::{impossible, violations};
use super::run::say;
use super::stop::Stop;
use super::voice::Voice;
use super::week_folder::read_folder;

/// Prints one gate's windows, envelope and splices; with `svg` writes the drawing to that file.
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
    drawn: Option<&PathBuf>,
    voice: &mut Voice<'_>,
) -> Result<u8, Failure> {
    let week = read_folder(folder, date, voice)?;
    let gate = find(&week, gate)?;
    let (take_off, left_out) = take_off(&week);
    voice.message(&impossible(&week, &left_out));
    let stop = Stop::listening();
    let options = PlanOptions {
        partial: true,
        date: week.shop.buying.order_date.map(|day| day.to_string()),
        revision: 0,
        limits: Limits::default(),
        watch: &stop,
        left_out,
        offers: &[],
    };
    let done = match make(&week, &take_off, &options) {
        Ok(plan) => {
            let checked = check(week, take_off, plan)
                .map_err(|found| Failure::internal(violations(&found)))?;
            let mut missing = checked.plan().left_out.clone();
            missing.retain(|item| !options.left_out.contains(item));
            voice.message(&impossible(checked.week(), &missing));
            write(Bending::planned(&checked, gate).as_ref(), drawn, voice)?
        }
        Err(items) => {
            voice.message(&impossible(&week, &items));
            voice.message("No plan was made: the windows stand, no splices are shown.");
            write(Bending::of(&week, &take_off, gate).as_ref(), drawn, voice)?
        }
    };
    Ok(done)
}

fn write(
    view: Option<&Bending<'_>>,
    drawn: Option<&PathBuf>,
    voice: &mut Voice<'_>,
) -> Result<u8, Failure> {
    let Some(view) = view else {
        return Err(Failure::refused("This gate cannot be made as ordered.\n"));
    };
    if let Some(path) = drawn {
        fs::write(path, svg::file(&drawing(view))).map_err(|e| Failure::disk(path, &e))?;
    }
    say(voice, &text(view))?;
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
            known.join(", ")
        }
    )))
}
