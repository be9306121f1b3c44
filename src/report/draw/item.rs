//! `Item`: a shape, a text run, or a group that moves and clips what it holds.

use super::{Ink, Path, Pen, Text};

/// What a drawn thing is, so that a drawing can be read back: a class and named values.
/// Painted into SVG (`class`, `data-…`); the PDF painter ignores it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tag {
    /// What it is (`bay-line`).
    pub class: String,
    /// Named values (`at` → `57.59375`), in order.
    pub data: Vec<(&'static str, String)>,
}

/// A stroked and/or filled path.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// Its outline.
    pub path: Path,
    /// How it is stroked, if it is.
    pub pen: Option<Pen>,
    /// How it is filled, if it is (non-zero winding).
    pub fill: Option<Ink>,
    /// What it is, if that is to be read back.
    pub tag: Option<Tag>,
}

/// Items drawn together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Group {
    /// Moved right, points.
    pub dx: f64,
    /// Moved down, points.
    pub dy: f64,
    /// Clipped to (x, y, width, height) in the group's own coordinates.
    pub clip: Option<(f64, f64, f64, f64)>,
    /// What it is, if that is to be read back.
    pub tag: Option<Tag>,
    /// Back to front.
    pub items: Vec<Item>,
}

/// One thing on a page.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// A path.
    Shape(Shape),
    /// A text run.
    Text(Text),
    /// A group.
    Group(Group),
}
