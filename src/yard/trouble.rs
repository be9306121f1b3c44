//! Why an entry is not taken.

/// What stands against an entry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Trouble {
    /// It says something that what was told before does not allow. It may still be true: it can be
    /// stored as a question and stays out of every account until somebody answers.
    Question {
        /// What does not agree.
        what: String,
        /// What is missing, or how to answer.
        mend: String,
    },
    /// It cannot mean anything: it names what is not there, or figures that cannot be.
    Refusal {
        /// What is wrong.
        what: String,
        /// How to mend it.
        mend: String,
    },
}

impl Trouble {
    pub(super) fn question(what: impl Into<String>, mend: impl Into<String>) -> Trouble {
        Trouble::Question {
            what: what.into(),
            mend: mend.into(),
        }
    }

    pub(super) fn refusal(what: impl Into<String>, mend: impl Into<String>) -> Trouble {
        Trouble::Refusal {
            what: what.into(),
            mend: mend.into(),
        }
    }

    /// What is wrong.
    pub fn what(&self) -> &str {
        match self {
            Trouble::Question { what, .. } | Trouble::Refusal { what, .. } => what,
        }
    }

    /// What is missing, or how to mend it.
    pub fn mend(&self) -> &str {
        match self {
            Trouble::Question { mend, .. } | Trouble::Refusal { mend, .. } => mend,
        }
    }
}
