//! The yard as lines of JSON: a backup that is readable without us, and the way back.
//!
//! A line is `{"entry":N,"told":{…}}`, the entry as stored; behind an issued one a line
//! `{"plan":ID,"document":"…","files":[{"name","text" or "hex"}]}`. The same database gives the same
//! lines, and those the same database.

use std::io::{self, BufRead, Write};
use std::path::PathBuf;

use rusqlite::TransactionBehavior;
use serde::{Deserialize, Serialize};

use super::entries::{insert, last};
use super::plans::{self, PlanFile, StoredPlan};
use super::{Store, StoreFault};
use crate::yard::{Entry, EntryId, Told};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct EntryLine {
    entry: u64,
    told: Entry,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PlanLine {
    plan: EntryId,
    document: String,
    files: Vec<FileLine>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FileLine {
    name: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    text: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    hex: Option<String>,
}

/// What an import came to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Restored {
    /// Entries written.
    pub entries: u64,
    /// Plans among them.
    pub plans: u64,
}

impl Store {
    /// Writes every entry and plan as lines.
    ///
    /// # Errors
    /// The database cannot be read, or the writing is refused.
    pub fn export(&self, to: &mut dyn Write) -> Result<u64, StoreFault> {
        let mut refused: Result<(), StoreFault> = Ok(());
        let mut count = 0;
        self.lines(&mut |number, line| {
            if refused.is_err() {
                return;
            }
            count = number;
            refused = self.export_line(number, line, to);
        })?;
        refused.map(|()| count)
    }

    fn export_line(&self, number: u64, line: &str, to: &mut dyn Write) -> Result<(), StoreFault> {
        let disk = |e: &io::Error| StoreFault::disk(&self.path, e);
        writeln!(to, "{{\"entry\":{number},\"told\":{line}}}").map_err(|e| disk(&e))?;
        // Only issued entries have plans; their kind is the first word of what they tell.
        if !line.contains("\"told\":{\"issued\":") {
            return Ok(());
        }
        let entry = Entry::from_line(line).map_err(|why| {
            StoreFault::Unfit(self.path.clone(), format!("entry {number}: {why}"))
        })?;
        if let Some(plan) = self.plan(&entry.id)? {
            let line = PlanLine {
                plan: entry.id,
                document: plan.document,
                files: plan.files.into_iter().map(FileLine::of).collect(),
            };
            let text = serde_json::to_string(&line)
                .map_err(|e| StoreFault::Refused(self.path.clone(), e.to_string()))?;
            writeln!(to, "{text}").map_err(|e| disk(&e))?;
        }
        Ok(())
    }

    /// Reads lines into an empty yard: all of them or none. `source` is what messages call them.
    ///
    /// # Errors
    /// The yard is not empty, a line is wrong (which, and how), or the disk refuses.
    pub fn import(&mut self, from: &mut dyn BufRead, source: &str) -> Result<Restored, StoreFault> {
        self.writable()?;
        let path = self.path.clone();
        let fault = |e: &rusqlite::Error| StoreFault::of(&path, e);
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(|e| fault(&e))?;
        if last(&transaction).map_err(|e| fault(&e))? != (0, 0) {
            let why = "something was told here already; import goes into an empty yard".to_owned();
            return Err(StoreFault::Refused(path.clone(), why));
        }
        let (mut hash, mut done) = (
            0,
            Restored {
                entries: 0,
                plans: 0,
            },
        );
        let mut issued: Option<EntryId> = None;
        for (at, line) in (1u64..).zip(from.lines()) {
            let wrong = |why: String| {
                StoreFault::Refused(PathBuf::from(source), format!("line {at}: {why}"))
            };
            let line = line.map_err(|e| wrong(e.to_string()))?;
            if line.trim().is_empty() {
                continue;
            }
            match read_line(&line).map_err(wrong)? {
                Line::Entry(number, entry) if number == done.entries + 1 => {
                    done.entries = number;
                    issued = matches!(entry.told, Told::Issued(_)).then(|| entry.id.clone());
                    hash = insert(&transaction, number, hash, &entry)
                        .map_err(|e| wrong(e.to_string()))?;
                }
                Line::Entry(number, _) => {
                    return Err(wrong(format!(
                        "entry {number} where entry {} is wanted",
                        done.entries + 1
                    )));
                }
                Line::Plan(id, plan) if issued.as_ref() == Some(&id) => {
                    issued = None;
                    done.plans += 1;
                    plans::write(&transaction, &id, &plan.document, &plan.files)
                        .map_err(|e| wrong(e.to_string()))?;
                }
                Line::Plan(id, _) => {
                    return Err(wrong(format!(
                        "a plan that the entry before did not issue: {id}"
                    )));
                }
            }
        }
        transaction.commit().map_err(|e| fault(&e))?;
        Ok(done)
    }
}

enum Line {
    Entry(u64, Box<Entry>),
    Plan(EntryId, StoredPlan),
}

fn read_line(line: &str) -> Result<Line, String> {
    if line.starts_with("{\"plan\"") {
        let plan: PlanLine = serde_json::from_str(line).map_err(|e| e.to_string())?;
        let files = plan.files.into_iter().map(FileLine::bytes);
        let stored = StoredPlan {
            document: plan.document,
            files: files.collect::<Result<_, _>>()?,
        };
        return Ok(Line::Plan(plan.plan, stored));
    }
    match serde_json::from_str::<EntryLine>(line) {
        Ok(read) if read.told.form <= crate::yard::FORM => {
            Ok(Line::Entry(read.entry, Box::new(read.told)))
        }
        Ok(read) => Err(format!("entry {}: a newer longpoint wrote it", read.entry)),
        Err(wrong) => Err(format!("it is no line of a yard: {wrong}")),
    }
}

impl FileLine {
    fn of(file: PlanFile) -> FileLine {
        let (text, hex) = match String::from_utf8(file.bytes) {
            Ok(text) => (Some(text), None),
            Err(not) => {
                let bytes = not.into_bytes();
                let hex = bytes.iter().map(|b| format!("{b:02x}")).collect();
                (None, Some(hex))
            }
        };
        FileLine {
            name: file.name,
            text,
            hex,
        }
    }

    fn bytes(self) -> Result<PlanFile, String> {
        let wrong = || format!("the file {} has no bytes", self.name);
        let bytes = match (self.text, self.hex) {
            (Some(text), None) => text.into_bytes(),
            (None, Some(hex)) if hex.is_ascii() && hex.len() % 2 == 0 => (0..hex.len())
                .step_by(2)
                .map(|at| u8::from_str_radix(&hex[at..at + 2], 16))
                .collect::<Result<_, _>>()
                .map_err(|e| format!("the file {}: {e}", self.name))?,
            _ => return Err(wrong()),
        };
        Ok(PlanFile {
            name: self.name,
            bytes,
        })
    }
}
