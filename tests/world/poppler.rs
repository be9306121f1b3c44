//! Poppler, the outside reader of our PDFs.
//!
//! It is a system package, so a machine without it leaves these tests out with a note; where
//! `LONGPOINT_POPPLER` is set (continuous integration) its absence is a failure.

use std::io::Write;
use std::process::{Command, Stdio};

/// The text of a PDF, or `None` where poppler is not installed.
pub fn text_of(bytes: &[u8]) -> Option<String> {
    let spawned = Command::new("pdftotext")
        .args(["-layout", "-", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn();
    let mut child = match spawned {
        Ok(child) => child,
        Err(e) if std::env::var_os("LONGPOINT_POPPLER").is_none() => {
            eprintln!("left out, no pdftotext here: {e}");
            return None;
        }
        Err(e) => panic!("pdftotext is wanted here: {e}"),
    };
    let mut stdin = child.stdin.take().expect("stdin was piped");
    stdin.write_all(bytes).expect("pdftotext reads");
    drop(stdin);
    let out = child.wait_with_output().expect("pdftotext ends");
    let complaints = String::from_utf8_lossy(&out.stderr);
    assert!(
        out.status.success() && complaints.is_empty(),
        "{complaints}"
    );
    Some(String::from_utf8(out.stdout).expect("UTF-8"))
}
