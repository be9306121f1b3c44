//! Why a command ended without its result, and with which exit code.

use std::io;
use std::path::Path;

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
    /// What goes to stderr, whole lines.
    pub message: String,
    /// Exit code.
    pub code: u8,
}

impl Failure {
    /// The user's files or wishes cannot be followed.
    pub fn refused(message: impl Into<String>) -> Failure {
        Failure {
            message: message.into(),
            code: code::INPUT,
        }
    }

    /// The disk refused.
    pub fn disk(path: &Path, error: &io::Error) -> Failure {
        Failure {
            message: format!("{}: {error}.", path.display()),
            code: code::INTERNAL,
        }
    }

    /// Something that the program should not have let happen.
    pub fn internal(message: impl Into<String>) -> Failure {
        Failure {
            message: message.into(),
            code: code::INTERNAL,
        }
    }
}
