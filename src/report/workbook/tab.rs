//! One table → one tab: bold frozen head, widths to fit, set up to print.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use rust_xlsxwriter::{Format, Workbook, Worksheet, XlsxError};

use crate::measure::Units;
use crate::report::sheet::Heading;
use crate::report::table::{Cell, Kind, Table, clean};

/// Longest text a cell may hold, by the file format.
const LONGEST: usize = 32_767;
/// Widest a column is set, characters.
const WIDEST: usize = 30;
/// Side margins, inches.
const MARGIN: f64 = 0.4;
/// Smallest scale a tab is printed at: 11 point letters are then 7 point.
const SMALLEST: f64 = 0.64;
/// Number forms by decimals.
const FORMS: [&str; 6] = ["0", "0.0", "0.00", "0.000", "0.0000", "0.00000"];

/// A tab under way: where the next column goes and how wide each must be.
struct Tab<'a> {
    sheet: &'a mut Worksheet,
    column: u16,
    /// Width of the columns so far, inches.
    wide: f64,
}

/// Writes one table.
///
/// # Errors
/// When the table has more rows than a tab can hold.
pub(super) fn write(
    book: &mut Workbook,
    name: &str,
    table: &Table,
    heading: &Heading,
    units: Units,
) -> Result<(), XlsxError> {
    let sheet = book.add_worksheet();
    sheet.set_name(name)?;
    let mut tab = Tab {
        sheet,
        column: 0,
        wide: 0.0,
    };
    let cells = |i: usize| -> Vec<&Cell> { table.rows.iter().filter_map(|r| r.get(i)).collect() };
    for (i, column) in table.columns.iter().enumerate() {
        match column.kind {
            Kind::Words | Kind::Mark | Kind::Figure => tab.words(&column.head, &cells(i))?,
            Kind::Number => tab.numbers(&column.head, &cells(i))?,
        }
    }
    let print = Print {
        rows: u32::try_from(table.rows.len()).unwrap_or(u32::MAX),
        columns: tab.column,
        wide: tab.wide,
    };
    // To compute with, right of what is printed: a figure's printed form says it on paper.
    for (i, column) in table.columns.iter().enumerate() {
        if column.kind == Kind::Figure {
            let head = format!("{} ({})", column.head, unit(&column.name));
            tab.numbers(&head, &cells(i))?;
        }
    }
    print.set(tab.sheet, units)?;
    set_up(tab.sheet, name, heading)
}

/// What of a tab goes to the printer.
struct Print {
    rows: u32,
    columns: u16,
    /// Width, inches at full scale.
    wide: f64,
}

impl Print {
    /// The print area, and as many pages across as keep it large enough to read; the first column again
    /// on each.
    fn set(&self, sheet: &mut Worksheet, units: Units) -> Result<(), XlsxError> {
        let (paper, across) = match units {
            Units::Inch => (1, 11.0),
            Units::Metric => (9, 297.0 / 25.4),
        };
        let room = across - 2.0 * MARGIN;
        let pages = (self.wide * SMALLEST / room).ceil().clamp(1.0, 9.0);
        sheet.set_landscape();
        sheet.set_paper_size(paper);
        sheet.set_margins(MARGIN, MARGIN, 0.75, 0.75, 0.3, 0.3);
        sheet.set_print_area(0, 0, self.rows, self.columns.saturating_sub(1))?;
        // In range by the clamp, so the cast is exact.
        sheet.set_print_fit_to_pages(pages as u16, 0);
        if pages > 1.0 {
            sheet.set_repeat_columns(0, 0)?;
        }
        Ok(())
    }
}

/// The unit a record's name ends in, for the head of its numbers.
fn unit(name: &str) -> &str {
    ["in", "mm", "lb", "kg"]
        .into_iter()
        .find(|u| name.strip_suffix(u).is_some_and(|stem| stem.ends_with('_')))
        .unwrap_or("number")
}

impl Tab<'_> {
    fn head(&mut self, words: &str, widest: usize) -> Result<(), XlsxError> {
        let bold = Format::new().set_bold().set_text_wrap();
        self.sheet
            .write_string_with_format(0, self.column, words, &bold)?;
        let wide = widest.max(words.chars().count().min(14)).min(WIDEST) + 2;
        let wide = f64::from(u32::try_from(wide).unwrap_or(10));
        self.sheet.set_column_width(self.column, wide)?;
        // Seven dots a character and five of padding, 96 to the inch: the workbook's own font.
        self.wide += (7.0 * wide + 5.0) / 96.0;
        self.column += 1;
        Ok(())
    }

    /// A column of text as people read it.
    fn words(&mut self, head: &str, cells: &[&Cell]) -> Result<(), XlsxError> {
        let mut widest = 0;
        for (row, cell) in (1_u32..).zip(cells) {
            let words: String = cell.printed().chars().take(LONGEST).collect();
            let count = words.chars().count();
            widest = widest.max(count);
            if count > WIDEST {
                let wrap = Format::new().set_text_wrap();
                self.sheet
                    .write_string_with_format(row, self.column, words, &wrap)?;
            } else {
                self.sheet.write_string(row, self.column, words)?;
            }
        }
        self.head(head, widest)
    }

    /// A column of numbers; what is missing stays empty.
    fn numbers(&mut self, head: &str, cells: &[&Cell]) -> Result<(), XlsxError> {
        let decimals = |c: &&Cell| match c {
            Cell::Figure { number, .. } => number.normalize().scale(),
            _ => 0,
        };
        let most = cells.iter().map(decimals).max().unwrap_or(0);
        let form = FORMS[usize::try_from(most).unwrap_or(0).min(FORMS.len() - 1)];
        let format = Format::new().set_num_format(form);
        for (row, cell) in (1_u32..).zip(cells) {
            match cell {
                Cell::Figure { number, .. } => {
                    let value = near(*number);
                    self.sheet
                        .write_number_with_format(row, self.column, value, &format)?;
                }
                Cell::Text(words) => {
                    self.sheet.write_string(row, self.column, words)?;
                }
                Cell::Missing => {}
            }
        }
        self.head(head, 9)
    }
}

/// The nearest number a workbook can hold.
fn near(number: Decimal) -> f64 {
    number.to_f64().unwrap_or(0.0)
}

/// Freezes the head and sets the tab up to print.
fn set_up(sheet: &mut Worksheet, name: &str, heading: &Heading) -> Result<(), XlsxError> {
    // A lone & begins a code in a printed header: user text doubles it.
    let plain = |words: &str| {
        clean(words)
            .chars()
            .take(60)
            .collect::<String>()
            .replace('&', "&&")
    };
    sheet.set_freeze_panes(1, 0)?;
    sheet.set_repeat_rows(0, 0)?;
    let date = plain(&heading.date);
    let left_out = match heading.left_out.as_str() {
        "" => String::new(),
        marks => format!("LEFT OUT: {} ", plain(marks)),
    };
    sheet.set_header(format!(
        "&L{left_out}{}, {name}&R{} {date}",
        plain(&heading.shop),
        heading.strip()
    ));
    sheet.set_footer("&Rpage &P of &N");
    Ok(())
}
