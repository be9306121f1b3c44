//! `SourceFile`: a file's bytes under the name the user knows; `Snag`: what could not be read in it.

use crate::measure::FaultCode;

/// A file as it was found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SourceFile {
    /// Name as the user knows it (`orders.csv`).
    pub name: String,
    /// Its bytes, untouched.
    pub bytes: Vec<u8>,
}

/// Something about a file's characters that the user should hear.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Snag {
    /// Its kind.
    pub code: FaultCode,
    /// 1-based line as an editor counts it (a workbook's row); `None` when the whole file is meant.
    pub line: Option<u32>,
    /// Name of the cell (`C5`), when the file is a workbook and one cell is meant.
    pub cell: Option<String>,
    /// Column or key, when one is meant.
    pub column: Option<String>,
    /// The characters as written.
    pub value: Option<String>,
    /// The file cannot be used (otherwise: it was read, and this is worth saying).
    pub stops: bool,
    /// What is wrong.
    pub what: String,
    /// How to mend it.
    pub mend: String,
}

impl Snag {
    /// A snag that stops, of a line or of the whole file.
    pub fn stop(line: Option<u32>, what: &str, mend: &str) -> Snag {
        Snag {
            code: FaultCode::FileUnreadable,
            line,
            cell: None,
            column: None,
            value: None,
            stops: true,
            what: what.to_owned(),
            mend: mend.to_owned(),
        }
    }

    /// A remark: the file was read all the same.
    pub fn remark(line: Option<u32>, what: &str, mend: &str) -> Snag {
        Snag {
            code: FaultCode::ReadWithCare,
            stops: false,
            ..Snag::stop(line, what, mend)
        }
    }
}
