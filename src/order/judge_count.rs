//! How many gates or parts one row may ask for: a slip of the keyboard is refused, not planned.

use rust_decimal::Decimal;

use crate::measure::{Misread, parse_count, parse_number};

/// Most gates of one row.
const MOST_GATES: u32 = 9_999;
/// Most parts of one row of parts.csv.
const MOST_PARTS: u32 = 99_999;

/// The count of a row of orders.csv: 0 to 9,999.
pub(super) fn parse_gate_count(text: &str) -> Result<u32, Misread> {
    within(text, MOST_GATES, "gates")
}

/// The count of a row of parts.csv: 0 to 99,999.
pub(super) fn parse_part_count(text: &str) -> Result<u32, Misread> {
    within(text, MOST_PARTS, "parts")
}

fn within(text: &str, most: u32, what: &str) -> Result<u32, Misread> {
    if parse_number(text).is_ok_and(|count| count > Decimal::from(most)) {
        return Err(Misread::beyond(
            &format!("one row can ask for at most {most} {what}"),
            &format!("write a count up to {most}, or split the row"),
        ));
    }
    parse_count(text)
}
