//! `longpoint cut-now`: what the rack alone completes today.

use std::path::PathBuf;

use crate::check::check;
use crate::measure::Units;
use crate::nest::Limits;
use crate::order::{Severity, Week};
use crate::part::take_off;
use crate::plan::{PlanOptions, Unit, in_due_order, make};
use crate::report::paper::Paper;
use crate::report::{DOCUMENT, built_text, day_text, results, summary};

use super::arguments::CutNowArguments;
use super::failure::{Failure, code};
use super::plan_week::where_to;
use super::refusals::{impossible, violations};
use super::results_folder::{PLAN, finish_earlier, may_write, write_results};
use super::run::{say, say_document};
use super::stop::Stop;
use super::threads::with_threads;
use super::voice::Voice;
use super::week_folder::{read_folder, tell};

/// Plans what the rack alone completes, in due order, through the ordinary plan, check and report.
///
/// # Errors
/// Bad input, nothing that can be completed, a plan that the checker refuses, or a disk that refuses:
/// nothing is written.
pub(super) fn cut_now(arguments: &CutNowArguments, voice: &mut Voice<'_>) -> Result<u8, Failure> {
    let target: PathBuf = match &arguments.printed.out {
        Some(out) => out.clone(),
        None => arguments.folder.join("cut_now"),
    };
    voice.lines(&finish_earlier(&target, PLAN));
    let date = arguments.printed.date;
    let mut week = read_folder(&arguments.folder, date)?;
    tell(&week.notices, voice);
    may_write(&target, PLAN)?;
    // Nothing is bought: what is on sale is as good as not there.
    week.quotes.clear();
    week.shop.money.spares.clear();
    let ordered = week.shop.buying.order_date.map(|day| day.to_string());
    let stop = Stop::listening();
    let (built, checked) = with_threads(arguments.printed.threads, || {
        let built = in_due_order(&week, Unit::Copies, &stop);
        if completed(&built.week) == 0 {
            return Err(Failure::refused(format!(
                "{}The rack completes no gate and no extra part today; nothing was written.",
                built_text(&built)
            )));
        }
        let (taken, left_out) = take_off(&built.week);
        let options = PlanOptions {
            partial: false,
            date: ordered.clone(),
            revision: 0,
            limits: Limits::default(),
            watch: &stop,
            left_out,
            offers: &[],
            tail: &[],
        };
        let plan = make(&built.week, &taken, &options).map_err(|items| {
            Failure::faulty(impossible(&built.week, &items, Severity::Error), "")
        })?;
        let checked = check(built.week.clone(), taken, plan)
            .map_err(|found| Failure::internal(violations(&found)))?;
        Ok((built, checked))
    })??;
    let paper = match checked.week().shop.units {
        Units::Inch => Paper::Letter,
        Units::Metric => Paper::A4,
    };
    let files = results(&checked, paper).map_err(|e| Failure::internal(e.to_string()))?;
    voice.lines(&write_results(&target, &files, PLAN)?);
    let told = if arguments.printed.json {
        let document = files.iter().find(|(name, _)| name == DOCUMENT);
        // The document is JSON text; the lossless reading costs nothing.
        let words = document.map(|(_, bytes)| String::from_utf8_lossy(bytes));
        voice.message(&(built_text(&built) + &day_text(&checked)));
        say_document(voice, words.as_deref().unwrap_or_default())
    } else {
        say(
            voice,
            &format!(
                "{}{}\n{}",
                built_text(&built),
                day_text(&checked),
                summary(&checked, &where_to(&target))
            ),
        )
    };
    told.map_err(|failure| failure.but_written(&target))?;
    Ok(if built.passed_over.is_empty() {
        code::DONE
    } else {
        code::PARTIAL
    })
}

/// Gates and extra parts with something to build.
fn completed(week: &Week) -> usize {
    let gates = week.gates.iter().filter(|g| g.count > 0).count();
    gates + week.extras.iter().filter(|e| e.count > 0).count()
}
