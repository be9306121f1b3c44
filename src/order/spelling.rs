//! How a name is spelled and how it looks: what cannot be seen is refused, upper and lower case and spacing make
//! no other name, and two names that look alike are told.
//!
//! Sources: Default_Ignorable_Code_Point of the Unicode Character Database (DerivedCoreProperties.txt); skeletons
//! of Unicode Technical Standard #39, section 4; normalisation forms of Unicode Standard Annex #15.

use unicode_normalization::UnicodeNormalization;
use unicode_security::confusable_detection::skeleton;

use crate::measure::Misread;

/// Characters that a font shows nothing of: default ignorable ones, and the blank of braille.
const UNSEEN: [(u32, u32); 18] = [
    (0x00AD, 0x00AD),
    (0x034F, 0x034F),
    (0x061C, 0x061C),
    (0x115F, 0x1160),
    (0x17B4, 0x17B5),
    (0x180B, 0x180F),
    (0x200B, 0x200F),
    (0x2028, 0x202E),
    (0x2060, 0x206F),
    (0x2800, 0x2800),
    (0x3164, 0x3164),
    (0xFE00, 0xFE0F),
    (0xFEFF, 0xFEFF),
    (0xFFA0, 0xFFA0),
    (0xFFF0, 0xFFF8),
    (0x1_BCA0, 0x1_BCA3),
    (0x1_D173, 0x1_D17A),
    (0xE_0000, 0xE_0FFF),
];
/// Characters that every font shows otherwise or not at all: private use, and what stands for lost ones.
const UNPRINTED: [(u32, u32); 4] = [
    (0xE000, 0xF8FF),
    (0xFFF9, 0xFFFF),
    (0xF_0000, 0xF_FFFF),
    (0x10_0000, 0x10_FFFF),
];

fn within(c: char, ranges: &[(u32, u32)]) -> bool {
    let c = u32::from(c);
    ranges.iter().any(|(from, to)| (*from..=*to).contains(&c))
}

/// Joins or parts two letters of a script that writes so (Persian, Indic): seen by what it does to them.
fn joins(before: Option<char>, c: char, after: Option<char>) -> bool {
    // Arabic to Khmer: letters and the signs on them.
    let script = |c: Option<char>| c.is_some_and(|c| (0x0600..0x1800).contains(&u32::from(c)));
    matches!(c, '\u{200C}' | '\u{200D}') && script(before) && script(after)
}

/// The first character that cannot be seen or printed.
pub(super) fn unseen(text: &str) -> Option<char> {
    let mut before = None;
    let mut rest = text.chars().peekable();
    while let Some(c) = rest.next() {
        let hidden = c.is_control() || within(c, &UNSEEN) || within(c, &UNPRINTED);
        if hidden && !joins(before, c, rest.peek().copied()) {
            return Some(c);
        }
        before = Some(c);
    }
    None
}

/// No control characters, none that turn or hide text, none that show nothing.
pub(super) fn judge_seen(text: &str) -> Result<(), Misread> {
    let Some(c) = unseen(text) else { return Ok(()) };
    let what = if c.is_control() || within(c, &UNPRINTED) {
        "an unprintable character"
    } else {
        "a character that cannot be seen"
    };
    Err(Misread::new(
        &format!("there is {what} (U+{:04X}) in it", u32::from(c)),
        "type it again by hand, in plain letters; if it spans lines, close the quotation mark",
    ))
}

/// As it is kept and printed: composed letters, single plain spaces.
pub(super) fn tidy(text: &str) -> String {
    let composed: String = text.nfc().collect();
    let words: Vec<&str> = composed.split_whitespace().collect();
    words.join(" ")
}

/// What two spellings of one name share: compatible forms, lower case, single spaces, no joiners.
pub(super) fn folded(text: &str) -> String {
    let plain: String = text.nfkc().filter(|c| !within(*c, &UNSEEN)).collect();
    let words: Vec<&str> = plain.split_whitespace().collect();
    words.join(" ").to_lowercase()
}

/// What two names that look alike share.
pub(super) fn look(text: &str) -> String {
    let plain: String = text.nfkc().collect();
    let words: Vec<&str> = plain.split_whitespace().collect();
    let bones: String = skeleton(&words.join(" ")).collect();
    bones.to_lowercase()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_cannot_be_seen_is_found() {
        for bad in [
            "\u{3164}",
            "A\u{AD}1",
            "\u{202E}A1",
            "A1\u{200B}",
            "A\u{200D}1",
            "\u{2800}",
            "A\u{FE0F}",
            "A\u{E0041}",
            "\u{E000}",
            "A\u{7}",
            "\u{FFA0}",
        ] {
            assert!(unseen(bad).is_some(), "{bad:?}");
        }
        for good in [
            "A1",
            "ворота-3",
            "門 1",
            "Čtyři",
            "بوابة",
            "می\u{200C}روم",
            "क\u{94D}\u{200D}ष",
        ] {
            assert_eq!(unseen(good), None, "{good:?}");
        }
    }

    #[test]
    fn spellings_of_one_name_fold_to_one() {
        for other in [
            "harbor pipe",
            "HARBOR  PIPE",
            "Harbor\u{A0}Pipe",
            "Ｈarbor Pipe",
        ] {
            assert_eq!(folded(other), folded("Harbor Pipe"), "{other:?}");
        }
        assert_eq!(folded("Cafe\u{301}"), folded("Café"));
        assert_ne!(folded("Harbour Pipe"), folded("Harbor Pipe"));
    }

    #[test]
    fn names_that_look_alike_have_one_look() {
        for (a, b) in [
            ("А1", "A1"),
            ("A0", "AO"),
            ("A1", "Al"),
            ("A1", "AI"),
            ("Ηarbor", "Harbor"),
        ] {
            assert_eq!(look(a), look(b), "{a} {b}");
        }
        assert_ne!(look("A1"), look("A2"));
        assert_ne!(look("B3"), look("C3"));
    }
}
