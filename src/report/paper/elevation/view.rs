//! `View`: where a point of the gate's plane falls on the drawing.

use crate::gate::Point;
use crate::measure::MM;
use crate::report::draw::Tag;

/// A drawing to scale: ticks → points, y turned to run down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    /// Points per tick.
    pub scale: f64,
    /// Where x = 0 falls, points.
    pub left: f64,
    /// Where y = 0 (the bottom horizontal's axis) falls, points.
    pub base: f64,
}

impl View {
    /// Across.
    pub fn x(&self, x: f64) -> f64 {
        self.left + x * self.scale
    }

    /// Down.
    pub fn y(&self, y: f64) -> f64 {
        self.base - y * self.scale
    }

    /// A point.
    pub fn at(&self, p: Point) -> (f64, f64) {
        (self.x(p.x), self.y(p.y))
    }

    /// The tag from which a drawing is read back: millimetres per point and where zero falls.
    pub fn tag(&self) -> Tag {
        Tag {
            class: String::from("elevation"),
            data: vec![
                ("mm-per-point", format!("{:.9}", 1.0 / (self.scale * MM))),
                ("x0", format!("{:.3}", self.left)),
                ("y0", format!("{:.3}", self.base)),
            ],
        }
    }
}

/// A tag with one place along the leaf in millimetres.
pub fn placed(class: &str, x: f64, name: &str) -> Tag {
    Tag {
        class: class.to_string(),
        data: vec![("x", format!("{:.5}", x / MM)), ("name", name.to_string())],
    }
}
