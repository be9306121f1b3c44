//! What unit tests make tiny pools of.

use super::problem::{Credit, Group, Item, Line, Pool, Slot, Stock};

#[path = "../../tests/world/dice.rs"]
mod dice;

pub(crate) use dice::Dice;

/// A joint by its length; its name.
pub(super) fn stock(usable: i64, cost: i64, limit: Option<u32>) -> Stock {
    Stock {
        name: usable.to_string(),
        usable,
        cost,
        price: None,
        limit,
        serves: 1,
        length: usable,
    }
}

pub(super) fn item(length: i64, count: u32) -> Item {
    Item {
        length,
        count,
        class: 0,
    }
}

/// Slots as (lo, hi, zone, charge).
pub(super) fn slots(all: &[(i64, i64, u32, i64)]) -> Vec<Slot> {
    let slot = |&(lo, hi, zone, charge): &(i64, i64, u32, i64)| Slot {
        lo,
        hi,
        zone,
        charge,
    };
    all.iter().map(slot).collect()
}

/// A line spliced once.
pub(super) fn line(length: i64, least_piece: i64, places: &[(i64, i64, u32, i64)]) -> Line {
    Line {
        length,
        whole: length,
        gap: 0,
        least_splices: 1,
        most_splices: 1,
        least_piece,
        three_over: 0,
        slots: slots(places),
    }
}

/// Groups alike whose lines keep apart and out of one zone, 10 a splice.
pub(super) fn group(lines: Vec<Line>, count: u32, apart: i64) -> Group {
    Group {
        name: "g".into(),
        count,
        class: 0,
        lines,
        apart,
        zones_exclusive: true,
        splice_cost: 10,
    }
}

/// A pool cut on every mark, without kerf or credit.
pub(super) fn pool(stocks: Vec<Stock>, items: Vec<Item>, groups: Vec<Group>) -> Pool {
    Pool {
        name: "p".into(),
        mark: 1,
        kerf: 0,
        credit: Credit::NONE,
        stocks,
        items,
        groups,
    }
}

/// One group or two of these lines and two kinds of items, out of joints of two lengths and one of the rack that
/// costs a little over its credit.
pub(super) fn two_lines(dice: &mut Dice, lines: Vec<Line>, long: i64) -> Pool {
    let rack = 10 + dice.roll(6);
    let stocks = vec![
        stock(long, 64, None),
        stock(21, 43, None),
        stock(rack, rack / 3 * 4 + 5, Some(1)),
    ];
    let items = vec![
        item(7 + dice.roll(3), 1 + dice.count(3)),
        item(12 + dice.roll(4), 1 + dice.count(3)),
    ];
    let (count, apart) = (1 + dice.count(2), 3 + dice.roll(6));
    Pool {
        kerf: dice.roll(2),
        credit: Credit {
            keep: 6,
            foot: 3,
            per_foot: 4,
        },
        ..pool(stocks, items, vec![group(lines, count, apart)])
    }
}
