//! Why a command ended without its result, and with which exit code.

use std::io;
use std::path::Path;

use serde::Serialize;

use crate::order::{Fault, print_faults};
use crate::text::shown;

/// Exit codes.
pub mod code {
    /// Done.
    pub const DONE: u8 = 0;
    /// The disk refused, or the checker did: nothing written.
    pub const INTERNAL: u8 = 1;
    /// Bad input or impossible work: nothing written.
    pub const INPUT: u8 = 2;
    /// Done in part: `--partial` left something out.
    pub const PARTIAL: u8 = 3;
}

/// A command that ended without its result.
#[derive(Debug)]
pub(super) struct Failure {
    /// What is wrong with the input, and what else was noticed: told and counted together, first.
    pub faults: Vec<Fault>,
    /// What else goes to stderr, whole lines.
    pub message: String,
    /// Exit code.
    pub code: u8,
}

impl Failure {
    /// The user's files or wishes cannot be followed.
    pub fn refused(message: impl Into<String>) -> Failure {
        Failure::faulty(Vec::new(), message)
    }

    /// The user's files have these faults, or ask for what cannot be.
    pub fn faulty(faults: Vec<Fault>, message: impl Into<String>) -> Failure {
        Failure {
            faults,
            message: message.into(),
            code: code::INPUT,
        }
    }

    /// The disk refused.
    pub fn disk(path: &Path, error: &io::Error) -> Failure {
        Failure::internal(format!(
            "{}: {}.",
            shown(&path.display().to_string()),
            why(error)
        ))
    }

    /// Standard output refused.
    pub fn output(error: &io::Error) -> Failure {
        Failure::internal(format!(
            "standard output: {}; what was to be said there is lost.\n",
            why(error)
        ))
    }

    /// The same of a command whose folder or file stands already.
    pub fn but_written(mut self, path: &Path) -> Failure {
        let path = shown(&path.display().to_string());
        self.message += &format!("{path} was written all the same.\n");
        self
    }

    /// Something that the program should not have let happen.
    pub fn internal(message: impl Into<String>) -> Failure {
        Failure {
            faults: Vec::new(),
            message: message.into(),
            code: code::INTERNAL,
        }
    }

    /// The same, with what was noticed on the way before its own faults.
    pub fn beside(mut self, notices: &[Fault]) -> Failure {
        self.faults.splice(0..0, notices.iter().cloned());
        self
    }

    /// All of it as one JSON document, for a program that asked for one.
    pub fn json(&self) -> String {
        #[derive(Serialize)]
        struct Refusal<'a> {
            format: &'static str,
            version: u32,
            exit_code: u8,
            faults: &'a [Fault],
            message: &'a str,
        }
        let refusal = Refusal {
            format: "longpoint faults",
            version: 1,
            exit_code: self.code,
            faults: &self.faults,
            message: self.message.trim_end(),
        };
        // Texts and whole numbers alone: it can always be written.
        serde_json::to_string_pretty(&refusal).unwrap_or_default() + "\n"
    }

    /// All of it, for stderr.
    pub fn text(&self) -> String {
        if self.faults.is_empty() {
            return self.message.clone();
        }
        print_faults(&self.faults) + &self.message
    }
}

/// Why the system refused, in words.
fn why(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::PermissionDenied => {
            "you have no permission for it; mend that, or name another folder".to_owned()
        }
        io::ErrorKind::NotFound => "it, or the folder it stands in, is not there".to_owned(),
        io::ErrorKind::AlreadyExists | io::ErrorKind::NotADirectory => {
            "a file is in the way; name another folder".to_owned()
        }
        io::ErrorKind::StorageFull => "the disk is full".to_owned(),
        io::ErrorKind::ResourceBusy | io::ErrorKind::CrossesDevices => {
            "it is in use, as a folder is that a disk is mounted on; name a folder inside it"
                .to_owned()
        }
        _ => error.to_string(),
    }
}
