//! The plan number: a digest of the week's data, short enough to read over a radio.
//!
//! 64-bit FNV-1a (Fowler, Noll and Vo's published constants) over the JSON text of the shop, the
//! pipes and every row, without line numbers and with rows sorted, folded to eight digits. Moving
//! rows changes nothing; changing any figure almost surely does. Two different weeks share a number
//! once in some 10^8.

use serde::Serialize;
use serde_json::Value;

use crate::order::Week;

const OFFSET: u64 = 0xcbf2_9ce4_8422_2325;
const PRIME: u64 = 0x0000_0100_0000_01b3;

/// `1234-5678`.
pub(crate) fn number(week: &Week) -> String {
    let mut hash = OFFSET;
    let mut eat = |text: &str| {
        for byte in text.bytes().chain([b'\n']) {
            hash = (hash ^ u64::from(byte)).wrapping_mul(PRIME);
        }
    };
    eat(&canonical(&week.shop));
    for rows in [
        sorted(&week.pipes),
        sorted(&week.gates),
        sorted(&week.extras),
        sorted(&week.quotes),
        sorted(&week.rack),
    ] {
        eat("rows");
        for row in &rows {
            eat(row);
        }
    }
    if !week.suppliers.is_empty() {
        eat("suppliers");
        sorted(&week.suppliers).iter().for_each(|row| eat(row));
    }
    // The day of the order can change the plan only where quotes have dates.
    let ordered = week.shop.buying.order_date.filter(|_| week.dated());
    if let Some(day) = ordered {
        eat(&day.to_string());
    }
    let folded = (hash ^ (hash >> 32)) % 100_000_000;
    format!("{:04}-{:04}", folded / 10_000, folded % 10_000)
}

fn sorted<T: Serialize>(rows: &[T]) -> Vec<String> {
    let mut out: Vec<String> = rows.iter().map(canonical).collect();
    out.sort();
    out
}

/// JSON text without where the row stood; keys in a fixed order. What cannot be written as JSON
/// (never the case for a week's data) counts as empty.
fn canonical<T: Serialize>(value: &T) -> String {
    let mut value = serde_json::to_value(value).unwrap_or(Value::Null);
    if let Value::Object(map) = &mut value {
        map.remove("origin");
    }
    value.to_string()
}
