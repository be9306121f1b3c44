//! `Sheet`: a table whose columns are known by name; `Cells`: one row of it, read by column name.

use super::decimal_mark::DecimalMark;
use super::faults::{Faults, Spot};
use super::nearest_word::{fold, suggestion};
use crate::measure::{self, Misread, ParsedLength, Unit};
use crate::text::{Row, SourceFile, Table, cell_name, unit_of};

/// A column and the other names it goes by (folded: lower case, `_` between words).
pub(super) struct Column {
    pub name: &'static str,
    pub also: &'static [&'static str],
    /// Holds numbers with decimals, not words or counts.
    number: bool,
}

impl Column {
    /// The column holds numbers with decimals.
    pub const fn number(self) -> Column {
        Column {
            number: true,
            ..self
        }
    }
}

/// Shorthand for a column with one name.
pub(super) const fn column(name: &'static str) -> Column {
    alias(name, &[])
}

/// Shorthand for a column with further names.
pub(super) const fn alias(name: &'static str, also: &'static [&'static str]) -> Column {
    Column {
        name,
        also,
        number: false,
    }
}

/// Where a known column stands, its heading as written, and the unit the heading gives.
struct Heading {
    name: &'static str,
    at: usize,
    written: String,
    unit: Option<&'static str>,
    number: bool,
}

/// A table with known columns.
pub(super) struct Sheet {
    place: Place,
    headings: Vec<Heading>,
    rows: Vec<Row>,
    decimal_mark: DecimalMark,
}

/// Where a table stands: its file, the sheet of a workbook, the line of its headings.
#[derive(Clone, Debug)]
struct Place {
    file: String,
    sheet: Option<String>,
    header_line: u32,
}

impl Place {
    /// One value of one line; `at` is the column's place, by which a workbook's cell is named.
    fn spot(&self, line: u32, at: Option<usize>, column: &str, value: &str) -> Spot {
        let at = at.filter(|_| self.sheet.is_some());
        Spot {
            sheet: self.sheet.clone(),
            cell: at.map(|at| cell_name(at, line)),
            ..Spot::at(&self.file, line, column, value)
        }
    }
}

/// What a spreadsheet leaves where a formula failed.
const UNWORKED: [&str; 7] = [
    "#DIV/0!", "#N/A", "#NAME?", "#NULL!", "#NUM!", "#REF!", "#VALUE!",
];

/// `Opening (ft)` → (`opening`, `ft`).
fn split_unit(cell: &str) -> (String, Option<&'static str>) {
    let open = cell.rfind(['(', '[']);
    if let Some(open) = open
        && cell.ends_with([')', ']'])
    {
        let inner = cell[open + 1..cell.len() - 1].trim().to_lowercase();
        if let Some(unit) = unit_of(&inner) {
            return (fold(&cell[..open]), Some(unit));
        }
    }
    (fold(cell), None)
}

fn known<'a>(cell: &str, columns: &'a [Column]) -> Option<&'a Column> {
    let (name, _) = split_unit(cell);
    columns
        .iter()
        .find(|c| c.name == name || c.also.contains(&name.as_str()))
}

impl Sheet {
    /// Opens a file; faults of its characters and headings go on the list.
    pub fn open(file: &SourceFile, columns: &[Column], faults: &mut Faults) -> Sheet {
        let table = Table::read(file, |cell| known(cell, columns).is_some());
        faults.snags(&file.name, table.sheet.as_deref(), &table.snags);
        let line = table.header.line;
        let place = Place {
            file: table.file,
            sheet: table.sheet,
            header_line: line,
        };
        let mut headings: Vec<Heading> = Vec::new();
        for (at, cell) in table.header.cells.iter().enumerate() {
            let spot = place.spot(line, Some(at), cell, "");
            match known(cell, columns) {
                Some(c) => {
                    if let Some(first) = headings.iter().find(|h| h.name == c.name) {
                        faults.error(
                            &spot,
                            &format!(
                                "the column {} is there twice (\"{}\" and \"{cell}\")",
                                c.name, first.written
                            ),
                            "take one of them away",
                        );
                        continue;
                    }
                    headings.push(Heading {
                        name: c.name,
                        at,
                        written: cell.clone(),
                        unit: split_unit(cell).1,
                        number: c.number,
                    });
                }
                None if cell.starts_with('#') => {}
                None => unknown_heading(&place, &spot, at, &table.rows, columns, faults),
            }
        }
        let numbers = || headings.iter().filter(|h| h.number);
        let cells = table.rows.iter().flat_map(|row| {
            let cells = numbers().filter_map(|h| row.cells.get(h.at));
            cells.map(|cell| (row.line, cell.as_str()))
        });
        Sheet {
            place,
            decimal_mark: DecimalMark::of(cells),
            headings,
            rows: table.rows,
        }
    }

    /// The whole table.
    pub fn spot(&self) -> Spot {
        Spot {
            sheet: self.place.sheet.clone(),
            ..Spot::file(&self.place.file)
        }
    }

    /// The line of the headings, where a column of that name is missing.
    pub fn missing(&self, name: &str) -> Spot {
        self.place.spot(self.place.header_line, None, name, "")
    }

    /// Says so for each of `names` that no heading has; true when all are there.
    pub fn require(&self, names: &[&str], faults: &mut Faults) -> bool {
        if self.headings.is_empty() {
            return false;
        }
        let mut all = true;
        for name in names {
            if !self.has(name) {
                all = false;
                faults.error(
                    &self.missing(name),
                    &format!("the column {name} is missing"),
                    &format!("add a column named {name}"),
                );
            }
        }
        all
    }

    pub fn has(&self, name: &str) -> bool {
        self.headings.iter().any(|h| h.name == name)
    }

    pub fn rows(&self) -> impl Iterator<Item = Cells<'_>> {
        self.rows.iter().map(|row| Cells { sheet: self, row })
    }
}

fn unknown_heading(
    place: &Place,
    spot: &Spot,
    at: usize,
    rows: &[Row],
    columns: &[Column],
    faults: &mut Faults,
) {
    let name = spot.column.clone().unwrap_or_default();
    if !name.is_empty() {
        let names = columns.iter().map(|c| c.name);
        faults.error(
            spot,
            &format!("\"{name}\" is not a column of this file"),
            &format!(
                "{} (a heading that starts with # is left alone)",
                suggestion(&name, names)
            ),
        );
    } else if let Some(row) = rows.iter().find(|r| !r.cells[at].is_empty()) {
        faults.error(
            &Spot {
                column: None,
                ..place.spot(row.line, Some(at), "", &row.cells[at])
            },
            "this cell stands in a column without a heading",
            "name the column, or empty it",
        );
    }
}

/// One row.
#[derive(Clone, Copy)]
pub(super) struct Cells<'a> {
    sheet: &'a Sheet,
    row: &'a Row,
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
        if UNWORKED.contains(&text) {
            faults.error(
                &self.spot(name),
                "the spreadsheet could not work this cell out",
                "mend its formula, or write the value",
            );
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

    /// As [`Cells::read`], but an empty cell is a fault.
    pub fn need<T>(
        &self,
        name: &str,
        faults: &mut Faults,
        parse: impl FnOnce(&str) -> Result<T, Misread>,
    ) -> Option<T> {
        if self.text(name).is_empty() {
            faults.error(
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
