//! How a splice window is drawn, the same in every drawing, and the legend beside it.
//!
//! Hollow is where something may stand: a window is a hollow bar, with one stroke through it where a splice is
//! charged for its stress, crossed where only the order permits one, dashed beyond the plain reach. Solid is what is
//! made: pipe, and the arrowhead of a splice. Rollers stand in the ground and are dashed circles.

use super::draw::{Ink, Path, Pen, Tag};
use super::paper::Block;
use crate::splice::{Window, WindowClass};

/// Thickness of a bar, points.
pub(super) const BAR: f64 = 5.0;

/// Draws a window from `from` to `to` points along the line, its upper edge at `top`.
pub(super) fn window_bar(
    block: &mut Block,
    window: &Window,
    (from, to): (f64, f64),
    top: f64,
    tag: Tag,
) {
    let to = to.max(from + 0.8);
    let pen = if window.tolerated {
        Pen::dashed(0.6, 1.5)
    } else {
        Pen::solid(0.6)
    };
    let path = Path::rect(from, top, to - from, BAR);
    block.shape(path, Some(pen), Some(Ink::White), Some(tag));
    if window.class != WindowClass::Plain {
        block.line(from, top + BAR, to, top, 0.6);
    }
    if window.class == WindowClass::ByOrder {
        block.line(from, top, to, top + BAR, 0.6);
    }
}

/// The legend of the bars that stand there, of no others.
pub(super) fn legend<'a>(windows: impl Iterator<Item = &'a Window> + Clone) -> String {
    let any = |of: fn(&Window) -> bool| windows.clone().any(of);
    let mut words = String::from("hollow bars: where a splice may stand");
    let kinds = [
        (
            any(|w| w.class == WindowClass::Charged),
            "one stroke through: charged for its stress",
        ),
        (
            any(|w| w.class == WindowClass::ByOrder),
            "crossed: high stress, by order only",
        ),
        (any(|w| w.tolerated), "dashed: beyond the plain reach"),
    ];
    for (_, kind) in kinds.iter().filter(|(there, _)| *there) {
        words.push_str(", ");
        words.push_str(kind);
    }
    words
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{Length, Money};
    use crate::report::draw::Item;

    fn window(class: WindowClass, tolerated: bool) -> Window {
        Window {
            lo: Length::ZERO,
            hi: Length::INCH,
            bay: 2,
            roller_bay: true,
            tolerated,
            class,
            charge: Money::ZERO,
        }
    }

    /// No window is filled: solid is what is made.
    #[test]
    fn every_window_is_hollow_and_its_kind_is_in_the_legend() {
        let tag = || Tag {
            class: "window".to_owned(),
            data: Vec::new(),
        };
        for (class, tolerated, shapes, words) in [
            (WindowClass::Plain, false, 1, "stand"),
            (WindowClass::Charged, false, 2, "one stroke through"),
            (WindowClass::ByOrder, false, 3, "crossed"),
            (WindowClass::Plain, true, 1, "dashed"),
        ] {
            let window = window(class, tolerated);
            let mut block = Block::new(0.0);
            window_bar(&mut block, &window, (0.0, 9.0), 0.0, tag());
            let drawn = block.items.iter().filter_map(|i| match i {
                Item::Shape(s) => Some(s),
                _ => None,
            });
            let drawn: Vec<_> = drawn.collect();
            assert_eq!(drawn.len(), shapes, "{words}");
            assert!(drawn.iter().all(|s| s.fill != Some(Ink::Black)), "{words}");
            let said = legend(std::iter::once(&window));
            assert!(said.contains(words), "{said}");
        }
    }
}
