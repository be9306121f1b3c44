//! `Table`: columns and cells that know both their number and their printed form.

use rust_decimal::Decimal;

/// A headed table.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Table {
    /// Columns.
    pub columns: Vec<Column>,
    /// Rows, each as long as `columns`.
    pub rows: Vec<Vec<Cell>>,
}

/// What a column holds, and so how it stands and how it is exported.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// Words: left, may wrap; one text column in records.
    Words,
    /// Short marks: left, wraps last; one text column in records.
    Mark,
    /// A whole number or a figure whose printed form is the number itself: right; one column.
    Number,
    /// A figure with a printed form of its own (a length, money): right; in records a column of
    /// numbers and beside it the printed form.
    Figure,
}

/// One column.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Column {
    /// Head on paper.
    pub head: String,
    /// Name in records, with its unit: `saw_length_in`; a figure's printed column drops the unit.
    pub name: String,
    /// Kind.
    pub kind: Kind,
}

impl Column {
    /// A column whose name in records is its head in lower case with underscores.
    pub fn new(head: &str, kind: Kind) -> Column {
        Column::named(head, &head.to_lowercase().replace([' ', '-'], "_"), kind)
    }

    /// A column with a name of its own in records.
    pub fn named(head: &str, name: &str, kind: Kind) -> Column {
        Column {
            head: head.to_owned(),
            name: name.to_owned(),
            kind,
        }
    }
}

/// One cell.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Cell {
    /// Not known or not meant: a dash on paper, an empty number in records; never 0.
    Missing,
    /// Words, cleaned of control characters.
    Text(String),
    /// A figure: its number for records, its printed form for people.
    Figure {
        /// The number.
        number: Decimal,
        /// The printed form.
        printed: String,
    },
}

/// The dash that stands for what is missing.
pub(super) const DASH: &str = "\u{2013}";

impl Cell {
    /// Words; empty words are missing. Control characters (line breaks, escapes) become spaces.
    pub fn text(words: impl AsRef<str>) -> Cell {
        let clean = clean(words.as_ref());
        if clean.is_empty() {
            Cell::Missing
        } else {
            Cell::Text(clean)
        }
    }

    /// A whole number.
    pub fn count(n: impl Into<Decimal>) -> Cell {
        let number = n.into();
        Cell::Figure {
            number,
            printed: number.to_string(),
        }
    }

    /// A number with so many decimals, printed with them all; not finite: missing.
    pub fn number(value: f64, places: u32) -> Cell {
        match decimal(value, places) {
            Some(number) => Cell::Figure {
                number,
                printed: format!("{number}"),
            },
            None => Cell::Missing,
        }
    }

    /// What people read.
    pub fn printed(&self) -> &str {
        match self {
            Cell::Missing => DASH,
            Cell::Text(t) => t,
            Cell::Figure { printed, .. } => printed,
        }
    }
}

/// `value` rounded to `places` decimals, keeping trailing zeros; `None` when not finite or absurd.
pub(super) fn decimal(value: f64, places: u32) -> Option<Decimal> {
    let mut number = Decimal::from_f64_retain(value)?.round_dp(places);
    number.rescale(places);
    if number.is_zero() {
        number.set_sign_positive(true);
    }
    Some(number)
}

/// User text for one line of paper: control characters become single spaces, ends trimmed.
pub(super) fn clean(words: &str) -> String {
    let spaced: String = words
        .chars()
        .map(|c| {
            let unseen = matches!(c, '\u{2028}' | '\u{2029}' | '\u{feff}');
            if c.is_control() || unseen || bidi_override(c) {
                ' '
            } else {
                c
            }
        })
        .collect();
    let words = spaced.split([' ', '\u{3000}']).filter(|w| !w.is_empty());
    words.collect::<Vec<_>>().join(" ")
}

/// Characters that would reorder the rest of a printed line.
fn bidi_override(c: char) -> bool {
    matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_loses_control_characters_and_empty_text_is_missing() {
        assert_eq!(
            Cell::text("a\r\n\tb\u{1b}[31m"),
            Cell::Text("a b [31m".to_owned())
        );
        assert_eq!(Cell::text(" \n"), Cell::Missing);
        assert_eq!(Cell::Missing.printed(), "–");
    }

    #[test]
    fn numbers_keep_their_places_and_refuse_nan() {
        assert_eq!(Cell::number(3.0, 2).printed(), "3.00");
        assert_eq!(Cell::number(-0.001, 2).printed(), "0.00");
        assert_eq!(Cell::number(f64::NAN, 2), Cell::Missing);
    }
}
