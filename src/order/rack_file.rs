//! rack.csv → measured joints and remnants.

use super::RackPiece;
use super::faults::Faults;
use super::judge_size::{Bounds, judge_size};
use super::mark::{parse_mark, parse_note};
use super::pipe_book::PipeBook;
use super::row_pipe::row_pipe;
use super::sheet::{Cells, Column, Sheet, alias, column};
use super::shop_file::ShopFile;
use crate::measure::{Length, ParsedLength, Unit};
use crate::text::SourceFile;

const COLUMNS: [Column; 8] = [
    alias("tag", &["mark"]),
    column("pipe"),
    column("finish"),
    alias("length", &["measured"]).number(),
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
    let mut pieces: Vec<RackPiece> = Vec::new();
    for cells in sheet.rows() {
        let Some(piece) = read_piece(&cells, shop, book, faults) else {
            continue;
        };
        let tag = piece.tag.to_lowercase();
        if let Some(first) = pieces.iter().find(|p| p.tag.to_lowercase() == tag) {
            faults.error(
                &cells.spot("tag"),
                &format!(
                    "the tag {} is already used in {}",
                    piece.tag,
                    first.origin.line_words()
                ),
                "give every row a tag of its own (count says how many lie there)",
            );
            continue;
        }
        pieces.push(piece);
    }
    pieces
}

fn read_piece(
    cells: &Cells<'_>,
    shop: &ShopFile,
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
    let parsed = cells.length("length", shop.units.map(Unit::of), faults)?;
    judge_size(
        cells,
        "length",
        &parsed,
        Bounds::PIECE,
        shop.shop.units,
        faults,
    )?;
    let length = parsed.down();
    doubt_bare(cells, &parsed, shop, faults);
    judge_trims(cells, length, (near_trim, far_trim), shop, faults)?;
    let spot = cells.spot("length");
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

/// A bare number under the keep length may be feet.
fn doubt_bare(cells: &Cells<'_>, parsed: &ParsedLength, shop: &ShopFile, faults: &mut Faults) {
    if !parsed.bare || parsed.length >= shop.shop.money.keep_length {
        return;
    }
    faults.warn(
        &cells.spot("length"),
        &format!(
            "without a unit this reads as {}, shorter than the keep length",
            parsed.length.print(shop.shop.units)
        ),
        "write the unit (21 ft, 21 in, 6 m)",
    );
}

/// The trims it still wants and the hold-back must leave something of a piece.
fn judge_trims(
    cells: &Cells<'_>,
    length: Length,
    (near, far): (bool, bool),
    shop: &ShopFile,
    faults: &mut Faults,
) -> Option<()> {
    let saw = &shop.shop.saw;
    let wanted = |wants: bool, trim: Length| if wants { trim } else { Length::ZERO };
    let eaten = saw.hold_back + wanted(near, saw.near_trim) + wanted(far, saw.far_trim);
    if length > eaten {
        return Some(());
    }
    // Trims that eat every joint were said already.
    let said = ["saw.near_trim", "saw.far_trim", "saw.hold_back"];
    if !said.iter().any(|key| faults.of_setting(key)) {
        faults.error(
            &cells.spot("length"),
            "the piece is no longer than its trims and hold-back",
            "scrap it and take the row away",
        );
    }
    None
}
