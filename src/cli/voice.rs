//! What is said on stdout and stderr. A reader that has gone away (a closed pipe) is no error.
//!
//! Nothing reaches a screen that would steer it: whatever came with a foreign text is written out here. A line
//! break inside a foreign text is written out where it becomes part of a line (`text::shown`).

use std::io::{self, Write};

use crate::text::{shown, shown_json, shown_lines};

/// The two streams of a command.
pub struct Voice<'a> {
    /// Results.
    pub out: &'a mut dyn Write,
    /// Messages.
    pub err: &'a mut dyn Write,
}

impl Voice<'_> {
    /// A result in lines; `Err` when it could not be written for another reason than a closed pipe.
    pub(super) fn result(&mut self, text: &str) -> io::Result<()> {
        self.write(&shown_lines(text))
    }

    /// A result that is a JSON document.
    pub(super) fn document(&mut self, text: &str) -> io::Result<()> {
        self.write(&shown_json(text))
    }

    fn write(&mut self, text: &str) -> io::Result<()> {
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
        let text = shown_lines(text);
        let end = if text.ends_with('\n') { "" } else { "\n" };
        let _ = self.err.write_all(format!("{text}{end}").as_bytes());
    }

    /// Messages, a line each.
    pub(super) fn lines(&mut self, lines: &[String]) {
        for line in lines {
            self.message(&shown(line));
        }
    }
}
