//! `Cells`: one row of a sheet, read by column name.

use super::{Heading, Sheet};
use crate::measure::{self, FaultCode, Misread, ParsedLength, Unit};
use crate::order::faults::{Faults, Spot};
use crate::text::Row;

/// What a spreadsheet leaves where a formula failed.
const UNWORKED: [&str; 7] = [
    "#DIV/0!", "#N/A", "#NAME?", "#NULL!", "#NUM!", "#REF!", "#VALUE!",
];

/// One row.
#[derive(Clone, Copy)]
pub(in crate::order) struct Cells<'a> {
    pub(super) sheet: &'a Sheet,
    pub(super) row: &'a Row,
}

impl<'a> Cells<'a> {
    fn heading(&self, name: &str) -> Option<&'a Heading> {
        self.sheet.headings.iter().find(|h| h.name == name)
    }

    /// The file has that column.
    pub fn has(&self, name: &str) -> bool {
        self.sheet.has(name)
    }

    /// The cell's text; empty when the column or the cell is not there.
    pub fn text(&self, name: &str) -> &'a str {
        self.heading(name)
            .and_then(|h| self.row.cells.get(h.at))
            .map_or("", String::as_str)
    }

    /// The columns of the shop's own, in order.
    pub fn extra_columns(&self) -> impl Iterator<Item = String> + use<'a> {
        let own = self.sheet.headings.iter().filter(|h| h.extra);
        own.map(|h| h.name.clone())
    }

    /// Where the cell stands.
    pub fn spot(&self, name: &str) -> Spot {
        let heading = self.heading(name);
        let written = heading.map_or(name, |h| h.written.as_str());
        let at = heading.map(|h| h.at);
        let place = &self.sheet.place;
        place.spot(self.row.line, at, written, self.text(name))
    }

    /// Reads a filled cell with `parse`; an empty one is `None` without a fault.
    pub fn read<T>(
        &self,
        name: &str,
        faults: &mut Faults,
        parse: impl FnOnce(&str) -> Result<T, Misread>,
    ) -> Option<T> {
        let text = self.text(name);
        if text.is_empty() {
            return None;
        }
        if self.unworked(name, faults) {
            return None;
        }
        let number = self.heading(name).is_some_and(|h| h.number);
        let parse = |text: &str| {
            let read = parse(text)?;
            let mark = Some(&self.sheet.decimal_mark).filter(|_| number);
            mark.and_then(|mark| mark.doubt(text)).map_or(Ok(read), Err)
        };
        let read = parse(text).map_err(|m| if is_day(text) { made_a_date() } else { m });
        faults.take(&self.spot(name), read)
    }

    /// Whether the cell holds no value but what a formula left, which is a fault.
    pub fn unworked(&self, name: &str, faults: &mut Faults) -> bool {
        let text = self.text(name);
        if UNWORKED.contains(&text) {
            faults.error(
                FaultCode::FormulaWithoutValue,
                &self.spot(name),
                "the spreadsheet could not work this cell out",
                "mend its formula, or write the value",
            );
            return true;
        }
        let formula = self.sheet.place.sheet.is_some() && text.starts_with('=');
        if formula {
            faults.error(
                FaultCode::FormulaWithoutValue, &self.spot(name),
                "this formula was saved without its value: what it comes to is not in the file",
                "open the workbook in the spreadsheet, let it calculate and save it again; or write the value",
            );
        }
        formula
    }

    /// As [`Cells::read`], but an empty cell is a fault.
    pub fn need<T>(
        &self,
        name: &str,
        faults: &mut Faults,
        parse: impl FnOnce(&str) -> Result<T, Misread>,
    ) -> Option<T> {
        if self.text(name).is_empty() {
            faults.error(
                FaultCode::ValueMissing,
                &self.spot(name),
                &format!("{name} is empty"),
                &format!("fill in the {name}"),
            );
            return None;
        }
        self.read(name, faults, parse)
    }

    /// Reads a length; the heading's unit stands in for a missing one, then the shop's. When the
    /// shop's units are not known (a fault of shop.toml), a number without unit passes unread.
    pub fn length(
        &self,
        name: &str,
        unit: Option<Unit>,
        faults: &mut Faults,
    ) -> Option<ParsedLength> {
        let heading = self.heading(name).and_then(|h| h.unit);
        let text = self.text(name);
        let unjudged = unit.is_none()
            && length_in(text, heading, None).is_err()
            && length_in(text, heading, Some(Unit::Inch)).is_ok();
        if unjudged {
            return None;
        }
        let parsed = self.read(name, faults, |t| length_in(t, heading, unit))?;
        if let Some(warning) = &parsed.warning {
            faults.warn(
                FaultCode::ValueUnusual,
                &self.spot(name),
                warning,
                "write it out if that is not meant",
            );
        }
        Some(parsed)
    }

    /// A whole number, 0 included.
    pub fn count(&self, name: &str, faults: &mut Faults) -> Option<u32> {
        self.read(name, faults, measure::parse_count)
    }

    /// yes or no.
    pub fn yes(&self, name: &str, faults: &mut Faults) -> Option<bool> {
        self.read(name, faults, measure::parse_yes)
    }
}

/// `2026-05-16`, with or without a time of day behind it. (A date column takes such a text, or has
/// its own words for one that is no day.)
fn is_day(text: &str) -> bool {
    let day = text.split(' ').next().unwrap_or_default();
    let form = |c: char| if c.is_ascii_digit() { 'd' } else { c };
    day.chars().map(form).eq("dddd-dd-dd".chars()) && measure::parse_date(day).is_ok()
}

/// A spreadsheet takes `5/16` or `3-5` for a date.
fn made_a_date() -> Misread {
    Misread::new(
        "this is a date: a spreadsheet makes one of 5/16 or 3-5",
        "give the column the text format and type it again",
    )
}

fn length_in(
    text: &str,
    heading: Option<&str>,
    unit: Option<Unit>,
) -> Result<ParsedLength, Misread> {
    let Some(heading) = heading else {
        return measure::parse_length(text, unit);
    };
    measure::parse_length(&format!("{text} {heading}"), None)
        .or_else(|_| measure::parse_length(text, None))
}
