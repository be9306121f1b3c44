//! `longpoint compare`: the same week under other stock, prices and rules.

use std::collections::BTreeSet;
use std::path::PathBuf;

use crate::compare::{Comparison, How, NoSuch, Offer, Outcome, Wishes, compare, joint_words};
use crate::measure::Length;
use crate::nest::Limits;
use crate::order::{Fault, Week};
use crate::part::take_off;
use crate::report::comparison::{DOCUMENT, FORMAT, results, text, weeks_results, weeks_text};
use crate::text::shown;

use super::arguments::CompareArguments;
use super::failure::{Failure, code};
use super::refusals::violations;
use super::results_folder::{Signature, finish_earlier, may_write, write_results};
use super::run::{say, say_document};
use super::stop::Stop;
use super::teller::Teller;
use super::threads::with_threads;
use super::voice::Voice;
use super::week_folder::{read_folders, tell};

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
    let target: PathBuf = match &arguments.printed.out {
        Some(out) => out.clone(),
        None => arguments.folder.join("comparison"),
    };
    voice.lines(&finish_earlier(&target, SIGNATURE));
    may_write(&target, SIGNATURE)?;
    let date = arguments.printed.date;
    let stop = Stop::listening();
    let teller = Teller::new(stop.clone());
    let limits = arguments.search.limits();
    let mut folders = vec![&arguments.folder];
    folders.extend(&arguments.weeks);
    let weeks = read_folders(&folders, date)?;
    let notices: Vec<Fault> = weeks.iter().flat_map(|w| w.notices.clone()).collect();
    tell(&notices, voice);
    one_currency(&weeks)?;
    let wishes = Wishes {
        lengths: lengths_of(&weeks),
        ..arguments.wishes()
    };
    let found = with_threads(arguments.printed.threads, || {
        let look = (&stop, &teller);
        let each = weeks.iter().map(|w| compared(w, &wishes, limits, look));
        each.collect::<Result<Vec<Comparison>, Failure>>()
    })??;
    // The day that all weeks are ordered on; of several days none is the sheet's.
    let first = weeks.first().and_then(|w| w.shop.buying.order_date);
    let agreed = weeks.iter().all(|w| w.shop.buying.order_date == first);
    let date = first.filter(|_| agreed).map(|day| day.to_string());
    let date = date.as_deref();
    let names: Vec<String> = folders.iter().map(|f| f.display().to_string()).collect();
    let (files, words) = match found.as_slice() {
        [one] => (results(one, date), text(one, date)),
        many => (
            weeks_results(many, &names, date),
            weeks_text(many, &names, date),
        ),
    };
    let files = files.map_err(|e| Failure::internal(e.to_string()))?;
    voice.lines(&write_results(&target, &files, SIGNATURE)?);
    let written = |failure: Failure| failure.but_written(&target);
    if arguments.printed.json {
        let document = files.iter().find(|(name, _)| name == DOCUMENT);
        // The document is JSON text; the lossless reading costs nothing.
        let words = document.map(|(_, bytes)| String::from_utf8_lossy(bytes));
        say_document(voice, words.as_deref().unwrap_or_default()).map_err(written)?;
    } else {
        say(voice, &words).map_err(written)?;
        voice.message(&format!(
            "Results: {}: text, CSV, workbook, plots and {DOCUMENT}.",
            target.display()
        ));
    }
    Ok(code::DONE)
}

/// Joint lengths that any of several weeks buys, so that each has its row in all of them.
fn lengths_of(weeks: &[Week]) -> Vec<Length> {
    if weeks.len() < 2 {
        return Vec::new();
    }
    let offers = weeks.iter().filter_map(|week| {
        let (taken, _) = take_off(week);
        Offer::of(week, &taken, None).ok()
    });
    let all: BTreeSet<Length> = offers.flat_map(|offer| offer.lengths).collect();
    all.into_iter().collect()
}

/// Money of several weeks can be told together only in one currency.
fn one_currency(weeks: &[Week]) -> Result<(), Failure> {
    let of = |w: &Week| w.shop.money.currency.clone();
    let Some(first) = weeks.first().map(of) else {
        return Ok(());
    };
    match weeks.iter().map(of).find(|c| *c != first) {
        None => Ok(()),
        Some(other) => Err(Failure::refused(format!(
            "--weeks: one week counts in {} and another in {}; give weeks of one currency.",
            shown(&first),
            shown(&other)
        ))),
    }
}

/// A week's comparison; a plan that the checker refuses ends it.
fn compared(
    week: &Week,
    wishes: &Wishes,
    limits: Limits,
    (stop, teller): (&Stop, &Teller),
) -> Result<Comparison, Failure> {
    let how = How {
        limits,
        watch: stop,
        told: &|name| teller.made(name),
    };
    let comparison = compare(week, wishes, how).map_err(|none| {
        Failure::refused(match none {
            NoSuch::Row(names) => format!(
                "--reference: no row of that name. The rows: {}.",
                shown(&names.join("; "))
            ),
            NoSuch::Lengths(lengths) => {
                let units = week.shop.units;
                let words: Vec<String> = lengths.iter().map(|l| joint_words(*l, units)).collect();
                format!(
                    "--pair: give two lengths on sale. These are: {}.",
                    words.join("; ")
                )
            }
        })
    })?;
    let refused = comparison.rows.iter().find_map(|row| match &row.outcome {
        Outcome::Refused(found) => Some((row, found)),
        _ => None,
    });
    match refused {
        Some((row, found)) => Err(Failure::internal(format!(
            "{}: {}",
            shown(&row.name),
            violations(found)
        ))),
        None => Ok(comparison),
    }
}
