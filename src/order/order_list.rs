//! Lists inside one cell: bay numbers and bay lines.

use crate::measure::Misread;

/// Parts of a list parted by bars, semicolons or commas.
///
/// # Errors
/// A comma between two digits parts two numbers for one reader and is a decimal comma for another; a number without
/// a unit beside others that have one could be of either.
pub(super) fn split_list(text: &str) -> Result<Vec<&str>, Misread> {
    let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
    for (at, _) in text.match_indices(',') {
        if digit(text[..at].chars().next_back()) && digit(text[at + 1..].chars().next()) {
            return Err(Misread::two_readings(
                "a comma between two digits may part two places or be a decimal comma",
                "part the list by bars and write decimals with a point, such as 8' | 12.5'",
            ));
        }
    }
    let parts = text.split(['|', ';', ',', '\n']);
    let parts: Vec<&str> = parts.map(str::trim).filter(|t| !t.is_empty()).collect();
    let bare = |t: &&&str| t.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    let united = |t: &&str| digit(t.chars().next()) && !bare(&t);
    match parts.iter().find(bare) {
        Some(number) if parts.iter().any(united) => Err(Misread::two_readings(
            &format!("{number} has no unit, and others beside it have one"),
            "write the unit with every one of them, such as 8' | 12'",
        )),
        _ => Ok(parts),
    }
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
        for text in [
            "4'-8\" | 9'-4\"",
            "4'-8\", 9'-4\"",
            "4'-8\",9'-4\"",
            "4'-8\"; 9'-4\"",
        ] {
            let parts = split_list(text).expect(text);
            assert_eq!(parts, ["4'-8\"", "9'-4\""], "{text}");
        }
        assert_eq!(split_list("56 | 112").expect("plain"), ["56", "112"]);
        assert_eq!(split_list("8' | even").expect("a word"), ["8'", "even"]);
    }

    /// Common practice, no source: one of the two readings welds a vertical 7 ft off.
    #[test]
    fn a_list_that_two_people_read_differently_is_refused() {
        for text in [
            "8,12' | even",
            "8,5",
            "4,8,12",
            "2,44 m | even",
            "1422,4 mm, 2844,8 mm",
        ] {
            let said = split_list(text).expect_err(text);
            assert!(said.what.contains("decimal comma"), "{text}: {}", said.what);
        }
        for text in ["8, 12'", "8 | 12'-6\" | even", "4.5; 3 m"] {
            let said = split_list(text).expect_err(text);
            assert!(said.what.contains("has no unit"), "{text}: {}", said.what);
        }
    }

    #[test]
    fn reads_bays_one_by_one_and_in_ranges() {
        assert_eq!(parse_bay_numbers("5, 2-4 2"), Ok(vec![2, 3, 4, 5]));
        for bad in ["0", "4-2", "x", "1-999999999", "-2"] {
            assert!(parse_bay_numbers(bad).is_err(), "{bad}");
        }
    }
}
