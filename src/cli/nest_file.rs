//! `longpoint nest`: a problem file of one's own, solved; `longpoint verify`: a certificate, checked again.

use std::collections::BTreeMap;
use std::path::Path;

use serde::{Deserialize, Serialize};

use crate::check::Violation;
use crate::check::certificate::{Checked, verify};
use crate::check::document::{PlanFile, judge_plan};
use crate::nest::{Answer, Item, PoolAnswer, Problem, Weighing, Whole, solve};
use crate::text::shown;

use super::arguments::NestArguments;
use super::failure::{Failure, code};
use super::judge_form::judge_form;
use super::nest_text::{answer_text, verified_text};
use super::refusals::{rule_by_rule, violations};
use super::run::{say, say_document};
use super::stop::Stop;
use super::teller::Teller;
use super::threads::with_threads;
use super::voice::Voice;

/// What `nest --json` prints and `verify` reads: a problem and its certified answer.
#[derive(Serialize)]
struct Document<'a> {
    format: &'static str,
    version: u32,
    problem: &'a Problem,
    answers: &'a [PoolAnswer],
    #[serde(skip_serializing_if = "Option::is_none")]
    whole: Option<&'a Whole>,
    #[serde(skip_serializing_if = "Option::is_none")]
    weighing: Option<Weighing>,
}

#[derive(Deserialize)]
struct Certified {
    problem: Problem,
    answers: Vec<PoolAnswer>,
    #[serde(default)]
    whole: Option<Whole>,
    #[serde(default)]
    weighing: Option<Weighing>,
}

/// Solves a problem file and prints patterns, splices, bound and status.
///
/// # Errors
/// The file cannot be read or makes no sense; an answer that the checker refuses.
pub(super) fn nest_file(arguments: &NestArguments, voice: &mut Voice<'_>) -> Result<u8, Failure> {
    let text = read(&arguments.file)?;
    let problem = read_problem(&arguments.file, &text)?;
    let teller = Teller::new(Stop::listening());
    let limits = arguments.search.limits();
    let answer = with_threads(arguments.threads, || solve(&problem, &limits, &teller))?;
    let answer = answer.map_err(|fault| {
        let file = arguments.file.display();
        let fault = shown(&fault.to_string());
        Failure::refused(format!("{file}: {fault}. Mend the file: {PAGE}\n"))
    })?;
    let found = verify(&problem, &answer.pools, answer.whole.as_ref());
    let found = found.map_err(|found| Failure::internal(violations(&found)))?;
    if arguments.json {
        let document = Document {
            format: "longpoint nest",
            version: 1,
            problem: &problem,
            answers: &answer.pools,
            whole: answer.whole.as_ref(),
            weighing: found.weighing,
        };
        let text = serde_json::to_string_pretty(&document);
        let text = text.map_err(|e| Failure::internal(e.to_string()))?;
        say_document(voice, &(text + "\n"))?;
    } else {
        say(voice, &answer_text(&problem, &answer, found.weighing))?;
    }
    Ok(if lacks_plan(&answer) {
        code::PARTIAL
    } else {
        code::DONE
    })
}

/// Where the form of a problem file is told.
const PAGE: &str = "data/cutting_lists.md explains every field, data/nest_problem.schema.json says what each \
                    may hold.";

/// A problem out of its text, whose form is judged before its numbers.
fn read_problem(file: &Path, text: &str) -> Result<Problem, Failure> {
    let document: serde_json::Value = serde_json::from_str(text).map_err(|e| misread(file, &e))?;
    let faults = judge_form(&file.display().to_string(), text, &document);
    if !faults.is_empty() {
        return Err(Failure::faulty(faults, format!("{PAGE}\n")));
    }
    let mut problem: Problem = serde_json::from_str(text).map_err(|e| misread(file, &e))?;
    for pool in &mut problem.pools {
        pool.items = add_up(&pool.items);
    }
    Ok(problem)
}

/// Items of one length and class are one item: their counts add up.
fn add_up(items: &[Item]) -> Vec<Item> {
    let mut out: Vec<Item> = Vec::with_capacity(items.len());
    let mut met: BTreeMap<(i64, u8), usize> = BTreeMap::new();
    for item in items {
        let at = *met.entry((item.length, item.class)).or_insert(out.len());
        match out.get_mut(at) {
            // A sum past all counts stays past them: the door refuses it by name.
            Some(known) => known.count = known.count.saturating_add(item.count),
            None => out.push(item.clone()),
        }
    }
    out
}

/// A pool, or the whole with its charges, has no plan: none can be, or none was found.
fn lacks_plan(answer: &Answer) -> bool {
    let pools = answer.pools.iter().map(|p| p.status);
    let mut all = pools.chain(answer.whole.iter().map(|w| w.status));
    all.any(|s| !s.has_plan())
}

/// What the file claims and does not prove.
fn unproved(file: &Path, found: &[Violation]) -> Failure {
    Failure::internal(format!(
        "{}: this file's certificate does not hold: it was changed after it was written, or its program \
         erred.\n{}",
        file.display(),
        rule_by_rule(found)
    ))
}

/// Re-checks the certificate of a plan.json or of what `nest --json` printed.
///
/// # Errors
/// The file cannot be read, or a claim is not proved (exit code 1).
pub(super) fn verify_file(file: &Path, voice: &mut Voice<'_>) -> Result<u8, Failure> {
    let text = read(file)?;
    let mut document: serde_json::Value =
        serde_json::from_str(&text).map_err(|e| misread(file, &e))?;
    let unread = |e: serde_json::Error| {
        let file = file.display();
        let e = shown(&e.to_string());
        Failure::refused(format!(
            "{file}: no certificate can be read: {e}. Give a plan.json or what nest --json prints.\n"
        ))
    };
    let mut plan: Option<(serde_json::Value, PlanFile)> = None;
    if let Some(inner) = document.get_mut("nest") {
        let inner = inner.take();
        let file = serde_json::from_value(document.clone()).map_err(unread)?;
        plan = Some((document, file));
        document = inner;
    }
    let certified: Certified = serde_json::from_value(document).map_err(unread)?;
    let Certified {
        problem,
        answers,
        whole,
        weighing,
    } = certified;
    let found: Checked =
        verify(&problem, &answers, whole.as_ref()).map_err(|found| unproved(file, &found))?;
    if weighing.is_some() && weighing != found.weighing {
        let what = format!(
            "{}: it weighs by {weighing:?}, the problem by {:?}.\n",
            file.display(),
            found.weighing
        );
        return Err(Failure::internal(what));
    }
    if let Some((document, plan)) = &plan {
        let nest = (&problem, answers.as_slice(), whole.as_ref());
        let judged = judge_plan(document, plan, nest);
        judged.map_err(|found| unproved(file, &found))?;
    }
    let plan = plan.map(|(_, plan)| plan);
    say(
        voice,
        &verified_text(plan.as_ref(), &problem, &answers, whole.as_ref(), &found),
    )?;
    Ok(code::DONE)
}

fn read(file: &Path) -> Result<String, Failure> {
    let name = file.display();
    let bytes = std::fs::read(file)
        .map_err(|e| Failure::refused(format!("{name}: {e}. Give the path of a JSON file.\n")))?;
    String::from_utf8(bytes)
        .map_err(|_| Failure::refused(format!("{name}: not UTF-8 text. Save it as UTF-8.\n")))
}

fn misread(file: &Path, error: &serde_json::Error) -> Failure {
    let (line, column) = (error.line(), error.column());
    let what = error.to_string();
    let what = shown(what.split(" at line ").next().unwrap_or_default());
    let file = file.display();
    Failure::refused(format!(
        "{file}, line {line}, column {column}: {what}. {PAGE}\n"
    ))
}
