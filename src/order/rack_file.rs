//! rack.csv → measured joints and remnants.

use super::RackPiece;
use super::faults::Faults;
use super::mark::{parse_mark, parse_note};
use super::pipe_book::PipeBook;
use super::row_pipe::row_pipe;
use super::sheet::{Cells, Column, Sheet, alias, column};
use super::shop_file::ShopFile;
use crate::measure::{Length, Unit};
use crate::text::SourceFile;

const COLUMNS: [Column; 8] = [
    alias("tag", &["mark"]),
    column("pipe"),
    column("finish"),
    alias("length", &["measured"]),
    alias("count", &["qty", "quantity"]),
    column("near_trim"),
    column("far_trim"),
    alias("note", &["notes"]),
];

/// Reads rack.csv.
pub(super) fn read_rack(
    file: &SourceFile,
    shop: &ShopFile,
    book: &mut PipeBook,
    faults: &mut Faults,
) -> Vec<RackPiece> {
    let sheet = Sheet::open(file, &COLUMNS, faults);
    if !sheet.require(&["pipe", "length"], faults) {
        return Vec::new();
    }
    let unit = shop.units.map(Unit::of);
    let rows = sheet.rows();
    rows.filter_map(|cells| read_piece(&cells, shop, unit, book, faults))
        .collect()
}

fn read_piece(
    cells: &Cells<'_>,
    shop: &ShopFile,
    unit: Option<Unit>,
    book: &mut PipeBook,
    faults: &mut Faults,
) -> Option<RackPiece> {
    let pipe = row_pipe(cells, book, faults);
    let tag = cells.read("tag", faults, parse_mark);
    let count = cells.count("count", faults);
    let near_trim = cells.yes("near_trim", faults).unwrap_or(true);
    let far_trim = cells.yes("far_trim", faults).unwrap_or(true);
    let note = cells.read("note", faults, parse_note).unwrap_or_default();
    if cells.text("length").is_empty() {
        faults.error(
            &cells.spot("length"),
            "the piece has no length",
            "measure it and write its length",
        );
    }
    let length = cells.length("length", unit, faults)?.down();
    let saw = &shop.shop.saw;
    let mut eaten = saw.hold_back;
    if near_trim {
        eaten += saw.near_trim;
    }
    if far_trim {
        eaten += saw.far_trim;
    }
    let spot = cells.spot("length");
    if length <= Length::ZERO || length > Length::FOOT * 200 {
        faults.error(
            &spot,
            "the piece cannot have that length",
            "measure it again and write the unit",
        );
        return None;
    }
    if length <= eaten {
        faults.error(
            &spot,
            "the piece is no longer than its trims and hold-back",
            "scrap it and take the row away",
        );
        return None;
    }
    let origin = spot.origin();
    if count == Some(0) {
        faults.note(
            &cells.spot("count"),
            "the count is 0: the row does nothing",
            "write how many lie there",
        );
    }
    Some(RackPiece {
        tag: tag.unwrap_or_else(|| format!("R{}", origin.line)),
        pipe: pipe?,
        length,
        count: if cells.text("count").is_empty() {
            1
        } else {
            count?
        },
        near_trim,
        far_trim,
        note,
        origin,
    })
}
