//! Marks and notes: what may be painted on pipe and printed on a sheet.

use super::spelling::{judge_seen, tidy};
use crate::measure::Misread;

/// Longest mark, in characters.
const LONGEST_MARK: usize = 24;
/// Longest note, in characters.
const LONGEST_NOTE: usize = 500;

/// A mark of any script, spaces single; what cannot be seen or is too long to paint is refused.
pub(super) fn parse_mark(text: &str) -> Result<String, Misread> {
    judge_seen(text)?;
    let text = tidy(text);
    if text.chars().count() > LONGEST_MARK {
        return Err(Misread::beyond(
            &format!(
                "the mark is longer than {LONGEST_MARK} characters: it cannot be painted or printed"
            ),
            "give it a short mark, such as A3, and put the rest in the note",
        ));
    }
    Ok(text)
}

/// The name of a finish or a supplier, judged as a mark is.
pub(super) fn parse_name(text: &str) -> Result<String, Misread> {
    judge_seen(text)?;
    let text = tidy(text);
    if text.chars().count() > LONGEST_MARK {
        return Err(Misread::beyond(
            &format!(
                "the name is longer than {LONGEST_MARK} characters: it has no room on the sheets"
            ),
            "give it a shorter name, the same in every file, and put the rest in the note",
        ));
    }
    Ok(text)
}

/// A free note; line breaks become spaces.
pub(super) fn parse_note(text: &str) -> Result<String, Misread> {
    let text = text.replace(['\n', '\t'], " ");
    judge_seen(&text)?;
    if text.chars().count() > LONGEST_NOTE {
        return Err(Misread::beyond(
            &format!(
                "the note is longer than {LONGEST_NOTE} characters (or a quotation mark was never closed)"
            ),
            "shorten it, or close the quotation mark",
        ));
    }
    Ok(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn takes_any_script_and_refuses_what_cannot_be_seen() {
        for good in ["A1", "ворота-3", "門 1", "Čtyři", "بوابة"] {
            assert!(parse_mark(good).is_ok(), "{good}");
        }
        for bad in [
            "A\u{7}",
            "A\n1",
            "\u{202E}A1",
            "A234567890123456789012345",
            "\0",
        ] {
            assert!(parse_mark(bad).is_err(), "{bad:?}");
        }
        assert_eq!(parse_note("two\nlines"), Ok("two lines".to_owned()));
    }
}
