//! How hard a place is bent, said as a share of the gate's highest stress: one form in every output.

use super::table::Cell;

/// Head of a table's column of such shares.
pub(super) const HEAD: &str = "% of peak";

/// `34 % of peak stress`.
pub(super) fn words(share: f64) -> String {
    format!("{} % of peak stress", cell(share).printed())
}

/// Whole percent, for a column under [`HEAD`].
pub(super) fn cell(share: f64) -> Cell {
    Cell::number(100.0 * share, 0)
}
