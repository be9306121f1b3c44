//! One page's items → a PDF content stream. PDF's y runs up from the foot of the page.

use pdf_writer::{Content, Name, Str};

use super::font::Fonts;
use crate::report::draw::{
    Anchor, Face, Glyph, Group, Ink, Item, Page, Path, Pen, Segment, Shape, Text, glyphs,
};

/// PDF's numbers are single precision. Rounded to 1/1000 pt, far under a printer's dot, they are
/// short to write. What is not a number draws at 0.
pub(super) fn single(v: f64) -> f32 {
    let rounded = (v * 1000.0).round() / 1000.0;
    if rounded.is_finite() {
        rounded as f32
    } else {
        0.0
    }
}

/// Where the pen stands: page height and the groups' moves so far.
#[derive(Clone, Copy)]
struct Place {
    height: f64,
    dx: f64,
    dy: f64,
}

impl Place {
    fn x(self, x: f64) -> f32 {
        single(x + self.dx)
    }

    fn y(self, y: f64) -> f32 {
        single(self.height - y - self.dy)
    }
}

/// A page's content stream; glyphs used are noted in `fonts`.
pub(super) fn page(page: &Page, fonts: &mut Fonts) -> Vec<u8> {
    let mut out = Content::new();
    let place = Place {
        height: page.height,
        dx: 0.0,
        dy: 0.0,
    };
    items(&mut out, &page.items, place, fonts);
    out.finish().to_vec()
}

fn items(out: &mut Content, list: &[Item], place: Place, fonts: &mut Fonts) {
    for item in list {
        match item {
            Item::Shape(s) => shape(out, s, place),
            Item::Text(t) => text(out, t, place, fonts),
            Item::Group(g) => group(out, g, place, fonts),
        }
    }
}

fn group(out: &mut Content, g: &Group, place: Place, fonts: &mut Fonts) {
    let inner = Place {
        dx: place.dx + g.dx,
        dy: place.dy + g.dy,
        ..place
    };
    if let Some((x, y, w, h)) = g.clip {
        out.save_state();
        steps(out, &Path::rect(x, y, w, h), inner);
        out.clip_nonzero().end_path();
    }
    items(out, &g.items, inner, fonts);
    if g.clip.is_some() {
        out.restore_state();
    }
}

fn steps(out: &mut Content, path: &Path, p: Place) {
    for s in &path.segments {
        match *s {
            Segment::Move(x, y) => out.move_to(p.x(x), p.y(y)),
            Segment::Line(x, y) => out.line_to(p.x(x), p.y(y)),
            Segment::Curve(a, b, c, d, x, y) => {
                out.cubic_to(p.x(a), p.y(b), p.x(c), p.y(d), p.x(x), p.y(y))
            }
            Segment::Close => out.close_path(),
        };
    }
}

fn gray(ink: Ink) -> f32 {
    match ink {
        Ink::Black => 0.0,
        Ink::White => 1.0,
    }
}

fn stroke_state(out: &mut Content, pen: &Pen) {
    out.set_line_width(single(pen.width))
        .set_stroke_gray(gray(pen.ink))
        .set_dash_pattern(pen.dash.iter().map(|d| single(*d)), 0.0);
}

fn shape(out: &mut Content, s: &Shape, place: Place) {
    if let Some(pen) = &s.pen {
        stroke_state(out, pen);
    }
    if let Some(ink) = s.fill {
        out.set_fill_gray(gray(ink));
    }
    steps(out, &s.path, place);
    match (s.pen.is_some(), s.fill.is_some()) {
        (true, true) => out.fill_nonzero_and_stroke(),
        (true, false) => out.stroke(),
        (false, true) => out.fill_nonzero(),
        (false, false) => out.end_path(),
    };
}

fn text(out: &mut Content, t: &Text, place: Place, fonts: &mut Fonts) {
    let run: Vec<Glyph> = glyphs(t.face, &t.words).collect();
    let width: f64 = t.size * run.iter().map(|g| g.advance).sum::<f64>();
    let back = match t.anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => width / 2.0,
        Anchor::End => width,
    };
    // Exact for the quarter turns, which are nearly all there are.
    let (sin, cos) = match t.turn {
        0.0 => (0.0, 1.0),
        90.0 => (1.0, 0.0),
        turn => turn.to_radians().sin_cos(),
    };
    let (x, y) = (t.x - back * cos, t.y + back * sin);
    out.set_fill_gray(gray(t.ink)).begin_text();
    // A direction, not a place: kept whole.
    let (c, s) = (cos as f32, sin as f32);
    out.set_text_matrix([c, s, -s, c, place.x(x), place.y(y)]);
    let mut face: Option<Face> = None;
    let mut bytes: Vec<u8> = Vec::new();
    for glyph in run {
        if face != Some(glyph.face) {
            if face.is_some() {
                out.show(Str(&bytes));
                bytes.clear();
            }
            face = Some(glyph.face);
            out.set_font(Name(Fonts::name(glyph.face).as_bytes()), single(t.size));
        }
        bytes.extend(fonts.place(glyph).to_be_bytes());
    }
    if !bytes.is_empty() {
        out.show(Str(&bytes));
    }
    out.end_text();
}
