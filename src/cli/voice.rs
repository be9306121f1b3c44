//! What is said on stdout and stderr. A reader that has gone away (a closed pipe) is no error.

use std::io::{self, Write};

/// The two streams of a command.
pub struct Voice<'a> {
    /// Results.
    pub out: &'a mut dyn Write,
    /// Messages.
    pub err: &'a mut dyn Write,
}

impl Voice<'_> {
    /// A result; `Err` when it could not be written for another reason than a closed pipe.
    pub(super) fn result(&mut self, text: &str) -> io::Result<()> {
        let written = self.out.write_all(text.as_bytes());
        match written.and_then(|()| self.out.flush()) {
            Err(e) if e.kind() == io::ErrorKind::BrokenPipe => Ok(()),
            other => other,
        }
    }

    /// A message, ended by a line break. Nothing can be said about a stderr that refuses.
    pub(super) fn message(&mut self, text: &str) {
        if text.is_empty() {
            return;
        }
        let end = if text.ends_with('\n') { "" } else { "\n" };
        let _ = self.err.write_all(format!("{text}{end}").as_bytes());
    }
}
