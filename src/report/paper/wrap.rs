//! Words broken into lines that fit a width.

use super::Block;
use crate::report::draw::{Face, Text, width};

/// Lines of text that each fit `room` points; a word too long for a line (a name without spaces) is
/// broken where it must be. Always at least one line.
pub fn wrap(face: Face, size: f64, room: f64, words: &str) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in unbroken(words, |w| width(face, size, w) <= room) {
        let joined = if line.is_empty() {
            word.clone()
        } else {
            format!("{line} {word}")
        };
        if width(face, size, &joined) <= room {
            line = joined;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        for c in word.chars() {
            line.push(c);
            if width(face, size, &line) > room && line.chars().count() > 1 {
                line.pop();
                lines.push(std::mem::replace(&mut line, c.to_string()));
            }
        }
    }
    if !line.is_empty() || lines.is_empty() {
        lines.push(line);
    }
    lines
}

/// The words of a text, a length (`13'-10 5/16"`) as one of them where a line holds it: read over two lines its
/// fraction is lost.
fn unbroken(text: &str, fits: impl Fn(&str) -> bool) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        let whole = out
            .last()
            .filter(|before| before.ends_with(|c: char| c.is_ascii_digit()) && is_fraction(word))
            .map(|before| format!("{before} {word}"))
            .filter(|whole| fits(whole));
        match (whole, out.last_mut()) {
            (Some(whole), Some(last)) => *last = whole,
            _ => out.push(word.to_owned()),
        }
    }
    out
}

/// `5/16"`, whatever follows it.
fn is_fraction(word: &str) -> bool {
    let over = word.trim_start_matches(|c: char| c.is_ascii_digit());
    let under = over.strip_prefix('/').unwrap_or_default();
    let rest = under.trim_start_matches(|c: char| c.is_ascii_digit());
    over.len() < word.len() && rest.len() < under.len() && rest.starts_with('"')
}

/// Line height of running text as a multiple of its size.
pub const LEADING: f64 = 1.3;

/// A paragraph as a block `room` points wide.
pub fn paragraph(face: Face, size: f64, room: f64, words: &str) -> Block {
    let mut block = Block::new(0.0);
    for line in wrap(face, size, room, words) {
        let mut text = Text::new(0.0, block.height + size, size, line);
        text.face = face;
        block.text(text);
        block.height += size * LEADING;
    }
    block
}

/// A paragraph with a bullet, hanging.
pub fn bullet(face: Face, size: f64, room: f64, words: &str) -> Block {
    let mut block = Block::new(0.0);
    block.text(Text::new(0.0, size, size, "•"));
    let hang = size * 0.9;
    let inner = paragraph(face, size, room - hang, words);
    block.height = inner.height + size * 0.15;
    block.place(hang, 0.0, inner);
    block
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_fits_and_no_letter_is_lost() {
        let words = "support the leaf when moving it 門門門門門門門門門門門門門門門門門門門門 done";
        let lines = wrap(Face::Regular, 10.0, 60.0, words);
        assert!(
            lines.iter().all(|l| width(Face::Regular, 10.0, l) <= 60.0),
            "{lines:?}"
        );
        let letters = |s: &str| s.chars().filter(|c| !c.is_whitespace()).collect::<String>();
        assert_eq!(letters(&lines.concat()), letters(words));
        assert_eq!(wrap(Face::Regular, 10.0, 60.0, ""), [""]);
        assert_eq!(wrap(Face::Regular, 10.0, 0.0, "ab"), ["a", "b"]);
    }

    #[test]
    fn a_length_stands_on_one_line_where_one_holds_it() {
        let text = "13'-8 5/16\" to 13'-10 5/16\", then";
        for room in 70..300 {
            let lines = wrap(Face::Regular, 10.0, f64::from(room), text);
            assert!(lines.iter().all(|l| !is_fraction(l)), "{room}: {lines:?}");
        }
        // No line holds it: broken at its space, not inside a figure.
        let narrow = wrap(Face::Regular, 10.0, 40.0, "13'-10 5/16\"");
        assert_eq!(narrow, ["13'-10", "5/16\""]);
    }
}
