//! Why a results folder could not be made.

use std::fmt;

/// What stood in the way; neither is met with a checked plan of sane size.
#[derive(Debug)]
pub enum ResultsFault {
    /// A figure that JSON cannot hold.
    Document(serde_json::Error),
    /// A table that a workbook cannot hold.
    Workbook(rust_xlsxwriter::XlsxError),
}

impl fmt::Display for ResultsFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ResultsFault::Document(e) => write!(f, "plan.json: {e}"),
            ResultsFault::Workbook(e) => write!(f, "week.xlsx: {e}"),
        }
    }
}

impl std::error::Error for ResultsFault {}

impl From<serde_json::Error> for ResultsFault {
    fn from(e: serde_json::Error) -> ResultsFault {
        ResultsFault::Document(e)
    }
}

impl From<rust_xlsxwriter::XlsxError> for ResultsFault {
    fn from(e: rust_xlsxwriter::XlsxError) -> ResultsFault {
        ResultsFault::Workbook(e)
    }
}
