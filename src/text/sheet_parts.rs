//! What a workbook's sheets say of themselves beside their values: hidden rows, formulas that were saved without
//! a value, and cells that name a place no sheet has.
//!
//! Source: the parts and elements of SpreadsheetML (ECMA-376 part 1, section 18); a sheet ends at XFD1048576.

use std::collections::BTreeMap;
use std::io::{Cursor, Read};

use quick_xml::events::{BytesStart, Event};
use quick_xml::{Reader, XmlVersion};
use zip::ZipArchive;

/// Columns and rows of a sheet.
const COLUMNS: u64 = 16_384;
const ROWS: u64 = 1_048_576;

/// One sheet, beside its values.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct SheetPart {
    /// Rows that are hidden, from 1.
    pub hidden: Vec<u32>,
    /// A filter stands over its rows.
    pub filtered: bool,
    /// Cells whose formula has no value: row and column from 0, and the formula.
    pub unworked: Vec<(u32, usize, String)>,
    /// A cell or row that names a place no sheet has.
    pub beyond: Option<String>,
}

/// The sheets of a workbook by name. What cannot be read is left out: whoever opens the workbook says why.
pub(super) fn sheet_parts(bytes: &[u8]) -> BTreeMap<String, SheetPart> {
    let Ok(mut zip) = ZipArchive::new(Cursor::new(bytes)) else {
        return BTreeMap::new();
    };
    let (Some(book), Some(links)) = (
        part(&mut zip, "xl/workbook.xml"),
        part(&mut zip, "xl/_rels/workbook.xml.rels"),
    ) else {
        return BTreeMap::new();
    };
    let paths = pairs(&links, "Relationship", ("Id", "Target"));
    let mut sheets = BTreeMap::new();
    for (name, id) in pairs(&book, "sheet", ("name", "id")) {
        let target = paths.iter().find(|(link, _)| *link == id);
        let Some((_, target)) = target else { continue };
        let path = match target.strip_prefix('/') {
            Some(whole) => whole.to_owned(),
            None => format!("xl/{target}"),
        };
        if let Some(text) = part(&mut zip, &path) {
            sheets.insert(name, read(&text));
        }
    }
    sheets
}

fn part(zip: &mut ZipArchive<Cursor<&[u8]>>, name: &str) -> Option<String> {
    let mut bytes = Vec::new();
    zip.by_name(name).ok()?.read_to_end(&mut bytes).ok()?;
    Some(String::from_utf8_lossy(&bytes).into_owned())
}

/// An attribute by its name without prefix.
fn attribute(element: &BytesStart<'_>, name: &str) -> Option<String> {
    let mut all = element.attributes();
    let mut found = all.with_checks(false).flatten();
    let value = found.find(|a| a.key.local_name().as_ref() == name)?;
    value
        .normalized_value(XmlVersion::Implicit1_0)
        .ok()
        .map(|v| v.into_owned())
}

/// Two attributes of every element of a name.
fn pairs(text: &str, element: &str, (a, b): (&str, &str)) -> Vec<(String, String)> {
    let mut reader = Reader::from_str(text);
    let mut out = Vec::new();
    loop {
        match reader.read_event() {
            Ok(Event::Start(e) | Event::Empty(e)) if e.local_name().as_ref() == element => {
                out.extend(attribute(&e, a).zip(attribute(&e, b)));
            }
            Ok(Event::Eof) | Err(_) => return out,
            Ok(_) => {}
        }
    }
}

/// A cell being read.
#[derive(Default)]
struct Cell {
    row: u32,
    column: usize,
    /// Its value is a number, or says no kind.
    plain: bool,
    formula: Option<String>,
    value: bool,
}

/// Which text is being read.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Within {
    Nothing,
    Formula,
    Value,
}

fn read(text: &str) -> SheetPart {
    let mut reader = Reader::from_str(text);
    let mut sheet = SheetPart::default();
    let mut within = Within::Nothing;
    let (mut cell, mut row, mut column) = (Cell::default(), 0_u32, 0_usize);
    loop {
        match reader.read_event() {
            Ok(Event::Start(e)) => match e.local_name().as_ref() {
                "row" => row = open_row(&e, row, &mut sheet),
                "c" => {
                    cell = open_cell(&e, (row, column), &mut sheet);
                    column = cell.column + 1;
                }
                "f" => {
                    cell.formula = Some(String::new());
                    within = Within::Formula;
                }
                "v" => within = Within::Value,
                "is" => cell.value = true,
                "autoFilter" => sheet.filtered = true,
                _ => {}
            },
            Ok(Event::Empty(e)) => match e.local_name().as_ref() {
                "row" => row = open_row(&e, row, &mut sheet).saturating_add(1),
                "c" => column = open_cell(&e, (row, column), &mut sheet).column + 1,
                "f" => cell.formula = Some(String::new()),
                "autoFilter" => sheet.filtered = true,
                _ => {}
            },
            Ok(Event::Text(t)) => match (within, &mut cell.formula) {
                (Within::Formula, Some(formula)) => formula.push_str(&t),
                (Within::Value, _) => cell.value |= !t.trim().is_empty(),
                _ => {}
            },
            Ok(Event::End(e)) => match e.local_name().as_ref() {
                "row" => (row, column) = (row.saturating_add(1), 0),
                "c" => close_cell(std::mem::take(&mut cell), &mut sheet),
                "f" | "v" => within = Within::Nothing,
                _ => {}
            },
            Ok(Event::Eof) | Err(_) => return sheet,
            Ok(_) => {}
        }
    }
}

/// The row's index, from 0.
fn open_row(element: &BytesStart<'_>, next: u32, sheet: &mut SheetPart) -> u32 {
    let stated = attribute(element, "r");
    let row = match &stated {
        None => Some(next),
        Some(text) => index(text, ROWS),
    };
    let Some(row) = row else {
        sheet.beyond = sheet.beyond.take().or(stated.map(|r| format!("row {r}")));
        return next;
    };
    if attribute(element, "hidden").is_some_and(|h| h == "1" || h == "true") {
        sheet.hidden.push(row + 1);
    }
    row
}

fn open_cell(element: &BytesStart<'_>, next: (u32, usize), sheet: &mut SheetPart) -> Cell {
    let stated = attribute(element, "r");
    let place = match &stated {
        None => Some(next),
        Some(text) => place(text),
    };
    if place.is_none() {
        sheet.beyond = sheet.beyond.take().or(stated.map(|r| format!("cell {r}")));
    }
    let (row, column) = place.unwrap_or(next);
    let kind = attribute(element, "t");
    Cell {
        row,
        column,
        plain: kind.is_none_or(|kind| kind == "n"),
        ..Cell::default()
    }
}

fn close_cell(cell: Cell, sheet: &mut SheetPart) {
    if let Some(formula) = cell.formula.filter(|_| cell.plain && !cell.value) {
        sheet.unworked.push((cell.row, cell.column, formula));
    }
}

/// A number from 1 to `most`, less one.
fn index(digits: &str, most: u64) -> Option<u32> {
    let plain = digits.bytes().all(|b| b.is_ascii_digit());
    let number: u64 = digits.parse().ok().filter(|_| plain)?;
    let index = number.checked_sub(1).filter(|_| number <= most)?;
    u32::try_from(index).ok()
}

/// `C5` → row 4, column 2; `None` where no sheet has such a place.
fn place(text: &str) -> Option<(u32, usize)> {
    let letters = text.chars().take_while(char::is_ascii_alphabetic).count();
    let (letters, digits) = text.split_at_checked(letters)?;
    let mut column = 0_u64;
    for letter in letters.bytes() {
        let digit = u64::from(letter.to_ascii_uppercase() - b'A') + 1;
        column = column.checked_mul(26)?.checked_add(digit)?;
    }
    let column = column.checked_sub(1).filter(|c| *c < COLUMNS)?;
    Some((index(digits, ROWS)?, usize::try_from(column).ok()?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_end_where_a_sheet_ends() {
        assert_eq!(place("C5"), Some((4, 2)));
        assert_eq!(place("xfd1048576"), Some((1_048_575, 16_383)));
        for beyond in [
            "XFE1",
            "A1048577",
            "A4294967297",
            "ZZZZZZZZ1",
            "A0",
            "5",
            "A",
            "A-1",
            "A+1",
        ] {
            assert_eq!(place(beyond), None, "{beyond}");
        }
    }

    #[test]
    fn hidden_rows_and_formulas_without_value_are_found() {
        let sheet = read(
            "<worksheet><sheetData><row r=\"1\"><c r=\"A1\" t=\"s\"><v>0</v></c></row>\
             <row r=\"3\" hidden=\"1\"><c r=\"B3\"><f>A1*2</f><v></v></c><c><f>A1</f><v>7</v></c></row>\
             <row><c r=\"C4\" t=\"str\"><f>IF(A1=\"\",\"\",1)</f><v></v></c><c><f t=\"shared\" si=\"0\"/></c></row>\
             </sheetData><autoFilter ref=\"A1:C9\"/></worksheet>",
        );
        let want = SheetPart {
            hidden: vec![3],
            filtered: true,
            unworked: vec![(2, 1, "A1*2".to_owned()), (3, 3, String::new())],
            beyond: None,
        };
        assert_eq!(sheet, want);
        let far =
            read("<sheetData><row r=\"2\"><c r=\"A4294967297\"><v>1</v></c></row></sheetData>");
        assert_eq!(far.beyond.as_deref(), Some("cell A4294967297"));
    }
}
