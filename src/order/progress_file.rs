//! A list of what happened on the floor (progress.csv) → rows as typed; what they mean only the yard can say.

use super::Fault;
use super::faults::Faults;
use super::sheet::{Cells, Column, Sheet, alias, column};
use crate::measure::FaultCode;
use crate::text::SourceFile;

const COLUMNS: [Column; 11] = [
    alias("what", &["told", "happened"]),
    alias("joint", &["joints"]),
    alias("piece", &["mark", "gate", "pieces"]),
    alias("length", &["actual", "left"]),
    alias("count", &["qty", "quantity"]),
    alias("line", &["order_line"]),
    column("tag"),
    alias("day", &["by", "promised"]),
    column("money"),
    alias("who", &["initials", "by_whom"]),
    alias("note", &["notes"]),
];

/// One row as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ProgressRow {
    /// Line of the file it stands in.
    pub line: u32,
    /// What happened.
    pub what: String,
    /// Joint, or joints.
    pub joint: String,
    /// Piece or gate.
    pub piece: String,
    /// Length, as measured or as left.
    pub length: String,
    /// How many.
    pub count: String,
    /// Line of an order.
    pub order_line: String,
    /// Tag.
    pub tag: String,
    /// Day.
    pub day: String,
    /// Money.
    pub money: String,
    /// Who saw it.
    pub who: String,
    /// Note.
    pub note: String,
}

/// Reads the rows.
///
/// # Errors
/// Every fault of its characters and headings.
pub fn read_progress(file: &SourceFile) -> Result<Vec<ProgressRow>, Vec<Fault>> {
    let mut faults = Faults::default();
    let mut sheet = Sheet::open(file, &COLUMNS, &mut faults);
    let named = sheet.require(&["what"], &mut faults);
    let rows: Vec<ProgressRow> = sheet.rows().map(|cells| row(&cells)).collect();
    if named && rows.is_empty() {
        let spot = super::faults::Spot::file(&file.name);
        faults.error(
            FaultCode::NothingToDo,
            &spot,
            "the list has no row",
            "write what happened, a row each",
        );
    }
    if faults.any_error() {
        return Err(faults.sorted(std::slice::from_ref(&file.name)));
    }
    Ok(rows)
}

fn row(cells: &Cells<'_>) -> ProgressRow {
    let text = |name: &str| cells.text(name).to_owned();
    ProgressRow {
        line: cells.spot("what").origin().line,
        what: text("what"),
        joint: text("joint"),
        piece: text("piece"),
        length: text("length"),
        count: text("count"),
        order_line: text("line"),
        tag: text("tag"),
        day: text("day"),
        money: text("money"),
        who: text("who"),
        note: text("note"),
    }
}
