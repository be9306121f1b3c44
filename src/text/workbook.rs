//! Workbook (XLSX) → the rows of every sheet that can be seen, as text.

use crate::measure::FaultCode;
use std::collections::BTreeMap;
use std::io::Cursor;
use std::panic::{AssertUnwindSafe, catch_unwind};

use calamine::{Reader, SheetType, SheetVisible, Xlsx, XlsxError};

use super::Snag;
use super::cell_text::{cell_text, shown_unit};
use super::container;
use super::sheet_parts::{SheetPart, sheet_parts};
use super::table::{Row, clean};

/// A filled cell further right belongs to no list of ours.
const WIDEST: usize = 256;

/// One sheet of a workbook.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Tab {
    /// Its name.
    pub name: String,
    /// Its filled rows; cells from column A on.
    pub rows: Vec<Row>,
    /// Its rows that are hidden, from 1; only filled ones.
    pub hidden: Vec<u32>,
    /// A filter stands over its rows.
    pub filtered: bool,
    /// What could not be read.
    pub snags: Vec<Snag>,
}

/// Whether a file's name says that it is a workbook.
pub fn is_workbook(name: &str) -> bool {
    name.to_ascii_lowercase().ends_with(".xlsx")
}

/// A cell's name: `C5` for the third column of row 5.
pub fn cell_name(column: usize, row: u32) -> String {
    let mut letters = String::new();
    let mut left = column + 1;
    while left > 0 {
        let letter = u8::try_from((left - 1) % 26).unwrap_or(0);
        letters.insert(0, char::from(b'A' + letter));
        left = (left - 1) / 26;
    }
    format!("{letters}{row}")
}

/// The sheets that can be seen, in order. Hidden ones are left alone.
///
/// # Errors
/// A snag of the whole file when it is no workbook or is damaged.
pub(super) fn tabs(bytes: &[u8]) -> Result<Vec<Tab>, Box<Snag>> {
    // The library reads what is sound; what it does not survive is damaged.
    catch_unwind(AssertUnwindSafe(|| read(bytes)))
        .unwrap_or_else(|_| Err(damaged("it cannot be read")))
}

fn damaged(why: &str) -> Box<Snag> {
    stop(
        &format!("the workbook cannot be opened: {why}"),
        "open it in the spreadsheet, save it again as .xlsx (or save the sheet as CSV and give that file instead)",
    )
}

fn stop(what: &str, mend: &str) -> Box<Snag> {
    Box::new(Snag::stop(None, what, mend))
}

fn read(bytes: &[u8]) -> Result<Vec<Tab>, Box<Snag>> {
    match bytes {
        [] => {
            return Err(stop("the file is empty", "save the workbook again"));
        }
        [b'P', b'K', ..] => {}
        [0xD0, 0xCF, 0x11, 0xE0, ..] => {
            return Err(damaged(
                "it is in the older .xls form, or locked by a password",
            ));
        }
        _ => {
            return Err(stop(
                "this is not a workbook, whatever its name says",
                "if it is plain text, give it a name that ends in .csv",
            ));
        }
    }
    container::judge(bytes).map_err(damaged)?;
    let parts = sheet_parts(bytes);
    if let Some((name, beyond)) = parts
        .iter()
        .find_map(|(n, p)| Some((n, p.beyond.as_ref()?)))
    {
        return Err(damaged(&format!(
            "{beyond} of its sheet \"{name}\" lies where no sheet has one"
        )));
    }
    let mut book = Xlsx::new(Cursor::new(bytes)).map_err(|e| damaged(&e.to_string()))?;
    let sheets = book
        .sheets_metadata()
        .iter()
        .filter(|s| s.typ == SheetType::WorkSheet);
    let seen = sheets
        .clone()
        .filter(|s| s.visible == SheetVisible::Visible);
    let names: Vec<String> = seen.map(|s| s.name.clone()).collect();
    let hidden: Vec<&str> = sheets.map(|s| s.name.as_str()).collect();
    if names.is_empty() && !hidden.is_empty() {
        return Err(stop(
            &format!(
                "every sheet of the workbook is hidden: {}",
                hidden.join(", ")
            ),
            "show the sheet that is meant, and save the workbook again",
        ));
    }
    let tabs = names.into_iter().map(|name| {
        let part = parts.get(&name).cloned().unwrap_or_default();
        tab(&mut book, name, part)
    });
    tabs.collect::<Result<_, XlsxError>>()
        .map_err(|e| damaged(&e.to_string()))
}

fn tab(book: &mut Xlsx<Cursor<&[u8]>>, name: String, part: SheetPart) -> Result<Tab, XlsxError> {
    let mut cells = book.worksheet_cells_reader(&name)?;
    let form =
        |s: &calamine::Style| Some(shown_unit(&s.number_format.as_ref()?.format_code)).flatten();
    let units: Vec<Option<&str>> = cells.styles().iter().map(form).collect();
    let mut rows: BTreeMap<u32, Vec<String>> = BTreeMap::new();
    let mut far = None;
    while let Some((cell, style)) = cells.next_cell_with_style_id()? {
        let (row, column) = cell.get_position();
        let unit = units.get(style).copied().flatten();
        let text = clean(&cell_text(cell.get_value(), unit));
        let column = usize::try_from(column).unwrap_or(usize::MAX);
        if text.is_empty() {
            continue;
        }
        if column >= WIDEST {
            far.get_or_insert((row, column, text));
            continue;
        }
        put(&mut rows, row, column, text);
    }
    for (row, column, formula) in part.unworked {
        if column < WIDEST {
            put(&mut rows, row, column, format!("={formula}"));
        }
    }
    let line = |row: u32| row.saturating_add(1);
    let far = far.map(|(row, column, text)| Snag {
        code: FaultCode::CellAstray,
        value: Some(text),
        cell: Some(cell_name(column, line(row))),
        ..Snag::stop(
            Some(line(row)),
            "this cell stands far right of any list",
            "take it away, or move it to a sheet of its own",
        )
    });
    let rows = rows.into_iter().map(|(row, cells)| Row {
        line: line(row),
        cells,
    });
    let rows: Vec<Row> = rows.collect();
    let filled = |row: &u32| rows.binary_search_by_key(row, |r| r.line).is_ok();
    Ok(Tab {
        name,
        hidden: part.hidden.into_iter().filter(filled).collect(),
        filtered: part.filtered,
        rows,
        snags: far.into_iter().collect(),
    })
}

/// Puts a text into a row's cell.
fn put(rows: &mut BTreeMap<u32, Vec<String>>, row: u32, column: usize, text: String) {
    let cells = rows.entry(row).or_default();
    if cells.len() <= column {
        cells.resize(column + 1, String::new());
    }
    cells[column] = text;
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_are_named_as_the_spreadsheet_names_them() {
        let names: Vec<String> = [0, 2, 25, 26, 51, 52, 701, 702]
            .map(|c| cell_name(c, 5))
            .into();
        assert_eq!(
            names,
            ["A5", "C5", "Z5", "AA5", "AZ5", "BA5", "ZZ5", "AAA5"]
        );
    }

    #[test]
    fn what_is_no_workbook_is_refused_in_words() {
        let what = |bytes: &[u8]| tabs(bytes).expect_err("refused").what;
        assert!(what(b"").contains("empty"));
        assert!(what(b"mark,count\n").contains("not a workbook"));
        assert!(what(&[0xD0, 0xCF, 0x11, 0xE0, 0]).contains("password"));
        assert!(what(b"PK\x03\x04 and no more").contains("damaged"));
    }
}
