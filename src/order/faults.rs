//! `Faults`: every fault of every file, collected; `Spot`: the place a fault stands at.

use std::collections::BTreeSet;

use super::fault::line_words;
use super::{Fault, Origin, Severity};
use crate::measure::{FaultCode, Misread};
use crate::text::Snag;

/// A place in a file.
#[derive(Clone, Debug)]
pub(super) struct Spot {
    pub file: String,
    /// Of a workbook: the sheet.
    pub sheet: Option<String>,
    pub line: Option<u32>,
    /// Of a workbook: the cell (`C5`).
    pub cell: Option<String>,
    pub column: Option<String>,
    /// The value as written.
    pub value: Option<String>,
}

impl Spot {
    /// A whole file.
    pub fn file(file: &str) -> Spot {
        Spot {
            file: file.to_owned(),
            sheet: None,
            line: None,
            cell: None,
            column: None,
            value: None,
        }
    }

    /// One value of one line.
    pub fn at(file: &str, line: u32, column: &str, value: &str) -> Spot {
        Spot {
            line: Some(line),
            column: Some(column.to_owned()),
            value: (!value.is_empty()).then(|| value.to_owned()),
            ..Spot::file(file)
        }
    }

    fn fault(&self, (severity, code): (Severity, FaultCode), what: &str, mend: &str) -> Fault {
        Fault {
            severity,
            code,
            file: self.file.clone(),
            sheet: self.sheet.clone(),
            line: self.line,
            cell: self.cell.clone(),
            column: self.column.clone(),
            value: self.value.clone(),
            what: what.to_owned(),
            mend: mend.to_owned(),
        }
    }

    /// The row in words: `stock.csv, line 4`; of a setting its key.
    pub fn place(&self) -> String {
        match (self.line, &self.column) {
            (Some(line), _) => format!("{}, {}", self.file, line_words(&self.file, line)),
            (None, Some(key)) => format!("{}, {key}", self.file),
            (None, None) => self.file.clone(),
        }
    }

    /// The row.
    pub fn origin(&self) -> Origin {
        Origin {
            file: self.file.clone(),
            line: self.line.unwrap_or(0),
        }
    }
}

/// The collector.
#[derive(Debug, Default)]
pub(super) struct Faults {
    list: Vec<Fault>,
    /// Odd values, asked about where they have no error of their own.
    asked: Vec<Fault>,
}

impl Faults {
    fn push(&mut self, kind: (Severity, FaultCode), spot: &Spot, what: &str, mend: &str) {
        self.list.push(spot.fault(kind, what, mend));
    }

    /// Asks about a value that can be meant and is not usual: a warning, unless the value has an error.
    pub fn ask(&mut self, spot: &Spot, what: &str, mend: &str) {
        let kind = (Severity::Warning, FaultCode::ValueUnusual);
        self.asked.push(spot.fault(kind, what, mend));
    }

    pub fn error(&mut self, code: FaultCode, spot: &Spot, what: &str, mend: &str) {
        self.push((Severity::Error, code), spot, what, mend);
    }

    pub fn warn(&mut self, code: FaultCode, spot: &Spot, what: &str, mend: &str) {
        self.push((Severity::Warning, code), spot, what, mend);
    }

    pub fn note(&mut self, code: FaultCode, spot: &Spot, what: &str, mend: &str) {
        self.push((Severity::Note, code), spot, what, mend);
    }

    /// The value, or its fault on the list.
    pub fn take<T>(&mut self, spot: &Spot, read: Result<T, Misread>) -> Option<T> {
        match read {
            Ok(value) => Some(value),
            Err(m) => {
                self.error(m.code, spot, &m.what, &m.mend);
                None
            }
        }
    }

    /// What the text room could not read of a file, or of a sheet of a workbook.
    pub fn snags(&mut self, file: &str, sheet: Option<&str>, snags: &[Snag]) {
        for s in snags {
            let spot = Spot {
                sheet: sheet.map(str::to_owned),
                line: s.line,
                cell: s.cell.clone(),
                column: s.column.clone(),
                value: s.value.clone(),
                ..Spot::file(file)
            };
            let severity = if s.stops {
                Severity::Error
            } else {
                Severity::Warning
            };
            self.push((severity, s.code), &spot, &s.what, &s.mend);
        }
    }

    /// An error stands at that column of shop.toml.
    pub fn of_setting(&self, column: &str) -> bool {
        let named =
            |f: &Fault| f.column.as_deref() == Some(column) && f.severity == Severity::Error;
        self.list.iter().any(named)
    }

    /// Errors so far.
    pub fn errors(&self) -> usize {
        let errors = self.list.iter();
        errors.filter(|f| f.severity == Severity::Error).count()
    }

    pub fn any_error(&self) -> bool {
        self.list.iter().any(|f| f.severity == Severity::Error)
    }

    /// In file order as `files` lists them, then line order; faults of one line as found.
    pub fn sorted(mut self, files: &[String]) -> Vec<Fault> {
        fn place(f: &Fault) -> (String, Option<u32>, Option<String>) {
            (f.file.clone(), f.line, f.column.clone())
        }
        let errors = self.list.iter().filter(|f| f.severity == Severity::Error);
        let wrong: BTreeSet<_> = errors.map(place).collect();
        // One question a value: the last one asked knows most of it.
        let mut told: BTreeSet<_> = wrong;
        let mut kept: Vec<bool> = self
            .asked
            .iter()
            .rev()
            .map(|f| told.insert(place(f)))
            .collect();
        kept.reverse();
        let mut kept = kept.into_iter();
        self.asked.retain(|_| kept.next().unwrap_or(true));
        self.list.append(&mut self.asked);
        let rank = |f: &Fault| files.iter().position(|n| *n == f.file);
        self.list.sort_by_key(|f| (rank(f), f.line));
        self.list
    }
}
