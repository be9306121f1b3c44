//! `Misread`: why a text is not what it should be, and how to mend it.

/// Why a text could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Misread {
    /// What is wrong, in the user's words.
    pub what: String,
    /// How to mend it; both readings where there are two.
    pub mend: String,
}

impl Misread {
    pub(crate) fn new(what: &str, mend: &str) -> Misread {
        Misread {
            what: what.to_owned(),
            mend: mend.to_owned(),
        }
    }
}
