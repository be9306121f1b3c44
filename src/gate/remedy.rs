//! The smallest change that frees a gate: found by trying, never by guessing.

use super::build::attempt;
use super::layout::Span;
use super::limits::BayLimits;
use crate::measure::Length;
use crate::order::{Bays, GateOrder, Week};

/// The least number of equal bays with which the gate, otherwise as ordered, can be made.
pub(super) fn least_count(week: &Week, gate: usize, order: &GateOrder) -> Option<u32> {
    let span = Span::of(week, order);
    let least = span.limits.least_bays(span.width())?;
    (least..=BayLimits::MOST_BAYS.min(least + 20)).find(|n| {
        let mut changed = order.clone();
        changed.bays = Bays::Count(*n);
        attempt(week, gate, &changed).is_ok()
    })
}

/// The least height, on the saw mark, with which the gate, otherwise as ordered, can be made.
pub(super) fn least_height(week: &Week, gate: usize, order: &GateOrder) -> Option<Length> {
    let works = |height: Length| {
        let mut changed = order.clone();
        changed.height = height;
        attempt(week, gate, &changed).is_ok()
    };
    search(order.height, week.shop.saw.mark, works)
}

/// The least leaf, on the saw mark, with which the gate, otherwise as ordered, can be made.
pub(super) fn least_leaf(week: &Week, gate: usize, order: &GateOrder) -> Option<Length> {
    let works = |leaf: Length| {
        let mut changed = order.clone();
        changed.leaf = leaf.geometric();
        attempt(week, gate, &changed).is_ok()
    };
    search(
        Length::floor_mark(order.leaf, week.shop.saw.mark),
        week.shop.saw.mark,
        works,
    )
}

/// The least mark above `from` that works, if anything up to 64 times a foot does.
fn search(from: Length, mark: Length, works: impl Fn(Length) -> bool) -> Option<Length> {
    if from > Length::MAX || from < Length::ZERO - Length::MAX {
        return None;
    }
    let mark = mark.max(Length::from_ticks(1));
    let mut low = from.down_to(mark);
    let mut step = mark;
    let mut high = low + step;
    while !works(high) {
        low = high;
        step = step * 2;
        if step > Length::FOOT * 64 {
            return None;
        }
        high = low + step;
    }
    while high - low > mark {
        let mid = (low + Length::from_ticks((high - low).ticks() / 2)).down_to(mark);
        let mid = if mid <= low { low + mark } else { mid };
        if works(mid) {
            high = mid;
        } else {
            low = mid;
        }
    }
    Some(high)
}
