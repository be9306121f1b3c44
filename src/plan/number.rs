//! The plan number: a digest of the week's data and of how it is cut, short enough to read over a radio.
//!
//! 64-bit FNV-1a (Fowler, Noll and Vo's published constants) over the JSON text of the shop, the
//! pipes and every row, without line numbers and with rows sorted, folded to eight digits. Moving
//! rows changes nothing, nor does typing a figure in another way (3.4, 3.40, $3.40); changing any
//! figure almost surely does. The same week cut in another way (a search stopped early) has another
//! number: sheets of two plans cannot be mixed. Two different plans share a number once in some 10^8.

use rust_decimal::Decimal;
use serde::Serialize;
use serde_json::Value;

use super::PlannedJoint;
use crate::order::Week;

const OFFSET: u64 = 0xcbf2_9ce4_8422_2325;
const PRIME: u64 = 0x0000_0100_0000_01b3;

/// `1234-5678`.
pub(crate) fn number(week: &Week, joints: &[PlannedJoint]) -> String {
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
    if !week.begun.none() {
        eat("begun");
        eat(&canonical(&week.begun));
    }
    for joint in joints {
        eat("joint");
        eat(&joint.length.ticks().to_string());
        for piece in &joint.pieces {
            eat(&piece.mark);
            eat(&piece.start.ticks().to_string());
        }
    }
    let folded = (hash ^ (hash >> 32)) % 100_000_000;
    format!("{:04}-{:04}", folded / 10_000, folded % 10_000)
}

fn sorted<T: Serialize>(rows: &[T]) -> Vec<String> {
    let mut out: Vec<String> = rows.iter().map(canonical).collect();
    out.sort();
    out
}

/// Fields that hold words: `1.1` and `1.10` are two marks, and one price.
const WORDS: [&str; 10] = [
    "mark",
    "tag",
    "name",
    "note",
    "supplier",
    "customer",
    "job",
    "purchase_order",
    "ship_to",
    "text",
];

/// JSON text without where the row stood and how its price was typed; keys in a fixed order. What
/// cannot be written as JSON (never the case for a week's data) counts as empty.
fn canonical<T: Serialize>(value: &T) -> String {
    let mut value = serde_json::to_value(value).unwrap_or(Value::Null);
    if let Value::Object(map) = &mut value {
        map.remove("origin");
        map.remove("quoted");
    }
    plain(&mut value);
    value.to_string()
}

/// Every decimal (text in JSON) without the zeros that were only typed.
fn plain(value: &mut Value) {
    match value {
        Value::String(text) => {
            if let Ok(number) = Decimal::from_str_exact(text) {
                *text = number.normalize().to_string();
            }
        }
        Value::Array(values) => values.iter_mut().for_each(plain),
        Value::Object(map) => {
            let figures = map.iter_mut().filter(|(k, _)| !WORDS.contains(&k.as_str()));
            figures.for_each(|(_, v)| plain(v));
        }
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{Dimension, Money};

    #[test]
    fn figures_are_one_however_they_are_typed_and_marks_are_not() {
        let money = |text: &str| Money(Decimal::from_str_exact(text).expect("a number"));
        let row = |price, od, mark: &str| {
            let od = Dimension::inch(Decimal::from_str_exact(od).expect("a number"));
            canonical(&serde_json::json!({
                "price": money(price), "od": od, "mark": mark, "origin": {"line": 7}, "quoted": price
            }))
        };
        let first = row("3.40", "1.900", "1.10");
        assert_eq!(first, row("3.4", "1.9", "1.10"));
        assert_eq!(row("300", "2", "A"), row("300.00", "2.0", "A"));
        assert_ne!(first, row("3.41", "1.9", "1.10"));
        assert_ne!(first, row("3.4", "1.9", "1.1"));
    }
}
