//! `Faults`: every fault of every file, collected; `Spot`: the place a fault stands at.

use super::fault::line_words;
use super::{Fault, Origin, Severity};
use crate::measure::Misread;
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
}

impl Faults {
    fn push(&mut self, severity: Severity, spot: &Spot, what: &str, mend: &str) {
        self.list.push(Fault {
            severity,
            file: spot.file.clone(),
            sheet: spot.sheet.clone(),
            line: spot.line,
            cell: spot.cell.clone(),
            column: spot.column.clone(),
            value: spot.value.clone(),
            what: what.to_owned(),
            mend: mend.to_owned(),
        });
    }

    pub fn error(&mut self, spot: &Spot, what: &str, mend: &str) {
        self.push(Severity::Error, spot, what, mend);
    }

    pub fn warn(&mut self, spot: &Spot, what: &str, mend: &str) {
        self.push(Severity::Warning, spot, what, mend);
    }

    pub fn note(&mut self, spot: &Spot, what: &str, mend: &str) {
        self.push(Severity::Note, spot, what, mend);
    }

    /// The value, or its fault on the list.
    pub fn take<T>(&mut self, spot: &Spot, read: Result<T, Misread>) -> Option<T> {
        match read {
            Ok(value) => Some(value),
            Err(m) => {
                self.error(spot, &m.what, &m.mend);
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
            self.push(severity, &spot, &s.what, &s.mend);
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
        let rank = |f: &Fault| files.iter().position(|n| *n == f.file);
        self.list.sort_by_key(|f| (rank(f), f.line));
        self.list
    }
}
