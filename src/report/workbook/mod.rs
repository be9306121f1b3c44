//! The week as an XLSX workbook: every sheet's records, numbers as numbers with their printed form
//! beside them, and the comparison with the ways of working by hand.
//!
//! Same plan → same bytes: the file's date is a fixed one. User text is written as text; no cell holds
//! a formula.

mod comparison;
mod tab;

use rust_xlsxwriter::{DocProperties, ExcelDateTime, Workbook, XlsxError};

use crate::measure::Units;

use super::job::Job;
use super::sheet::Sheet;

/// The workbook of a week from its sheets.
///
/// # Errors
/// When a table outgrows what a workbook can hold (over a million rows).
pub(super) fn workbook(job: Job<'_>, sheets: &[Sheet]) -> Result<Vec<u8>, XlsxError> {
    let title = format!("Plan {} revision {}", job.plan.number, job.plan.revision);
    let mut book = dated(&title)?;
    for sheet in sheets {
        if let Some(records) = &sheet.records {
            tab::write(
                &mut book,
                name(&sheet.stem),
                records,
                &sheet.heading,
                job.units(),
            )?;
        }
    }
    let hand = comparison::comparison(job);
    tab::write(&mut book, "Comparison", &hand, &job.heading(), job.units())?;
    book.save_to_buffer()
}

/// A workbook of one sheet's records, named for its tab.
///
/// # Errors
/// As [`workbook`].
pub(super) fn one_table(sheet: &Sheet, tab: &str, units: Units) -> Result<Vec<u8>, XlsxError> {
    let mut book = dated(&sheet.title)?;
    if let Some(records) = &sheet.records {
        tab::write(&mut book, tab, records, &sheet.heading, units)?;
    }
    book.save_to_buffer()
}

/// An empty workbook of a title and the fixed date.
fn dated(title: &str) -> Result<Workbook, XlsxError> {
    let mut book = Workbook::new();
    let made = ExcelDateTime::from_ymd(2000, 1, 1)?;
    book.set_properties(
        &DocProperties::new()
            .set_title(title)
            .set_creation_datetime(&made),
    );
    Ok(book)
}

/// A tab's name.
fn name(stem: &str) -> &str {
    match stem {
        "cut_sheet" => "Cut plan",
        "gates" => "Gates",
        "copes" => "Copes",
        "splices" => "Splices",
        "buy_list" => "Buy list",
        "gate_costs" => "Gate costs",
        "parts" => "Parts",
        "remnants" => "Remnants",
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::super::cope_kind::CopeKinds;
    use super::super::world::world;
    use super::super::{buy_list, parts_sheet};
    use super::*;

    #[test]
    fn the_same_plan_gives_the_same_bytes() {
        let world = world();
        let job = world.job();
        let kinds = CopeKinds::of(job.take_off, &[]);
        let sheets = [
            buy_list::buy_list(job),
            parts_sheet::parts_sheet(job.week, job.take_off, &kinds, job.heading(), &[]),
        ];
        let one = workbook(job, &sheets).expect("a small workbook");
        assert_eq!(one, workbook(job, &sheets).expect("a small workbook"));
        assert!(one.starts_with(b"PK"));
    }
}
