//! `longpoint plan`: the main job, from the folder to the results folder.

use std::path::{Path, PathBuf};

use crate::check::{CheckedPlan, check};
use crate::gate::standoff_notices;
use crate::measure::Units;
use crate::order::{Severity, Week};
use crate::part::take_off;
use crate::plan::{PlanOptions, keep_notices, make};
use crate::report::paper::Paper;
use crate::report::{DOCUMENT, ResultFile, SET, results, summary};
use crate::statics::stress_notices;

use super::arguments::PlanArguments;
use super::failure::{Failure, code};
use super::handed_out::not_handed_out;
use super::refusals::{impossible, violations};
use super::results_folder::{PLAN, earlier_sheets, finish_earlier, may_write, write_results};
use super::run::{say, say_document};
use super::stop::Stop;
use super::teller::Teller;
use super::threads::with_threads;
use super::voice::Voice;
use super::week_folder::{read_folder, tell};

/// Plans a week, writes its sheets, says the summary (or with `--json` the document).
///
/// # Errors
/// Bad input, impossible work, a plan that the checker refuses, or a disk that refuses: nothing is
/// written.
pub(super) fn plan_week(arguments: &PlanArguments, voice: &mut Voice<'_>) -> Result<u8, Failure> {
    let target = match &arguments.printed.out {
        Some(out) => out.clone(),
        None => arguments.folder.join("results"),
    };
    voice.lines(&finish_earlier(&target, PLAN));
    not_handed_out(&arguments.folder, &target, arguments.as_if_new)?;
    let (checked, files, said) = read_and_plan(&target, arguments).map_err(|mut failure| {
        if let Some(words) = earlier_sheets(&target) {
            let whole = failure.message.is_empty() || failure.message.ends_with('\n');
            let end = if whole { "" } else { "\n" };
            failure.message.push_str(&format!("{end}{words}\n"));
        }
        failure
    })?;
    // What was noticed on the way and what is left out: one list, one count.
    let left_out = &checked.plan().left_out;
    let mut notices = checked.week().notices.clone();
    notices.extend(impossible(checked.week(), left_out, Severity::Warning));
    tell(&notices, voice);
    voice.lines(&said);
    let told = if arguments.printed.json {
        let document = files.iter().find(|(name, _)| name == DOCUMENT);
        // The document is JSON text; the lossless reading costs nothing.
        let text = document.map(|(_, bytes)| String::from_utf8_lossy(bytes));
        say_document(voice, text.as_deref().unwrap_or_default())
    } else {
        say(voice, &summary(&checked, &where_to(&target)))
    };
    told.map_err(|failure| failure.but_written(&target))?;
    Ok(if left_out.is_empty() {
        code::DONE
    } else {
        code::PARTIAL
    })
}

/// A plan with its sheets written, and what there is to say of that.
type Written = (CheckedPlan, Vec<ResultFile>, Vec<String>);

fn read_and_plan(target: &Path, arguments: &PlanArguments) -> Result<Written, Failure> {
    let week = read_folder(&arguments.folder, arguments.printed.date)?;
    let notices = week.notices.clone();
    planned(target, arguments, week).map_err(|failure| failure.beside(&notices))
}

fn planned(target: &Path, arguments: &PlanArguments, week: Week) -> Result<Written, Failure> {
    may_write(target, PLAN)?;
    let teller = Teller::of_money(Stop::listening());
    let checked = with_threads(arguments.printed.threads, || plan(arguments, week, &teller))??;
    let paper = arguments.paper.unwrap_or(match checked.week().shop.units {
        Units::Inch => Paper::Letter,
        Units::Metric => Paper::A4,
    });
    let files = results(&checked, paper).map_err(|e| Failure::internal(e.to_string()))?;
    let said = write_results(target, &files, PLAN)?;
    Ok((checked, files, said))
}

/// Where the sheets are, in words.
pub(super) fn where_to(target: &Path) -> String {
    let first: PathBuf = target.join(SET);
    format!(
        "{} to print, and every sheet as text and CSV beside it",
        first.display()
    )
}

fn plan(
    arguments: &PlanArguments,
    mut week: Week,
    teller: &Teller,
) -> Result<CheckedPlan, Failure> {
    let (take_off, left_out) = take_off(&week);
    let options = PlanOptions {
        partial: arguments.partial,
        date: week.shop.buying.order_date.map(|day| day.to_string()),
        revision: arguments.revision,
        limits: arguments.search.limits(),
        watch: teller,
        left_out,
        offers: &[],
        tail: &[],
    };
    let plan = make(&week, &take_off, &options).map_err(|items| {
        let named = items.iter().any(|i| i.gate.is_some() || i.extra.is_some());
        let hint = if !named {
            "Nothing was written.\n"
        } else if arguments.partial {
            ""
        } else {
            "Nothing was written; --partial plans the rest of the week.\n"
        };
        Failure::faulty(impossible(&week, &items, Severity::Error), hint)
    })?;
    let short = standoff_notices(&week, &take_off.frames);
    let kept = keep_notices(&week, &take_off, &plan);
    let stressed = stress_notices(&week, &take_off.frames);
    let found = short.into_iter().chain(stressed).chain(kept);
    week.notices.extend(found);
    check(week, take_off, plan).map_err(|found| Failure::internal(violations(&found)))
}
