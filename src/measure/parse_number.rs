//! Text → counts, plain numbers, yes or no, money.

use rust_decimal::Decimal;

use super::{Misread, Money};

/// Most pieces, gates or strands one row may ask for.
const MOST: u32 = 100_000;

/// A whole number from 0 to 100,000 (`3`, `3.0`).
pub fn parse_count(text: &str) -> Result<u32, Misread> {
    const WHOLE: &str = "write a whole number, such as 3";
    let number = parse_number(text).map_err(|m| Misread::new(&m.what, WHOLE))?;
    if number.fract() != Decimal::ZERO {
        return Err(Misread::new(
            &format!("{text} is not a whole number"),
            WHOLE,
        ));
    }
    if number < Decimal::ZERO {
        return Err(Misread::beyond(
            &format!("{text} is below zero"),
            "write 0 or a whole number above it",
        ));
    }
    u32::try_from(number)
        .ok()
        .filter(|n| *n <= MOST)
        .ok_or_else(|| {
            Misread::beyond(
                &format!("{text} is past all sense for a count"),
                "write a number up to 100000",
            )
        })
}

/// A plain decimal number; `50 %` is 0.50. A decimal comma is taken, and thousands set apart by points,
/// commas or spaces where that can be read one way only; a lone point is a decimal point.
pub fn parse_number(text: &str) -> Result<Decimal, Misread> {
    let bad = || {
        Misread::new(
            &format!("\"{text}\" is not a number"),
            "write digits with at most one decimal point, such as 12.5",
        )
    };
    let (body, percent) = match text.trim().strip_suffix('%') {
        Some(body) => (body.trim_end(), true),
        None => (text.trim(), false),
    };
    let body = ungrouped(&body.replace('−', "-"));
    let digits = body.chars().filter(char::is_ascii_digit).count();
    let plain = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+');
    if digits == 0 || digits > 18 || !body.chars().all(plain) {
        return Err(bad());
    }
    let number = match body.matches(',').count() {
        0 => body,
        1 if !body.contains('.') && body.split(',').nth(1).is_some_and(|d| d.len() != 3) => {
            body.replace(',', ".")
        }
        _ => {
            return Err(Misread::two_readings(
                &format!("the comma in {text} can be read two ways"),
                "write it without a thousands comma and with a decimal point",
            ));
        }
    };
    let number = Decimal::from_str_exact(&number).map_err(|_| bad())?;
    Ok(if percent {
        number / Decimal::ONE_HUNDRED
    } else {
        number
    })
}

/// Without its thousands marks: spaces; points before a decimal comma, commas before a decimal point;
/// and two or more of one kind.
fn ungrouped(body: &str) -> String {
    let space = |c: char| c.is_whitespace();
    let decimal = body.rfind(['.', ',']).filter(|at| {
        let (before, after) = body.split_at(*at);
        !before.contains(&after[..1])
    });
    let (whole, rest) = body.split_at(decimal.unwrap_or(body.len()));
    let mut groups = whole.split(|c: char| space(c) || c == '.' || c == ',');
    let first = groups.next().unwrap_or_default();
    let first = first.trim_start_matches(['-', '+']).len();
    let threes = groups.clone().count() > 0 && groups.all(|g| g.len() == 3);
    let mut marks = whole.chars().filter(|c| space(*c) || ".,".contains(*c));
    let mark = marks.next();
    if (1..=3).contains(&first) && threes && marks.all(|m| Some(m) == mark) {
        let digits: String = whole.chars().filter(|c| Some(*c) != mark).collect();
        return digits + &rest.replace(',', ".");
    }
    body.to_owned()
}

/// A number with one point and three digits behind it, which a reader of decimal commas takes for
/// thousands: `1.450`.
pub fn reads_as_thousands(text: &str) -> bool {
    let digits = |part: &str| !part.is_empty() && part.chars().all(|c| c.is_ascii_digit());
    text.trim().split_once('.').is_some_and(|(whole, rest)| {
        digits(whole)
            && digits(rest)
            && rest.len() == 3
            && whole.len() <= 3
            && !whole.starts_with('0')
    })
}

/// A number with a decimal comma that can be nothing else: `3,48`, `1.450,00`.
pub fn has_decimal_comma(text: &str) -> bool {
    text.trim().split_once(',').is_some_and(|(whole, rest)| {
        let plain = whole.chars().all(|c| c.is_ascii_digit());
        decimals(whole, rest, '.') && (rest.len() != 3 || !plain)
    })
}

/// A number with a decimal point that can be nothing else: `3.48`, `1,450.00`.
pub fn has_decimal_point(text: &str) -> bool {
    let sides = text.trim().rsplit_once('.');
    sides.is_some_and(|(whole, rest)| decimals(whole, rest, ',')) && !reads_as_thousands(text)
}

/// Digits on both sides of a decimal mark, those before it perhaps grouped.
fn decimals(whole: &str, rest: &str, group: char) -> bool {
    let digits = |c: char| c.is_ascii_digit();
    let grouped = |c: char| digits(c) || c == group || c.is_whitespace();
    let before = whole.starts_with(digits) && whole.chars().all(grouped);
    before && !rest.is_empty() && rest.chars().all(digits)
}

/// yes or no.
pub fn parse_yes(text: &str) -> Result<bool, Misread> {
    match text.trim().to_lowercase().as_str() {
        "yes" | "y" | "true" | "x" | "1" => Ok(true),
        "no" | "n" | "false" | "0" | "-" => Ok(false),
        _ => Err(Misread::new(
            &format!("\"{text}\" is neither yes nor no"),
            "write yes or no",
        )),
    }
}

/// An amount of money; a currency sign or code around it is dropped. Never below zero.
pub fn parse_money(text: &str) -> Result<Money, Misread> {
    let bare =
        text.trim_matches(|c: char| c.is_alphabetic() || c.is_whitespace() || "$€£¥".contains(c));
    let amount = parse_number(bare).map_err(|m| {
        if bare.is_empty() || !bare.chars().any(|c| c.is_ascii_digit()) {
            return Misread::new(
                &format!("\"{text}\" is not a number"),
                "write an amount such as 1.85",
            );
        }
        m
    })?;
    if amount < Decimal::ZERO {
        return Err(Misread::beyond(
            &format!("{text} is below zero"),
            "write an amount of 0 or more",
        ));
    }
    if amount > Decimal::from(1_000_000_000) {
        return Err(Misread::beyond(
            &format!("{text} is past all sense for an amount"),
            "write an amount under 1000000000",
        ));
    }
    Ok(Money(amount))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_are_whole_and_may_be_zero() {
        assert_eq!(parse_count("3.0"), Ok(3));
        assert_eq!(parse_count("0"), Ok(0));
        for bad in [
            "1.5",
            "-1",
            "two",
            "",
            "1e3",
            "100001",
            "NaN",
            "1,000",
            "99999999999999999999",
        ] {
            assert!(parse_count(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn numbers_take_percent_and_a_decimal_comma() {
        assert_eq!(parse_number("50 %"), Ok(Decimal::new(50, 2)));
        assert_eq!(parse_number("1,85"), Ok(Decimal::new(185, 2)));
        assert!(parse_number("1,850").is_err());
        let thousands = Ok(Decimal::new(145_000, 2));
        for text in [
            "1.450,00",
            "1,450.00",
            "1 450,00",
            "1\u{a0}450.00",
            "1450,00",
        ] {
            assert_eq!(parse_number(text), thousands, "{text}");
        }
        for text in ["1.450.000", "1,450,000", "1 450 000"] {
            assert_eq!(parse_number(text), Ok(Decimal::from(1_450_000)), "{text}");
        }
        // One point alone is a decimal point; whether that is meant is asked where the file is known.
        assert_eq!(parse_number("1.450"), Ok(Decimal::new(145, 2)));
        for text in [
            "1.45,00",
            "1,450,00",
            "14.50.000",
            "1.450 000",
            "1450.000,5",
            ".450,0",
            "1..450",
        ] {
            assert!(parse_number(text).is_err(), "{text}");
        }
    }

    #[test]
    fn a_point_before_three_digits_may_be_thousands() {
        for text in ["1.450", "12.000"] {
            assert!(reads_as_thousands(text), "{text}");
        }
        for text in ["0.145", "1.45", "1.4500", "1450.000", "1.450.000", "a.450"] {
            assert!(!reads_as_thousands(text), "{text}");
        }
        for (text, comma, point) in [
            ("3,48", true, false),
            ("1.450,00", true, false),
            ("1,450", false, false),
            ("3.48", false, true),
            ("0.145", false, true),
            ("1,450.00", false, true),
            ("1.450", false, false),
            ("1.450.000", false, false),
            ("a,b", false, false),
            ("a.b", false, false),
        ] {
            assert_eq!(has_decimal_comma(text), comma, "{text}");
            assert_eq!(has_decimal_point(text), point, "{text}");
        }
        assert!(parse_number("inf").is_err());
    }

    #[test]
    fn money_drops_the_sign_of_the_currency() {
        assert_eq!(parse_money("$1.85"), Ok(Money(Decimal::new(185, 2))));
        assert_eq!(parse_money("1,85 €"), Ok(Money(Decimal::new(185, 2))));
        assert!(parse_money("-3").is_err());
        assert!(parse_money("$").is_err());
    }

    #[test]
    fn yes_and_no_in_the_usual_spellings() {
        assert_eq!(parse_yes("Y"), Ok(true));
        assert_eq!(parse_yes("no"), Ok(false));
        assert!(parse_yes("maybe").is_err());
    }
}
