//! Arguments → command → exit code.

use std::error::Error;
use std::ffi::OsString;

use clap::Parser;
use clap::error::{ContextKind, ContextValue, ErrorKind};

use crate::text::shown;

use super::arguments::{Arguments, Command};
use super::compare_week::compare_week;
use super::cut_now::cut_now;
use super::failure::{Failure, code};
use super::issue::issue;
use super::list_parts::list_parts;
use super::nest_file::{nest_file, verify_file};
use super::new_week::new_folder;
use super::plan_week::plan_week;
use super::splice_gate::splice_gate;
use super::stand::stand;
use super::tell::tell_week;
use super::voice::Voice;
use super::yard::yard;

/// Runs one command line; the first argument is the program's own name.
pub fn run(arguments: impl Iterator<Item = OsString>, voice: &mut Voice<'_>) -> u8 {
    let arguments: Vec<OsString> = arguments.collect();
    let json = wants_json(&arguments);
    if let Some(what) = unseen(&arguments) {
        return tell(&Failure::refused(what), json, voice);
    }
    let arguments = match Arguments::try_parse_from(arguments) {
        Ok(arguments) => arguments,
        Err(refusal) => return refuse(&refusal, json, voice),
    };
    let done = match &arguments.command {
        Command::New { folder, lone } => new_folder(folder, *lone, voice),
        Command::Issue { folder, results } => issue(folder, results.as_deref(), voice),
        Command::Tell(asked) => tell_week(asked, voice),
        Command::Stand(asked) => stand(asked, voice),
        Command::Yard { command } => yard(command, voice),
        Command::Nest(nest) => nest_file(nest, voice),
        Command::Verify { file } => verify_file(file, voice),
        Command::Plan(plan) => plan_week(plan, voice),
        Command::Compare(asked) => compare_week(asked, voice),
        Command::CutNow(asked) => cut_now(asked, voice),
        Command::Parts {
            folder,
            json,
            partial,
            date,
        } => list_parts(folder, *date, (*json, *partial), voice),
        Command::Splice {
            folder,
            gate,
            svg,
            json,
            date,
        } => splice_gate(folder, *date, gate, (svg.as_ref(), *json), voice),
    };
    match done {
        Ok(code) => code,
        Err(failure) => tell(&failure, json, voice),
    }
}

/// Why there is no result: in words on stderr, and for a program on stdout; the exit code.
fn tell(failure: &Failure, json: bool, voice: &mut Voice<'_>) -> u8 {
    voice.message(&failure.text());
    if json {
        // Where stdout itself refuses, stderr has told all there is to tell.
        let _ = voice.document(&failure.json());
    }
    failure.code
}

/// Whether one JSON document was asked for; what follows `--` is no option.
fn wants_json(arguments: &[OsString]) -> bool {
    let mut options = arguments.iter().take_while(|a| *a != "--");
    options.any(|a| a == "--json")
}

/// Help and version are results; anything else is a message.
fn refuse(refusal: &clap::Error, json: bool, voice: &mut Voice<'_>) -> u8 {
    let text = misused(refusal).unwrap_or_else(|| refusal.render().to_string());
    if refusal.use_stderr() {
        tell(&Failure::refused(text), json, voice)
    } else {
        say(voice, &text).map_or_else(|f| f.code, |()| code::DONE)
    }
}

/// An option's value that cannot be: what is wrong with it and how to mend it; `None` for other slips.
fn misused(refusal: &clap::Error) -> Option<String> {
    let said = |kind| match refusal.get(kind) {
        Some(ContextValue::String(text)) => Some(text.as_str()),
        _ => None,
    };
    let (option, value) = (
        said(ContextKind::InvalidArg)?,
        said(ContextKind::InvalidValue)?,
    );
    let name = option.split(' ').next().unwrap_or(option);
    let why = match (refusal.kind(), refusal.source()) {
        (ErrorKind::ValueValidation, Some(why)) => why.to_string(),
        _ if value.is_empty() => format!("give a value: {option}"),
        _ => return None,
    };
    let value = if value.is_empty() {
        String::new()
    } else {
        format!(" {value}")
    };
    Some(format!("{name}{value}: {why}.\n"))
}

/// An argument that holds a line break or another control character: never meant, and never shown as it is.
fn unseen(arguments: &[OsString]) -> Option<String> {
    let texts = arguments.iter().skip(1).map(|a| a.to_string_lossy());
    let found = texts.into_iter().find(|a| a.contains(char::is_control))?;
    Some(format!(
        "{}: a line break or another control character is in this argument: take it away; a file or folder of \
         such a name must be renamed.\n",
        shown(&found)
    ))
}

/// A result on stdout.
///
/// # Errors
/// Stdout refuses for another reason than a reader that has gone away.
pub(super) fn say(voice: &mut Voice<'_>, text: &str) -> Result<(), Failure> {
    voice.result(text).map_err(|e| Failure::output(&e))
}

/// A JSON document on stdout.
///
/// # Errors
/// As [`say`].
pub(super) fn say_document(voice: &mut Voice<'_>, text: &str) -> Result<(), Failure> {
    voice.document(text).map_err(|e| Failure::output(&e))
}
