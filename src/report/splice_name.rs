//! What pieces and splices of a spliced line are called, the same on every sheet and drawing.
//!
//! A piece is its line's mark and its number from the latch end: `A4-HB/1`. A splice is named by the two pieces it
//! joins, `A4-HB/1+2`, so that no two splices of a gate share a name.

/// Said wherever splices are listed.
pub(super) const HOW_NAMED: &str =
    "A splice is named by the two pieces it joins: HB/1+2 joins pieces HB/1 and HB/2.";

/// Name of the splice after the piece that is `before` in from the latch end, counted from 0.
pub(super) fn splice_name(line: &str, before: usize) -> String {
    format!("{line}/{}+{}", before + 1, before + 2)
}

/// Mark of the piece that is `at` in from the latch end, counted from 0.
pub(super) fn piece_mark(line: &str, at: usize) -> String {
    format!("{line}/{}", at + 1)
}
