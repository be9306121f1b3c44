//! `Sheet`: a table whose columns are known by name; [`Cells`]: one row of it, read by column name.

use super::decimal_mark::DecimalMark;
use super::faults::{Faults, Spot};
use super::nearest_word::{fold, suggestion};
use crate::measure::FaultCode;
use crate::text::{Row, SourceFile, Table, cell_name, unit_of};

mod cells;

pub(super) use cells::Cells;

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
    name: String,
    /// A column of the shop's own.
    extra: bool,
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
        Sheet::open_with(file, columns, &[], faults)
    }

    /// As [`Sheet::open`], with the columns that the shop declares its own.
    pub fn open_with(
        file: &SourceFile,
        columns: &[Column],
        own: &[String],
        faults: &mut Faults,
    ) -> Sheet {
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
            let declared = || own.iter().find(|name| fold(name) == fold(cell));
            let (name, unit, number) = match (known(cell, columns), declared()) {
                (Some(c), _) => (c.name, split_unit(cell).1, c.number),
                (None, Some(name)) => (name.as_str(), None, false),
                (None, None) if cell.starts_with('#') => continue,
                (None, None) => {
                    unknown_heading(&place, &spot, at, &table.rows, columns, faults);
                    continue;
                }
            };
            if let Some(first) = headings.iter().find(|h| h.name == name) {
                faults.error(
                    FaultCode::GivenTwice,
                    &spot,
                    &format!(
                        "the column {name} is there twice (\"{}\" and \"{cell}\")",
                        first.written
                    ),
                    "take one of them away",
                );
                continue;
            }
            headings.push(Heading {
                name: name.to_owned(),
                extra: known(cell, columns).is_none(),
                at,
                written: cell.clone(),
                unit,
                number,
            });
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

    /// Says so for each of `names` that no heading has, and sets rows aside that hold none of the list's work;
    /// true when all columns are there.
    pub fn require(&mut self, names: &[&str], faults: &mut Faults) -> bool {
        if self.headings.is_empty() {
            return false;
        }
        let mut all = true;
        for name in names {
            if !self.has(name) {
                all = false;
                faults.error(
                    FaultCode::ColumnMissing,
                    &self.missing(name),
                    &format!("the column {name} is missing"),
                    &format!("add a column named {name}"),
                );
            }
        }
        if all {
            let mut rows = std::mem::take(&mut self.rows);
            rows.retain(|row| self.is_work(row, names, faults));
            self.rows = rows;
        }
        all
    }

    /// Whether a row is one of the list's: not a total, not a lone cell. What it is instead is said.
    fn is_work(&self, row: &Row, needed: &[&str], faults: &mut Faults) -> bool {
        let filled = row.cells.iter().position(|c| !c.is_empty());
        let Some((at, label)) = filled.map(|at| (at, row.cells[at].as_str())) else {
            return true;
        };
        let cells = Cells { sheet: self, row };
        let empty = needed.iter().filter(|name| cells.text(name).is_empty());
        let empty: Vec<&str> = empty.copied().collect();
        let heading = self.headings.iter().find(|h| h.at == at);
        let written = heading.map_or("", |h| h.written.as_str());
        let spot = self.place.spot(row.line, Some(at), written, label);
        if !empty.is_empty() && is_total(label) {
            faults.warn(
                FaultCode::RowLeftOut,
                &spot,
                "this is a row of totals: it is left out",
                "nothing; or take the row away",
            );
            return false;
        }
        let alone = row.cells.iter().filter(|c| !c.is_empty()).count() == 1;
        if alone && empty.len() > 1 {
            let what = format!(
                "nothing but this cell stands in the row: {} are empty",
                and(&empty)
            );
            faults.error(
                FaultCode::CellAstray,
                &spot,
                &what,
                "fill in the row, or take it away (a total or a remark belongs outside the list)",
            );
        }
        !(alone && empty.len() > 1)
    }

    pub fn has(&self, name: &str) -> bool {
        self.headings.iter().any(|h| h.name == name)
    }

    pub fn rows(&self) -> impl Iterator<Item = Cells<'_>> {
        self.rows.iter().map(|row| Cells { sheet: self, row })
    }
}

/// The words that head a row of totals.
const TOTALS: [&str; 10] = [
    "total",
    "totals",
    "grand_total",
    "subtotal",
    "sub_total",
    "sum",
    "total:",
    "totals:",
    "sum:",
    "grand_total:",
];

fn is_total(label: &str) -> bool {
    TOTALS.contains(&fold(label).as_str())
}

/// `count, opening and height`.
fn and(names: &[&str]) -> String {
    match names {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
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
            FaultCode::HeadingUnknown, spot,
            &format!("\"{name}\" is not a column of this file"),
            &format!(
                "{} (a heading that starts with # is left alone; one listed under extra_columns in shop.toml is \
                 printed)",
                suggestion(&name, names)
            ),
        );
    } else if let Some(row) = rows.iter().find(|r| !r.cells[at].is_empty()) {
        faults.error(
            FaultCode::CellAstray,
            &Spot {
                column: None,
                ..place.spot(row.line, Some(at), "", &row.cells[at])
            },
            "this cell stands in a column without a heading",
            "name the column, or empty it",
        );
    }
}
