//! The leaf in elevation by centre lines: windows shaded along the horizontals, splices, rollers
//! open and closed.

use super::Bending;
use crate::gate::Role;
use crate::measure::INCH;
use crate::order::Carrier;
use crate::report::draw::{Ink, Path, Pen, Tag, Text};
use crate::report::paper::Block;
use crate::report::window_bar::{BAR, window_bar};
use crate::splice::Window;
use crate::statics::Line;

/// Where the drawing stands: points per tick, left end, level of the bottom horizontal.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    pub scale: f64,
    pub left: f64,
    pub base: f64,
    pub high: f64,
}

impl Place {
    /// Points from the left of gate x in ticks.
    pub fn x(&self, ticks: f64) -> f64 {
        self.left + ticks * self.scale
    }

    fn y(&self, which: Line) -> f64 {
        match which {
            Line::Bottom => self.base,
            Line::Top => self.base - self.high,
        }
    }
}

/// Distance of the window bars from the horizontal's axis, points.
const OFF: f64 = 7.0;
/// Radius of a roller as drawn, points.
const ROLLER: f64 = 5.0;

/// Draws the leaf.
pub(super) fn leaf(block: &mut Block, view: &Bending<'_>, place: &Place) {
    members(block, view, place);
    for (bay, number) in view.frame.bays.iter().zip(1u32..) {
        let middle = place.x((bay.from + bay.to) / 2.0);
        let y = place.base - place.high / 2.0;
        block.clear_text(Text::new(middle, y + 3.0, 9.0, format!("bay {number}")).middle());
    }
    rollers(block, view, place);
    for which in Line::BOTH {
        if let Some(line) = view.line(which) {
            for window in &line.windows {
                let from = place.x((line.x_long + window.lo).geometric());
                let to = place.x((line.x_long + window.hi).geometric());
                bar(block, window, (from, to), level(place, which));
            }
        }
        for (_, splice) in view.splices_of(which) {
            if let Some(x) = splice.x {
                mark(block, place.x(x), place.y(which), which);
            }
        }
    }
}

/// Top of the window bars of a horizontal: outside the leaf.
fn level(place: &Place, which: Line) -> f64 {
    match which {
        Line::Bottom => place.y(which) + OFF,
        Line::Top => place.y(which) - OFF - BAR,
    }
}

fn members(block: &mut Block, view: &Bending<'_>, place: &Place) {
    let up = place.high / view.frame.axis_height.max(1.0);
    for member in &view.frame.members {
        let width = match member.role {
            Role::TopHorizontal | Role::BottomHorizontal => 2.0,
            Role::EndPost => 1.6,
            Role::Vertical => 1.0,
            Role::FirstDiagonal | Role::Diagonal | Role::LastDiagonal => 0.7,
            _ => continue,
        };
        let at = |p: crate::gate::Point| (place.x(p.x), place.base - p.y * up);
        let ((x0, y0), (x1, y1)) = (at(member.start), at(member.end));
        block.line(x0, y0, x1, y1, width);
    }
}

/// A window, as in every drawing.
pub(super) fn bar(block: &mut Block, window: &Window, along: (f64, f64), top: f64) {
    let tag = Tag {
        class: "window".to_owned(),
        data: vec![("bay", window.bay.to_string())],
    };
    window_bar(block, window, along, top, tag);
}

/// A splice: a stroke across the horizontal and an arrow head over it.
fn mark(block: &mut Block, x: f64, y: f64, which: Line) {
    let out = if which == Line::Bottom { 1.0 } else { -1.0 };
    let far = y + out * (OFF + BAR + 2.0);
    block.line(x, y - out * 5.0, x, far, 1.2);
    let head = [
        (x, far),
        (x - 3.5, far + out * 8.0),
        (x + 3.5, far + out * 8.0),
    ];
    let tag = Tag {
        class: "splice".to_owned(),
        data: Vec::new(),
    };
    block.shape(Path::polygon(&head), None, Some(Ink::Black), Some(tag));
}

/// Rollers under (or over) what they carry, dashed as in every drawing.
fn rollers(block: &mut Block, view: &Bending<'_>, place: &Place) {
    let r = &view.frame.rollers;
    let level = match view.order.carrier(&view.week.shop) {
        Carrier::Top => place.y(Line::Top) - OFF - BAR - 24.0,
        Carrier::Bottom | Carrier::Both => place.base + OFF + BAR + 24.0,
    };
    for (front, state) in [(r.front_closed, "closed"), (r.front_open, "open")] {
        for (x, which) in [(front, "front"), (front + r.spacing, "rear")] {
            let tag = Tag {
                class: "roller".to_owned(),
                data: vec![
                    ("state", state.to_owned()),
                    ("at", format!("{:.4}", x / INCH)),
                ],
            };
            let circle = Path::circle(place.x(x), level, ROLLER);
            block.shape(circle, Some(Pen::dashed(1.0, 2.0)), None, Some(tag));
            let words = format!("{which}, {state}");
            block.text(Text::new(place.x(x), level + 16.0, 8.0, words).middle());
            let beam = Path::line(place.x(x), level, place.x(x), place.base - place.high);
            block.stroke(beam, Pen::dashed(0.4, 2.0));
        }
    }
}
