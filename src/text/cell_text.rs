//! One cell of a workbook → its text as it was typed.

use calamine::{DataRef, ExcelDateTime};

/// Past this serial day number there is no date (9999-12-31).
const LAST_DAY: f64 = 2_958_466.0;
/// Digits a spreadsheet keeps of a number.
const DIGITS: usize = 15;

/// The cell's text: numbers plain, dates as year-month-day, TRUE as yes. `unit` is the unit that the
/// cell's number form shows behind the number.
pub(super) fn cell_text(value: &DataRef<'_>, unit: Option<&str>) -> String {
    match value {
        DataRef::Empty => String::new(),
        DataRef::String(text) => text.clone(),
        DataRef::SharedString(text) => (*text).to_owned(),
        DataRef::Int(n) if unit == Some(PERCENT) => {
            with_unit((i128::from(*n) * 100).to_string(), unit)
        }
        DataRef::Int(n) => with_unit(n.to_string(), unit),
        DataRef::Float(n) if unit == Some(PERCENT) => with_unit(number(*n * 100.0), unit),
        DataRef::Float(n) => with_unit(number(*n), unit),
        DataRef::Bool(true) => "yes".to_owned(),
        DataRef::Bool(false) => "no".to_owned(),
        DataRef::DateTime(date) => day(date),
        DataRef::DateTimeIso(text) => text.trim_end_matches("T00:00:00").to_owned(),
        DataRef::DurationIso(text) => text.clone(),
        DataRef::Error(error) => error.to_string(),
    }
}

fn with_unit(number: String, unit: Option<&str>) -> String {
    match unit {
        Some(unit) => format!("{number} {unit}"),
        None => number,
    }
}

/// A number as typed: what a sum leaves past the fifteenth digit is not part of it.
fn number(n: f64) -> String {
    let kept = format!("{n:.*e}", DIGITS - 1).parse().unwrap_or(n);
    format!("{kept}")
}

/// `2026-03-06`; with a time of day as `2026-03-06 14:30`.
fn day(date: &ExcelDateTime) -> String {
    let serial = date.as_f64();
    if date.is_duration() || !(0.0..LAST_DAY).contains(&serial) {
        return number(serial);
    }
    let (year, month, day, hour, minute, ..) = date.to_ymd_hms_milli();
    let text = format!("{year:04}-{month:02}-{day:02}");
    if (hour, minute) == (0, 0) {
        text
    } else {
        format!("{text} {hour:02}:{minute:02}")
    }
}

/// The words for a unit in a heading or behind a number, and the unit as lengths are written.
const UNIT_WORDS: [(&str, &str); 9] = [
    ("ft", "ft"),
    ("feet", "ft"),
    ("'", "ft"),
    ("in", "in"),
    ("inches", "in"),
    ("\"", "in"),
    ("mm", "mm"),
    ("cm", "cm"),
    ("m", "m"),
];

/// The unit that a word in lower case names.
pub fn unit_of(word: &str) -> Option<&'static str> {
    let found = UNIT_WORDS.iter().find(|(w, _)| *w == word);
    found.map(|(_, unit)| *unit)
}

/// What a form that shows hundredths shows behind them.
const PERCENT: &str = "%";

/// The unit that a number form such as `0.00" ft"` shows behind the number, or its percent sign.
pub(super) fn shown_unit(form: &str) -> Option<&'static str> {
    let positive = form.split(';').next().unwrap_or(form);
    let after = positive.rfind(['0', '#', '?'])? + 1;
    let mut words = String::new();
    let mut rest = positive.get(after..)?.chars();
    let mut quoted = false;
    while let Some(c) = rest.next() {
        match c {
            '"' => quoted = !quoted,
            '\\' if !quoted => words.extend(rest.next()),
            c if quoted || c == '\'' => words.push(c),
            '%' => return Some(PERCENT),
            _ => {}
        }
    }
    unit_of(&words.trim().to_lowercase())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_as_typed() {
        let text = |n: f64| cell_text(&DataRef::Float(n), None);
        assert_eq!(text(21.0), "21");
        assert_eq!(text(10.542), "10.542");
        assert_eq!(text(0.1 + 0.2), "0.3");
        assert_eq!(text(-0.0), "-0");
        assert_eq!(cell_text(&DataRef::Bool(true), None), "yes");
        assert_eq!(cell_text(&DataRef::Float(21.0), Some("ft")), "21 ft");
    }

    #[test]
    fn a_unit_in_the_number_form_is_read() {
        assert_eq!(shown_unit("0\" ft\""), Some("ft"));
        assert_eq!(shown_unit("#,##0.00\\ \\m\\m"), Some("mm"));
        assert_eq!(shown_unit("0'"), Some("ft"));
        assert_eq!(shown_unit("0\\\";-0\\\""), Some("in"));
        assert_eq!(shown_unit("0.00%"), Some("%"));
        assert_eq!(
            cell_text(&DataRef::Float(0.0825), Some("%")),
            "8.25 %",
            "a rate of tax as it is seen"
        );
        for plain in ["General", "0.00", "# ??/??", "0\" pcs\"", ""] {
            assert_eq!(shown_unit(plain), None, "{plain}");
        }
    }
}
