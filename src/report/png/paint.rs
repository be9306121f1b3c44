//! Items → dots.

use tiny_skia::{FillRule, Mask, Paint, PathBuilder, Pixmap, Stroke, StrokeDash, Transform};

use super::DOTS;
use super::outline::Faces;
use crate::report::draw::{
    Anchor, Group, Ink, Item, Page, Path, Pen, Segment, Shape, Text, glyphs,
};

/// Single precision is far under a dot; what is not a number draws at 0.
fn single(v: f64) -> f32 {
    if v.is_finite() { v as f32 } else { 0.0 }
}

/// What is painted on, and with which faces.
struct Easel<'a> {
    picture: &'a mut Pixmap,
    faces: Faces,
}

/// Where a group has moved to, and what it is clipped to.
#[derive(Clone, Copy)]
struct Place<'a> {
    transform: Transform,
    clip: Option<&'a Mask>,
}

/// Paints a page.
pub(super) fn page(picture: &mut Pixmap, page: &Page) {
    let mut easel = Easel {
        picture,
        faces: Faces::read(),
    };
    let place = Place {
        transform: Transform::from_scale(DOTS, DOTS),
        clip: None,
    };
    easel.items(&page.items, place);
}

impl Easel<'_> {
    fn items(&mut self, items: &[Item], place: Place<'_>) {
        for item in items {
            match item {
                Item::Shape(s) => self.shape(s, place),
                Item::Text(t) => self.text(t, place),
                Item::Group(g) => self.group(g, place),
            }
        }
    }

    fn group(&mut self, group: &Group, place: Place<'_>) {
        let moved = place
            .transform
            .pre_translate(single(group.dx), single(group.dy));
        let mut inner = Place {
            transform: moved,
            ..place
        };
        let clip = group.clip.and_then(|(x, y, w, h)| {
            let path = outline(&Path::rect(x, y, w, h))?;
            let mut mask = match place.clip {
                Some(outer) => outer.clone(),
                None => {
                    let mut all = Mask::new(self.picture.width(), self.picture.height())?;
                    all.invert();
                    all
                }
            };
            mask.intersect_path(&path, FillRule::Winding, true, moved);
            Some(mask)
        });
        if group.clip.is_some() {
            inner.clip = clip.as_ref();
        }
        self.items(&group.items, inner);
    }

    fn shape(&mut self, shape: &Shape, place: Place<'_>) {
        let Some(path) = outline(&shape.path) else {
            return;
        };
        if let Some(ink) = shape.fill {
            let rule = FillRule::Winding;
            let (paint, at) = (paint(ink), place.transform);
            self.picture.fill_path(&path, &paint, rule, at, place.clip);
        }
        if let Some(pen) = &shape.pen {
            let (paint, at) = (paint(pen.ink), place.transform);
            self.picture
                .stroke_path(&path, &paint, &stroke(pen), at, place.clip);
        }
    }

    /// Glyph by glyph along the baseline, as the PDF painter places them.
    fn text(&mut self, text: &Text, place: Place<'_>) {
        let run: Vec<_> = glyphs(text.face, &text.words).collect();
        let width: f64 = text.size * run.iter().map(|g| g.advance).sum::<f64>();
        let mut along = match text.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => -width / 2.0,
            Anchor::End => -width,
        };
        let turned = place
            .transform
            .pre_translate(single(text.x), single(text.y))
            .pre_concat(Transform::from_rotate(single(-text.turn)));
        for glyph in run {
            if let Some((path, em)) = self.faces.outline(glyph) {
                let scale = single(text.size) / em.max(1.0);
                let at = turned
                    .pre_translate(single(along), 0.0)
                    .pre_scale(scale, -scale);
                let rule = FillRule::Winding;
                self.picture
                    .fill_path(&path, &paint(text.ink), rule, at, place.clip);
            }
            along += text.size * glyph.advance;
        }
    }
}

fn paint(ink: Ink) -> Paint<'static> {
    let mut paint = Paint::default();
    let level = match ink {
        Ink::Black => 0,
        Ink::White => 255,
    };
    paint.set_color_rgba8(level, level, level, 255);
    paint
}

fn stroke(pen: &Pen) -> Stroke {
    let dash: Vec<f32> = pen.dash.iter().map(|d| single(*d)).collect();
    Stroke {
        width: single(pen.width),
        dash: StrokeDash::new(dash, 0.0),
        ..Stroke::default()
    }
}

/// The path; `None` when it has no extent to draw.
fn outline(path: &Path) -> Option<tiny_skia::Path> {
    let mut out = PathBuilder::new();
    for step in &path.segments {
        match *step {
            Segment::Move(x, y) => out.move_to(single(x), single(y)),
            Segment::Line(x, y) => out.line_to(single(x), single(y)),
            Segment::Curve(a, b, c, d, x, y) => out.cubic_to(
                single(a),
                single(b),
                single(c),
                single(d),
                single(x),
                single(y),
            ),
            Segment::Close => out.close(),
        }
    }
    out.finish()
}
