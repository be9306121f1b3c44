//! A gate's hand in words, the same on every sheet.

use crate::order::{GateOrder, Hand, SeenFrom};

/// Which way the leaf slides to open.
pub(super) fn opens(hand: Hand) -> &'static str {
    match hand {
        Hand::Left => "opens to the left",
        Hand::Right => "opens to the right",
    }
}

/// From which side that is seen.
pub(super) fn seen(gate: &GateOrder) -> &'static str {
    match gate.seen_from {
        Some(SeenFrom::Street) => "seen from the street",
        Some(SeenFrom::Yard) => "seen from the yard",
        None => "side not said in the order: ask",
    }
}

/// `left` or `right`, for a column.
pub(super) fn hand(hand: Hand) -> &'static str {
    match hand {
        Hand::Left => "left",
        Hand::Right => "right",
    }
}

/// `street`, `yard` or `not said`, for a column.
pub(super) fn seen_side(gate: &GateOrder) -> &'static str {
    match gate.seen_from {
        Some(SeenFrom::Street) => "street",
        Some(SeenFrom::Yard) => "yard",
        None => "not said",
    }
}

/// `LEFT: opens to the left, seen from the street`.
pub(super) fn hand_words(gate: &GateOrder) -> String {
    let hand = match gate.hand {
        Hand::Left => "LEFT",
        Hand::Right => "RIGHT",
    };
    format!("{hand}: {}, {}", opens(gate.hand), seen(gate))
}
