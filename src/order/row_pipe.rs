//! The pipe a row of stock.csv, rack.csv or parts.csv names, in its finish.

use super::PipeId;
use super::faults::Faults;
use super::mark::parse_name;
use super::pipe_book::PipeBook;
use super::sheet::Cells;

/// Reads the columns `pipe` and `finish`.
pub(super) fn row_pipe(
    cells: &Cells<'_>,
    book: &mut PipeBook,
    faults: &mut Faults,
) -> Option<PipeId> {
    let name = cells.need("pipe", faults, |t| Ok(t.to_owned()));
    let finish = cells.read("finish", faults, parse_name).unwrap_or_default();
    let id = book.find(&name?, &cells.spot("pipe"))?;
    Some(book.with_finish(id, &finish))
}
