//! Workbooks written by another library than the one that reads them.

use longpoint::order::{Fault, Severity, Week, WeekFiles, print_faults, read_week, starter_week};
use longpoint::text::SourceFile;
use rust_xlsxwriter::{ExcelDateTime, Format, Workbook, Worksheet};

/// What is typed into a cell.
#[derive(Clone, Copy)]
pub enum Typed {
    Nothing,
    Text(&'static str),
    Number(f64),
    /// A number whose form shows something behind it.
    Shown(f64, &'static str),
    Day(u16, u8, u8),
    Yes(bool),
    /// A formula with the value that was saved with it.
    Sum(&'static str, &'static str),
}

pub fn fill(sheet: &mut Worksheet, rows: &[&[Typed]]) {
    for (row, cells) in (0_u32..).zip(rows) {
        for (column, cell) in (0_u16..).zip(cells.iter()) {
            put(sheet, row, column, *cell);
        }
    }
}

fn put(sheet: &mut Worksheet, row: u32, column: u16, cell: Typed) {
    let day = Format::new().set_num_format("m/d/yyyy");
    match cell {
        Typed::Nothing => return,
        Typed::Text(text) => sheet.write_string(row, column, text),
        Typed::Number(n) => sheet.write_number(row, column, n),
        Typed::Shown(n, form) => {
            let form = Format::new().set_num_format(form);
            sheet.write_number_with_format(row, column, n, &form)
        }
        Typed::Day(y, m, d) => {
            let date = ExcelDateTime::from_ymd(y, m, d).expect("a day");
            sheet.write_datetime_with_format(row, column, &date, &day)
        }
        Typed::Yes(yes) => sheet.write_boolean(row, column, yes),
        Typed::Sum(formula, value) => {
            let formula = rust_xlsxwriter::Formula::new(formula).set_result(value);
            sheet.write_formula(row, column, formula)
        }
    }
    .expect("written");
}

/// A workbook of sheets by name.
pub fn book(sheets: &[(&str, &[&[Typed]])]) -> Vec<u8> {
    let mut book = Workbook::new();
    for (name, rows) in sheets {
        let sheet = book.add_worksheet();
        sheet.set_name(*name).expect("a name");
        fill(sheet, rows);
    }
    book.save_to_buffer().expect("saved")
}

/// The starter week with its orders (or rack) taken from a file of that name.
pub fn with(name: &str, bytes: Vec<u8>) -> WeekFiles {
    let starter = |name: &str| {
        let (name, text) = starter_week().into_iter().find(|(n, _)| *n == name)?;
        Some(SourceFile {
            name: name.to_owned(),
            bytes: text.into_bytes(),
        })
    };
    let given = Some(SourceFile {
        name: name.to_owned(),
        bytes,
    });
    let mut files = WeekFiles {
        orders: starter("orders.csv"),
        shop: starter("shop.toml"),
        stock: starter("stock.csv"),
        rack: starter("rack.csv"),
        parts: None,
        ..WeekFiles::default()
    };
    match name.split('.').next() {
        Some("rack") => files.rack = given,
        Some("stock") => files.stock = given,
        _ => files.orders = given,
    }
    files
}

#[track_caller]
pub fn week(files: &WeekFiles) -> Week {
    read_week(files).unwrap_or_else(|f| panic!("{}", print_faults(&f)))
}

/// The errors of a refused week.
#[track_caller]
pub fn errors(files: &WeekFiles) -> Vec<Fault> {
    let mut faults = read_week(files).expect_err("refused");
    faults.retain(|f| f.severity == Severity::Error);
    faults
}
