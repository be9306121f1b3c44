//! Text → date: ISO first, other forms when only one reading exists.

use jiff::civil::Date;

use super::Misread;

const MONTHS: [&str; 12] = [
    "jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec",
];

/// A date: `2026-03-04`, `2026/3/4`, `4 Mar 2026`, `March 4, 2026`, `25/12/2026`.
/// `3/4/2026` and years of two digits are refused.
pub fn parse_date(text: &str) -> Result<Date, Misread> {
    let lower = text.to_lowercase();
    let words: Vec<&str> = lower
        .split(|c: char| c.is_whitespace() || matches!(c, '-' | '/' | '.' | ','))
        .filter(|w| !w.is_empty())
        .collect();
    let [a, b, c] = words.as_slice() else {
        return Err(no_date(text));
    };
    if let Some(month) = month_word(a) {
        return date(text, c, month, b);
    }
    if let Some(month) = month_word(b) {
        return if a.len() == 4 {
            date(text, a, month, c)
        } else {
            date(text, c, month, a)
        };
    }
    let (Ok(first), Ok(second)) = (a.parse::<i8>(), b.parse::<i8>()) else {
        return match b.parse::<i8>() {
            Ok(month) if a.len() == 4 => date(text, a, month, c),
            _ => Err(no_date(text)),
        };
    };
    match (first > 12, second > 12) {
        (true, false) => date(text, c, second, a),
        (false, true) => date(text, c, first, b),
        (false, false) if first == second => date(text, c, first, b),
        (false, false) if c.len() == 4 => Err(Misread::new(
            &format!("{text} can be read month first or day first"),
            &format!("write {c}-{first:02}-{second:02} or {c}-{second:02}-{first:02}"),
        )),
        (false, false) => Err(no_date(text)),
        (true, true) => Err(no_date(text)),
    }
}

fn month_word(word: &str) -> Option<i8> {
    let at = MONTHS.iter().position(|m| word.starts_with(m))?;
    i8::try_from(at + 1).ok()
}

fn date(text: &str, year: &str, month: i8, day: &str) -> Result<Date, Misread> {
    let day = day.trim_end_matches(|c: char| c.is_ascii_lowercase());
    match (year.parse::<i16>(), day.parse::<i8>()) {
        (Ok(year), Ok(day)) if (1970..=2200).contains(&year) => Date::new(year, month, day)
            .map_err(|_| {
                Misread::new(
                    &format!("{text} is not a day of the calendar"),
                    "write a real date as year-month-day, such as 2026-03-04",
                )
            }),
        _ => Err(no_date(text)),
    }
}

fn no_date(text: &str) -> Misread {
    Misread::new(
        &format!("\"{text}\" is not a date that reads one way only"),
        "write the date as year-month-day, such as 2026-03-04",
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn takes_what_reads_one_way() {
        for text in [
            "2026-03-14",
            "2026/3/14",
            "14 Mar 2026",
            "March 14, 2026",
            "Mar 14th 2026",
            "14.3.2026",
            "3/14/2026",
            "14-mar-2026",
        ] {
            assert_eq!(parse_date(text), Ok(Date::constant(2026, 3, 14)), "{text}");
        }
        assert_eq!(parse_date("3/3/2026"), Ok(Date::constant(2026, 3, 3)));
    }

    #[test]
    fn refuses_the_rest() {
        for text in [
            "3/4/2026",
            "3/4/26",
            "2026-02-30",
            "46085",
            "soon",
            "",
            "13/13/2026",
            "2026-13-01",
            "next week now",
            "1/1/1",
            "ä ö ü",
        ] {
            assert!(parse_date(text).is_err(), "{text}");
        }
    }
}
