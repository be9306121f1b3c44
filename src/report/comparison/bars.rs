//! Bars told apart without grey: plain, black, and hatched, as they survive a copier.

use crate::report::draw::{Group, Ink, Item, Path, Pen, Shape};
use crate::report::paper::Block;

/// How a bar is filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Fill {
    /// White with an outline.
    Plain,
    /// Black.
    Solid,
    /// Lines rising to the right.
    Rising,
    /// Lines falling to the right.
    Falling,
    /// Upright lines.
    Upright,
    /// Both slopes.
    Crossed,
}

/// Between two hatch lines, points.
const PITCH: f64 = 4.0;
/// Hatch and outline widths, points.
const HATCH: f64 = 0.7;
const OUTLINE: f64 = 0.8;

/// Draws a bar by its top-left corner; one narrower than a hair is left out.
pub(super) fn bar(block: &mut Block, (x, y, w, h): (f64, f64, f64, f64), fill: Fill) {
    if w < 0.05 || h <= 0.0 {
        return;
    }
    let outline = Path::rect(x, y, w, h);
    match fill {
        Fill::Solid => block.fill(outline.clone(), Ink::Black),
        _ => block.fill(outline.clone(), Ink::White),
    }
    let mut lines = Path::default();
    let mut along = -h;
    while along < w + h {
        let slope = |rising: bool| match rising {
            true => Path::line(x + along, y + h, x + along + h, y),
            false => Path::line(x + along, y, x + along + h, y + h),
        };
        lines = match fill {
            Fill::Rising => lines.and(slope(true)),
            Fill::Falling => lines.and(slope(false)),
            Fill::Crossed => lines.and(slope(true)).and(slope(false)),
            Fill::Upright => lines.and(Path::line(x + along, y, x + along, y + h)),
            Fill::Plain | Fill::Solid => lines,
        };
        along += PITCH;
    }
    if !lines.segments.is_empty() {
        block.items.push(Item::Group(Group {
            clip: Some((x, y, w, h)),
            items: vec![Item::Shape(Shape {
                path: lines,
                pen: Some(Pen::solid(HATCH)),
                fill: None,
                tag: None,
            })],
            ..Group::default()
        }));
    }
    block.stroke(outline, Pen::solid(OUTLINE));
}
