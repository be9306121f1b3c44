//! Lists inside one cell: bay numbers and bay lines.

use crate::measure::Misread;

/// Parts of a list parted by bars, semicolons or commas; a comma between two digits is a decimal comma.
pub(super) fn split_list(text: &str) -> impl Iterator<Item = &str> {
    let mut before = None;
    let mut parts = Vec::new();
    let mut from = 0;
    for (at, c) in text.char_indices() {
        let after = text[at + c.len_utf8()..].chars().next();
        let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
        let comma = c == ',' && !(digit(before) && digit(after));
        if comma || matches!(c, '|' | ';' | '\n') {
            parts.push(&text[from..at]);
            from = at + c.len_utf8();
        }
        before = Some(c);
    }
    parts.push(&text[from..]);
    parts.into_iter().map(str::trim).filter(|t| !t.is_empty())
}

/// Bay numbers from 1: `2`, `2, 5`, `2-4`; sorted, each once.
pub(super) fn parse_bay_numbers(text: &str) -> Result<Vec<u32>, Misread> {
    let bad = || {
        Misread::new(
            &format!("\"{text}\" is no list of bays"),
            "write bay numbers counted from the latch end, such as 2, 5 or 2-4",
        )
    };
    let number = |t: &str| match t.trim().parse::<u32>() {
        Ok(n @ 1..=200) => Ok(n),
        _ => Err(bad()),
    };
    let mut bays = Vec::new();
    let parts = text.split(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | '|'));
    for part in parts.filter(|p| !p.is_empty()) {
        match part.split_once(['-', '–']) {
            Some((from, to)) => {
                let (from, to) = (number(from)?, number(to)?);
                if from > to {
                    return Err(bad());
                }
                bays.extend(from..=to);
            }
            None => bays.push(number(part)?),
        }
    }
    bays.sort_unstable();
    bays.dedup();
    Ok(bays)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_is_parted_by_bars_semicolons_and_commas() {
        let parts = |text| split_list(text).collect::<Vec<&str>>();
        for text in [
            "4'-8\" | 9'-4\"",
            "4'-8\", 9'-4\"",
            "4'-8\",9'-4\"",
            "4'-8\"; 9'-4\"",
        ] {
            assert_eq!(parts(text), ["4'-8\"", "9'-4\""], "{text}");
        }
        assert_eq!(parts("1422,4 mm, 2844,8 mm"), ["1422,4 mm", "2844,8 mm"]);
    }

    #[test]
    fn reads_bays_one_by_one_and_in_ranges() {
        assert_eq!(parse_bay_numbers("5, 2-4 2"), Ok(vec![2, 3, 4, 5]));
        for bad in ["0", "4-2", "x", "1-999999999", "-2"] {
            assert!(parse_bay_numbers(bad).is_err(), "{bad}");
        }
    }
}
