//! rack.csv → measured joints and remnants.

use std::collections::BTreeMap;

use super::RackPiece;
use super::faults::Faults;
use super::judge_size::{Bounds, judge_size};
use super::mark::{parse_mark, parse_note};
use super::pipe_book::PipeBook;
use super::row_pipe::row_pipe;
use super::sheet::{Cells, Column, Sheet, alias, column};
use super::shop_file::ShopFile;
use super::spelling::folded;
use crate::measure::{FaultCode, Length, ParsedLength, Unit};
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

/// Joints come a little longer than they are sold (common practice, no source).
const OVER_LENGTH: Length = Length::from_64ths(6 * 64);

/// Reads rack.csv. `longest` is the longest joint on sale.
pub(super) fn read_rack(
    file: &SourceFile,
    shop: &ShopFile,
    book: &mut PipeBook,
    longest: Option<Length>,
    faults: &mut Faults,
) -> Vec<RackPiece> {
    let mut sheet = Sheet::open(file, &COLUMNS, faults);
    if !sheet.require(&["pipe", "length"], faults) {
        return Vec::new();
    }
    let mut pieces: Vec<RackPiece> = Vec::new();
    let mut tags: BTreeMap<String, usize> = BTreeMap::new();
    for cells in sheet.rows() {
        let Some(piece) = read_piece(&cells, shop, book, faults) else {
            continue;
        };
        doubt_long(&cells, &piece, longest, shop, faults);
        let tag = folded(&piece.tag);
        if let Some(first) = tags.get(&tag).and_then(|at: &usize| pieces.get(*at)) {
            faults.error(
                FaultCode::GivenTwice,
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
        tags.insert(tag, pieces.len());
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
            FaultCode::ValueMissing,
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
            FaultCode::NothingToDo,
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
        arrives: None,
        note,
        origin,
    })
}

/// What lies on the rack was once a joint: it is seldom longer than any that is sold.
fn doubt_long(
    cells: &Cells<'_>,
    piece: &RackPiece,
    longest: Option<Length>,
    shop: &ShopFile,
    faults: &mut Faults,
) {
    let Some(longest) = longest.filter(|l| piece.length > *l + OVER_LENGTH) else {
        return;
    };
    let units = shop.shop.units;
    faults.ask(
        &cells.spot("length"),
        &format!(
            "the piece reads as {}: the longest joint on sale is {}",
            piece.length.print_with_unit(units),
            longest.print_with_unit(units)
        ),
        "measure it again, and check its unit; leave it if it is meant",
    );
}

/// A bare number under the keep length may be feet.
fn doubt_bare(cells: &Cells<'_>, parsed: &ParsedLength, shop: &ShopFile, faults: &mut Faults) {
    if !parsed.bare || parsed.length >= shop.shop.money.keep_length {
        return;
    }
    faults.warn(
        FaultCode::ValueUnusual,
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
            FaultCode::ValueOutOfRange,
            &cells.spot("length"),
            "the piece is no longer than its trims and hold-back",
            "scrap it and take the row away",
        );
    }
    None
}
