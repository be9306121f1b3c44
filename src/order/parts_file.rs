//! parts.csv → plain parts riding along.

use super::ExtraPart;
use super::faults::Faults;
use super::mark::{parse_mark, parse_note};
use super::marks::Marks;
use super::pipe_book::PipeBook;
use super::row_pipe::row_pipe;
use super::sheet::{Cells, Column, Sheet, alias, column};
use super::shop_file::ShopFile;
use crate::measure::{Length, Unit, parse_count};
use crate::text::SourceFile;

const COLUMNS: [Column; 6] = [
    alias("mark", &["part"]),
    column("pipe"),
    column("finish"),
    column("length"),
    alias("count", &["qty", "quantity"]),
    alias("note", &["notes"]),
];

/// Reads parts.csv.
pub(super) fn read_parts(
    file: &SourceFile,
    shop: &ShopFile,
    book: &mut PipeBook,
    marks: &mut Marks,
    faults: &mut Faults,
) -> Vec<ExtraPart> {
    let sheet = Sheet::open(file, &COLUMNS, faults);
    if !sheet.require(&["mark", "pipe", "length", "count"], faults) {
        return Vec::new();
    }
    let unit = shop.units.map(Unit::of);
    let rows = sheet.rows();
    rows.filter_map(|cells| read_part(&cells, unit, book, marks, faults))
        .collect()
}

fn read_part(
    cells: &Cells<'_>,
    unit: Option<Unit>,
    book: &mut PipeBook,
    marks: &mut Marks,
    faults: &mut Faults,
) -> Option<ExtraPart> {
    let mark = cells.need("mark", faults, parse_mark);
    if let Some(mark) = &mark {
        marks.add(mark, 0, cells.spot("mark"), faults);
    }
    let pipe = row_pipe(cells, book, faults);
    let count = cells.need("count", faults, parse_count);
    if count == Some(0) {
        faults.note(
            &cells.spot("count"),
            "the count is 0: the row is kept and does nothing",
            "write a count to cut it",
        );
    }
    let note = cells.read("note", faults, parse_note).unwrap_or_default();
    if cells.text("length").is_empty() {
        faults.error(
            &cells.spot("length"),
            "the part has no length",
            "write its length",
        );
    }
    let length = cells.length("length", unit, faults)?.length;
    let spot = cells.spot("length");
    if length <= Length::ZERO || length > Length::FOOT * 200 {
        faults.error(
            &spot,
            "the part cannot have that length",
            "write a length over zero, with its unit",
        );
        return None;
    }
    Some(ExtraPart {
        mark: mark?,
        pipe: pipe?,
        length,
        count: count?,
        note,
        origin: spot.origin(),
    })
}
