//! Foreign text made safe to show: what would steer a screen, or reorder what it shows, is written out.

use std::fmt::Write;

/// A character that a screen obeys instead of showing it: controls, line and paragraph separators, marks that
/// set the direction of writing, annotation marks and tags. Joiners, which scripts and names need, are none.
fn steers(c: char) -> bool {
    c.is_control()
        || matches!(c,
            '\u{061C}' | '\u{200E}' | '\u{200F}' | '\u{2028}'..='\u{202E}' | '\u{2060}'..='\u{206F}'
            | '\u{FEFF}' | '\u{FFF9}'..='\u{FFFB}' | '\u{E0000}'..='\u{E007F}')
}

/// Foreign text for one line of a message: `\u{1b}` in place of an escape, `\u{a}` of a line break.
pub fn shown(text: &str) -> String {
    written_out(
        text,
        |_| false,
        |out, c| write!(out, "{}", c.escape_unicode()),
    )
}

/// The same for lines of our own: their breaks stay.
pub fn shown_lines(text: &str) -> String {
    written_out(
        text,
        |c| c == '\n',
        |out, c| write!(out, "{}", c.escape_unicode()),
    )
}

/// The same for a JSON document, in its own form and meaning the same: such characters stand in its texts
/// alone.
pub fn shown_json(text: &str) -> String {
    written_out(
        text,
        |c| c == '\n',
        |out, c| {
            let mut units = [0; 2];
            let units = c.encode_utf16(&mut units);
            units
                .iter()
                .try_for_each(|unit| write!(out, "\\u{unit:04x}"))
        },
    )
}

fn written_out(
    text: &str,
    stays: impl Fn(char) -> bool,
    form: impl Fn(&mut String, char) -> std::fmt::Result,
) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        if steers(c) && !stays(c) {
            // Writing to a String cannot fail.
            let _ = form(&mut out, c);
        } else {
            out.push(c);
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_steers_is_written_out() {
        assert_eq!(shown("a\u{1b}[2Jb"), "a\\u{1b}[2Jb");
        assert_eq!(
            shown("a\r\nb\u{85}\u{2028}"),
            "a\\u{d}\\u{a}b\\u{85}\\u{2028}"
        );
        assert_eq!(shown("\u{202E}\u{9b}1m"), "\\u{202e}\\u{9b}1m");
        assert_eq!(shown_lines("a\nb\r\n"), "a\nb\\u{d}\n");
        for plain in [
            "Ünïcode 試験",
            "می\u{200C}خواهم",
            "5'-8 3/16\"",
            "👷\u{200D}♀",
        ] {
            assert_eq!(shown(plain), plain);
        }
    }

    #[test]
    fn a_document_means_the_same() {
        let document = serde_json::json!({"note": "a\u{9b}\u{202E}\u{E0041}\n\u{7f}b"});
        let text = serde_json::to_string_pretty(&document).expect("a document");
        let safe = shown_json(&text);
        assert!(
            safe.contains("\\u009b\\u202e\\udb40\\udc41\\n\\u007fb"),
            "{safe}"
        );
        let back: serde_json::Value = serde_json::from_str(&safe).expect("still a document");
        assert_eq!(back, document);
    }
}
