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
        return Err(Misread::new(
            &format!("{text} is below zero"),
            "write 0 or a whole number above it",
        ));
    }
    u32::try_from(number)
        .ok()
        .filter(|n| *n <= MOST)
        .ok_or_else(|| {
            Misread::new(
                &format!("{text} is past all sense for a count"),
                "write a number up to 100000",
            )
        })
}

/// A plain decimal number; `50 %` is 0.50; a decimal comma is taken.
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
    let body = body.replace('−', "-");
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
            return Err(Misread::new(
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
        return Err(Misread::new(
            &format!("{text} is below zero"),
            "write an amount of 0 or more",
        ));
    }
    if amount > Decimal::from(1_000_000_000) {
        return Err(Misread::new(
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
