//! Bytes → text: UTF-8 with or without its mark, UTF-16, or else Windows-1252 with a remark.

use super::Snag;

/// Text with `\n` line ends and no byte-order mark, and what there is to say of the bytes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Decoded {
    /// The text.
    pub text: String,
    /// Remarks; a stopping one leaves `text` empty.
    pub snags: Vec<Snag>,
}

/// Windows-1252 for bytes 0x80–0x9F; the five unassigned bytes become U+FFFD.
/// Source: the encoding's published table, from memory.
const WINDOWS_1252: [char; 32] = [
    '€', '\u{FFFD}', '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', '\u{FFFD}', 'Ž',
    '\u{FFFD}', '\u{FFFD}', '‘', '’', '“', '”', '•', '–', '—', '˜', '™', 'š', '›', 'œ', '\u{FFFD}',
    'ž', 'Ÿ',
];

/// Makes text of any bytes. Never fails; a file that is no text at all is a stopping snag.
pub fn decode(bytes: &[u8]) -> Decoded {
    match bytes {
        [0xFF, 0xFE, rest @ ..] => utf16(rest, u16::from_le_bytes),
        [0xFE, 0xFF, rest @ ..] => utf16(rest, u16::from_be_bytes),
        [b'P', b'K', 3, 4, ..] => stopped(
            "this is a spreadsheet workbook (or another zip file), not text",
            "save the sheet as CSV and give that file; a list in a workbook needs a name that ends in .xlsx",
        ),
        [0xEF, 0xBB, 0xBF, rest @ ..] => eight_bit(rest),
        _ => eight_bit(bytes),
    }
}

fn stopped(what: &str, mend: &str) -> Decoded {
    Decoded {
        text: String::new(),
        snags: vec![Snag::stop(None, what, mend)],
    }
}

fn eight_bit(bytes: &[u8]) -> Decoded {
    if bytes.contains(&0) {
        return stopped(
            "the file holds NUL characters: it is not plain text (or UTF-16 without its mark)",
            "save it as CSV or text in UTF-8",
        );
    }
    match std::str::from_utf8(bytes) {
        Ok(text) => Decoded {
            text: unix_lines(text),
            snags: Vec::new(),
        },
        Err(e) => windows_1252(bytes, e.valid_up_to()),
    }
}

fn windows_1252(bytes: &[u8], first_bad: usize) -> Decoded {
    let text: String = bytes
        .iter()
        .map(|&b| match b {
            0x80..=0x9F => WINDOWS_1252[usize::from(b - 0x80)],
            _ => char::from(b),
        })
        .collect();
    let before = unix_lines(&String::from_utf8_lossy(&bytes[..first_bad]));
    let line = line_at(&before, before.len());
    Decoded {
        text: unix_lines(&text),
        snags: vec![Snag::remark(
            Some(line),
            "the file is not UTF-8 from this line on; it was read as Windows-1252",
            "check the accented letters and fractions, or save the file as UTF-8",
        )],
    }
}

fn utf16(bytes: &[u8], unit: fn([u8; 2]) -> u16) -> Decoded {
    let (pairs, odd) = bytes.as_chunks::<2>();
    let units: Vec<u16> = pairs.iter().map(|&p| unit(p)).collect();
    let text = unix_lines(&String::from_utf16_lossy(&units));
    if text.contains('\0') {
        return stopped(
            "the file holds NUL characters: it is not plain text",
            "save it as CSV or text in UTF-8",
        );
    }
    let mut snags = Vec::new();
    if !odd.is_empty() || text.contains('\u{FFFD}') {
        snags.push(Snag::remark(
            None,
            "some characters of this UTF-16 file could not be read",
            "save the file as UTF-8",
        ));
    }
    Decoded { text, snags }
}

/// CRLF and lone CR become LF, so that lines count as an editor counts them.
fn unix_lines(text: &str) -> String {
    text.replace("\r\n", "\n").replace('\r', "\n")
}

/// 1-based line of a byte offset (clamped to the text).
pub(super) fn line_at(text: &str, byte: usize) -> u32 {
    let end = byte.min(text.len());
    let breaks = text.as_bytes()[..end]
        .iter()
        .filter(|&&b| b == b'\n')
        .count();
    u32::try_from(breaks).unwrap_or(u32::MAX - 1) + 1
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_every_encoding_a_spreadsheet_writes() {
        assert_eq!(decode(b"\xEF\xBB\xBFa\r\nb\rc").text, "a\nb\nc");
        assert_eq!(decode(b"\xFF\xFEa\0\n\0").text, "a\n");
        assert_eq!(decode(b"\xFE\xFF\0a\0\n").text, "a\n");
        let old = decode(b"ok\r\n10\xBD");
        assert_eq!(old.text, "ok\n10½");
        assert_eq!(old.snags[0].line, Some(2));
        assert!(!old.snags[0].stops);
    }

    #[test]
    fn refuses_what_is_no_text() {
        assert!(decode(b"PK\x03\x04rest").snags[0].stops);
        assert!(decode(b"a\0b\0").snags[0].stops);
    }

    #[test]
    fn counts_lines_from_one_and_clamps() {
        assert_eq!(line_at("a\nb", 0), 1);
        assert_eq!(line_at("a\nb", 2), 2);
        assert_eq!(line_at("a\nb", 99), 2);
    }
}
