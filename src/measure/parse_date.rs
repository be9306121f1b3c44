//! Text → date: ISO first, other forms when only one reading exists or the shop says which it writes.

use jiff::civil::Date;

use super::Misread;

const MONTHS: [&str; 12] = [
    "jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec",
];

/// Which of month and day a date of three numbers begins with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DateOrder {
    /// `3/4/2026` is the fourth of March.
    MonthFirst,
    /// `3/4/2026` is the third of April.
    DayFirst,
}

/// A date: `2026-03-04`, `2026/3/4`, `4 Mar 2026`, `March 4, 2026`, `25/12/2026`.
/// `3/4/2026` and years of two digits are refused.
pub fn parse_date(text: &str) -> Result<Date, Misread> {
    parse_date_in(text, None)
}

/// As [`parse_date`]; with an order `3/4/2026`, `3/4/26` and `4-Mar-26` are read too, as spreadsheets write them
/// (years of two digits are of this century), and a midnight behind the day is dropped.
pub fn parse_date_in(text: &str, order: Option<DateOrder>) -> Result<Date, Misread> {
    let lower = text.to_lowercase();
    let words: Vec<&str> = lower
        .split(|c: char| c.is_whitespace() || matches!(c, '-' | '/' | '.' | ','))
        .filter(|w| !w.is_empty())
        .collect();
    let words = match words.as_slice() {
        [day @ .., "0:00" | "00:00" | "00:00:00"] => day,
        all => all,
    };
    let [a, b, c] = words else {
        return Err(no_date(text));
    };
    let century = |year: &str| {
        let short = order.is_some() && year.len() == 2 && year.bytes().all(|b| b.is_ascii_digit());
        if short {
            format!("20{year}")
        } else {
            year.to_owned()
        }
    };
    let last = &century(c);
    if let Some(month) = month_word(a) {
        return date(text, last, month, b);
    }
    if let Some(month) = month_word(b) {
        return if a.len() == 4 {
            date(text, a, month, c)
        } else {
            date(text, last, month, a)
        };
    }
    let (Ok(first), Ok(second)) = (a.parse::<i8>(), b.parse::<i8>()) else {
        return match b.parse::<i8>() {
            Ok(month) if a.len() == 4 => date(text, a, month, c),
            _ => Err(no_date(text)),
        };
    };
    if let Some(order) = order {
        return in_order(text, order, (first, second), (a, b, last));
    }
    match (first > 12, second > 12) {
        (true, false) => date(text, c, second, a),
        (false, true) => date(text, c, first, b),
        (false, false) if first == second => date(text, c, first, b),
        (false, false) if c.len() == 4 => Err(Misread::two_readings(
            &format!("{text} can be read month first or day first"),
            &format!(
                "write {c}-{first:02}-{second:02} or {c}-{second:02}-{first:02}; or say date_order = \"month first\" \
                 (or \"day first\") in shop.toml"
            ),
        )),
        (false, false) => Err(no_date(text)),
        (true, true) => Err(no_date(text)),
    }
}

/// Three numbers, the year last, in the order that the shop writes.
fn in_order(
    text: &str,
    order: DateOrder,
    (first, second): (i8, i8),
    (a, b, year): (&str, &str, &str),
) -> Result<Date, Misread> {
    let (month, day, words) = match order {
        DateOrder::MonthFirst => (first, b, "month first"),
        DateOrder::DayFirst => (second, a, "day first"),
    };
    if month > 12 && first.min(second) <= 12 {
        return Err(Misread::new(
            &format!("{text} has no month {month}: dates are written {words} here"),
            "write it as year-month-day, such as 2026-03-04, or correct date_order in shop.toml",
        ));
    }
    date(text, year, month, day)
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
    fn the_order_of_the_shop_reads_what_spreadsheets_write() {
        let fourth_of_march = Ok(Date::constant(2026, 3, 4));
        for text in [
            "3/4/2026",
            "03/04/2026",
            "3/4/26",
            "3-4-2026",
            "4-Mar-26",
            "3/4/2026 0:00",
            "2026-03-04",
        ] {
            assert_eq!(
                parse_date_in(text, Some(DateOrder::MonthFirst)),
                fourth_of_march,
                "{text}"
            );
        }
        for text in ["4/3/2026", "04.03.26", "4-Mar-26", "2026-03-04"] {
            assert_eq!(
                parse_date_in(text, Some(DateOrder::DayFirst)),
                fourth_of_march,
                "{text}"
            );
        }
        for (text, order) in [
            ("14/3/2026", DateOrder::MonthFirst),
            ("3/14/2026", DateOrder::DayFirst),
            ("13/13/26", DateOrder::DayFirst),
            ("2/30/2026", DateOrder::MonthFirst),
            ("3/4/126", DateOrder::MonthFirst),
        ] {
            assert!(parse_date_in(text, Some(order)).is_err(), "{text}");
        }
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
