//! A week whose orders and rack are kept in a workbook.

use std::fs;
use std::path::Path;

use rust_xlsxwriter::Workbook;

use crate::run::{json, longpoint, planned, read, text, us_week};

/// The text file of a list made into a workbook beside it: numbers as numbers, the rest as text.
fn as_workbook(week: &Path, stem: &str) {
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .from_path(week.join(format!("{stem}.csv")))
        .expect("the list is there");
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    for (row, record) in (0_u32..).zip(reader.records()) {
        for (column, cell) in (0_u16..).zip(&record.expect("it reads")) {
            match cell.trim().parse::<f64>() {
                Ok(number) => sheet.write_number(row, column, number),
                Err(_) => sheet.write_string(row, column, cell),
            }
            .expect("written");
        }
    }
    book.save(week.join(format!("{stem}.xlsx"))).expect("saved");
}

#[test]
fn the_same_week_from_workbooks_is_the_same_plan() {
    let week = us_week("from-workbooks");
    let wanted = planned("from-text-out", &week, &[]);
    for stem in ["orders", "rack"] {
        as_workbook(&week, stem);
        fs::remove_file(week.join(format!("{stem}.csv"))).unwrap();
    }
    let made = planned("from-workbooks-out", &week, &[]);
    assert_eq!(read(&made, "cut_sheet.txt"), read(&wanted, "cut_sheet.txt"));
    let number = |out| json(&read(out, "plan.json"))["plan"].clone();
    assert_eq!(number(&made), number(&wanted));
    assert!(read(&made, "parts.csv").contains("orders.xlsx row "));
}

#[test]
fn a_list_that_is_there_twice_is_a_fault_beside_the_others() {
    let week = us_week("twice");
    as_workbook(&week, "orders");
    let rack = fs::read_to_string(week.join("rack.csv")).unwrap();
    fs::write(
        week.join("rack.csv"),
        format!("{rack}R99,no such pipe,9'\n"),
    )
    .unwrap();
    let ran = longpoint(&["plan", text(&week)]);
    assert_eq!(ran.code, 2);
    assert!(
        ran.err
            .contains("orders.csv: error: both orders.csv and orders.xlsx are there"),
        "{}",
        ran.err
    );
    assert!(ran.err.contains("no such pipe"), "{}", ran.err);
    assert!(!week.join("results").exists());
}
