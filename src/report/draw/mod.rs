//! One small drawing model: pages of paths and text runs, in points (1/72 in), y down from the
//! page's top-left corner. Two painters turn it into paper: `report::svg` and `report::pdf`.
//!
//! Ink is black or white only: what leaves the office is printed on office printers and copied.

mod face;
mod flat;
mod glyph;
mod item;
mod page;
mod path;
mod pen;
mod text;

pub use face::Face;
pub use flat::{Flat, Run};
pub use glyph::{Glyph, glyphs, missing, width};
pub use item::{Group, Item, Shape, Tag};
pub use page::Page;
pub use path::{Path, Segment};
pub use pen::{Ink, Pen};
pub use text::{Anchor, Text};
