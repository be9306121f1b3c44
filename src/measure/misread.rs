//! `Misread`: why a text is not what it should be, and how to mend it.

use super::FaultCode;

/// Why a text could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Misread {
    /// Its kind.
    pub code: FaultCode,
    /// What is wrong, in the user's words.
    pub what: String,
    /// How to mend it; both readings where there are two.
    pub mend: String,
}

impl Misread {
    /// The text is not of the kind that is wanted.
    pub(crate) fn new(what: &str, mend: &str) -> Misread {
        Misread {
            code: FaultCode::ValueUnreadable,
            what: what.to_owned(),
            mend: mend.to_owned(),
        }
    }

    /// Two people would read it differently.
    pub(crate) fn two_readings(what: &str, mend: &str) -> Misread {
        Misread {
            code: FaultCode::ValueAmbiguous,
            ..Misread::new(what, mend)
        }
    }

    /// It is read, and the value cannot be.
    pub(crate) fn beyond(what: &str, mend: &str) -> Misread {
        Misread {
            code: FaultCode::ValueOutOfRange,
            ..Misread::new(what, mend)
        }
    }
}
