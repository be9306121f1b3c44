//! parts.csv → plain parts riding along.

use super::ExtraPart;
use super::faults::Faults;
use super::judge_count::parse_part_count;
use super::judge_size::{Bounds, judge_size};
use super::mark::{parse_mark, parse_note};
use super::marks::Marks;
use super::paperwork::read_paperwork;
use super::pipe_book::PipeBook;
use super::row_pipe::row_pipe;
use super::sheet::{Cells, Column, Sheet, alias, column};
use super::shop_file::ShopFile;
use crate::measure::{FaultCode, Unit};
use crate::text::SourceFile;

const COLUMNS: [Column; 10] = [
    alias("mark", &["part"]),
    column("pipe"),
    column("finish"),
    column("length").number(),
    alias("count", &["qty", "quantity"]),
    alias("customer", &["client"]),
    alias("job", &["job_number", "job_no", "job_#", "project"]),
    alias(
        "purchase_order",
        &["po", "po_number", "po_no", "customer_po"],
    ),
    alias("ship_to", &["deliver_to", "delivery_address", "site"]),
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
    let mut sheet = Sheet::open_with(file, &COLUMNS, &shop.extra_columns, faults);
    if !sheet.require(&["mark", "pipe", "length", "count"], faults) {
        return Vec::new();
    }
    let rows = sheet.rows();
    rows.filter_map(|cells| read_part(&cells, shop, book, marks, faults))
        .collect()
}

fn read_part(
    cells: &Cells<'_>,
    shop: &ShopFile,
    book: &mut PipeBook,
    marks: &mut Marks,
    faults: &mut Faults,
) -> Option<ExtraPart> {
    let mark = cells.need("mark", faults, parse_mark);
    if let Some(mark) = &mark {
        marks.add(mark, 0, cells.spot("mark"), faults);
    }
    let pipe = row_pipe(cells, book, faults);
    let count = cells.need("count", faults, parse_part_count);
    if count == Some(0) {
        faults.note(
            FaultCode::NothingToDo,
            &cells.spot("count"),
            "the count is 0: the row is kept and does nothing",
            "write a count to cut it",
        );
    }
    let paperwork = read_paperwork(cells, faults);
    let note = cells.read("note", faults, parse_note).unwrap_or_default();
    if cells.text("length").is_empty() {
        faults.error(
            FaultCode::ValueMissing,
            &cells.spot("length"),
            "the part has no length",
            "write its length",
        );
    }
    let parsed = cells.length("length", shop.units.map(Unit::of), faults)?;
    let units = shop.shop.units;
    let length = judge_size(cells, "length", &parsed, Bounds::PIECE, units, faults)?;
    Some(ExtraPart {
        mark: mark?,
        pipe: pipe?,
        length,
        count: count?,
        paperwork,
        note,
        origin: cells.spot("mark").origin(),
    })
}
