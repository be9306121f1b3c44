//! Words into lines of a given display width, in any script.

use unicode_width::UnicodeWidthStr;

/// A space at which no line is broken: between the inches and their fraction.
pub(super) const HARD_SPACE: &str = "\u{a0}";

/// `text` with its hard spaces made plain, when all breaking is done.
pub(super) fn soften(text: &str) -> String {
    text.replace(HARD_SPACE, " ")
}

/// Columns that `text` takes.
pub(super) fn width(text: &str) -> usize {
    UnicodeWidthStr::width(text)
}

/// `text` filled with spaces on the right to `columns`.
pub(super) fn fill(text: &str, columns: usize) -> String {
    format!("{text}{}", " ".repeat(columns.saturating_sub(width(text))))
}

/// `text` filled with spaces on the left to `columns`.
pub(super) fn fill_left(text: &str, columns: usize) -> String {
    format!("{}{text}", " ".repeat(columns.saturating_sub(width(text))))
}

/// Lines no wider than `columns`, broken at spaces, a word that is itself too wide inside. At least
/// one line. A single character wider than `columns` becomes `?`.
pub(crate) fn wrap(text: &str, columns: usize) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in text.split(' ').filter(|w| !w.is_empty()) {
        let with = if line.is_empty() {
            word.to_owned()
        } else {
            format!("{line} {word}")
        };
        if width(&with) <= columns {
            line = with;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        line = break_word(word, columns, &mut lines);
    }
    if !line.is_empty() || lines.is_empty() {
        lines.push(line);
    }
    lines
}

/// Pushes all full lines of an over-wide word and hands back its rest.
fn break_word(word: &str, columns: usize, lines: &mut Vec<String>) -> String {
    let mut line = String::new();
    for c in word.chars() {
        let mut with = line.clone();
        with.push(c);
        if width(&with) <= columns {
            line = with;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        let alone = c.to_string();
        line = if width(&alone) <= columns {
            alone
        } else {
            "?".to_owned()
        };
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn breaks_at_spaces_then_inside_words() {
        assert_eq!(wrap("one two three", 7), ["one two", "three"]);
        assert_eq!(wrap("abcdefgh i", 3), ["abc", "def", "gh", "i"]);
        assert_eq!(wrap("", 5), [""]);
        assert_eq!(wrap("試験", 3), ["試", "験"]);
        assert_eq!(wrap("試", 1), ["?"]);
    }

    #[test]
    fn fills_by_display_width() {
        assert_eq!(fill("試", 4), "試  ");
        assert_eq!(fill_left("7", 3), "  7");
    }
}
