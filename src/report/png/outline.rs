//! A glyph's outline as a path, in font units, y up.

use tiny_skia::{Path, PathBuilder};

use crate::report::draw::{Face, Glyph};

struct Outline(PathBuilder);

impl ttf_parser::OutlineBuilder for Outline {
    fn move_to(&mut self, x: f32, y: f32) {
        self.0.move_to(x, y);
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.0.line_to(x, y);
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.0.quad_to(x1, y1, x, y);
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.0.cubic_to(x1, y1, x2, y2, x, y);
    }

    fn close(&mut self) {
        self.0.close();
    }
}

/// The faces of one picture, each read once.
pub(super) struct Faces([Option<ttf_parser::Face<'static>>; 3]);

impl Faces {
    /// Reads them; the committed fonts parse, a broken one would draw nothing.
    pub fn read() -> Faces {
        Faces(Face::ALL.map(|f| ttf_parser::Face::parse(f.data(), 0).ok()))
    }

    /// A glyph's outline and the units of its em; `None` for a blank.
    pub fn outline(&self, glyph: Glyph) -> Option<(Path, f32)> {
        let face = self.0.get(glyph.face.index())?.as_ref()?;
        let mut outline = Outline(PathBuilder::new());
        face.outline_glyph(ttf_parser::GlyphId(glyph.id), &mut outline)?;
        Some((outline.0.finish()?, f32::from(face.units_per_em())))
    }
}
