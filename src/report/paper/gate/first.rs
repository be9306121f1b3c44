//! The first page of a gate sheet: the elevation over its figures, the approval and the hand, always on
//! one page. What it has no room for goes to the second page, whole: first the brace from above, then
//! the order's note.

use super::facts::{facts, foot, note};
use super::layout::Second;
use crate::gate::Frame;
use crate::order::GateOrder;
use crate::report::paper::Block;
use crate::report::paper::desk::Desk;
use crate::report::paper::elevation::{Elevation, Give};

/// Sizes of the figures, points: the first with which all of it fits.
const SIZES: [f64; 4] = [11.0, 10.0, 9.5, 9.0];
/// Space between the elevation, the brace and the figures, points.
const GAP: f64 = 6.0;
/// What the elevation gives up at first, before something is moved and after that, and at last.
const LARGE: Give = Give {
    lowest: 90.0,
    throat: true,
};
const SMALL: Give = Give {
    lowest: 70.0,
    throat: true,
};
const SMALLEST: Give = Give {
    lowest: 50.0,
    throat: false,
};
/// What stands in the place of a note that was moved.
const MOVED: &str = "note: at the head of the next page";

/// The page, and what was left for the second.
pub fn first(
    desk: &Desk,
    frame: &Frame,
    gate: &GateOrder,
    drawing: &Elevation,
    second: Second,
) -> (Block, Second) {
    let all = facts(desk, frame, gate);
    let brace = drawing.brace(desk.room);
    let page = |facts: &[String], size: f64, brace: Option<&Block>, give: Give| {
        let foot = foot(desk, facts, frame, gate, size);
        let under = brace.map_or(0.0, |b| b.height + GAP);
        let high = desk.high - foot.height - GAP - under;
        let mut page = drawing.block(desk.room, high, give);
        let fits = page.height <= high;
        if let Some(brace) = brace {
            page.below(GAP, brace.clone());
        }
        page.below(GAP, foot);
        (page, fits)
    };
    let mut braced = vec![(SIZES[0], LARGE)];
    braced.extend(SIZES.map(|size| (size, SMALL)));
    for (size, give) in braced {
        if let (page, true) = page(&all, size, brace.as_ref(), give) {
            return (page, second);
        }
    }
    let second = Second { brace, ..second };
    for size in SIZES {
        if let (page, true) = page(&all, size, None, LARGE) {
            return (page, second);
        }
    }
    let (mut short, words) = (all, note(gate));
    if let Some(last) = short.last_mut().filter(|l| **l == words) {
        *last = String::from(MOVED);
    }
    let second = Second {
        note: (!words.is_empty()).then_some(words),
        ..second
    };
    let least = SIZES[SIZES.len() - 1];
    match page(&short, least, None, SMALL) {
        (page, true) => (page, second),
        _ => (page(&short, least, None, SMALLEST).0, second),
    }
}
