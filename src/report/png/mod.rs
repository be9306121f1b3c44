//! A page → PNG, for pasting into a letter: 144 dots to the inch, black and white with smoothed edges.
//!
//! The third painter of the one drawing model. Glyphs are filled outlines of the printed family, so the
//! picture is the same on every machine.

mod outline;
mod paint;

use tiny_skia::{Color, Pixmap};

use crate::report::draw::Page;

/// Dots a point: 144 to the inch.
pub const DOTS: f32 = 2.0;
/// No picture is wider or taller, dots.
const MOST: f64 = 16_384.0;

/// One page as a PNG file; `None` when its size is none that a picture can have.
pub fn file(page: &Page) -> Option<Vec<u8>> {
    let mut picture = Pixmap::new(dots(page.width)?, dots(page.height)?)?;
    picture.fill(Color::WHITE);
    paint::page(&mut picture, page);
    picture.encode_png().ok()
}

/// A length in whole dots.
fn dots(points: f64) -> Option<u32> {
    let dots = (points * f64::from(DOTS)).ceil();
    // In range by the guard, so the cast is exact.
    (1.0..=MOST).contains(&dots).then_some(dots as u32)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::draw::{Group, Ink, Item, Path, Pen, Shape, Text};

    fn shape(path: Path, pen: Option<Pen>, fill: Option<Ink>) -> Item {
        Item::Shape(Shape {
            path,
            pen,
            fill,
            tag: None,
        })
    }

    fn drawn(items: Vec<Item>) -> Pixmap {
        let page = Page {
            width: 40.0,
            height: 20.0,
            title: String::new(),
            items,
        };
        Pixmap::decode_png(&file(&page).expect("a small picture")).expect("a PNG")
    }

    fn dark(picture: &Pixmap, x: u32, y: u32) -> bool {
        picture.pixel(x, y).is_some_and(|p| p.red() < 128)
    }

    #[test]
    fn shapes_land_where_they_are_drawn_and_groups_move_and_clip() {
        let black = |path| shape(path, None, Some(Ink::Black));
        let group = Item::Group(Group {
            dx: 20.0,
            dy: 0.0,
            clip: Some((0.0, 0.0, 5.0, 20.0)),
            items: vec![black(Path::rect(0.0, 0.0, 20.0, 20.0))],
            ..Group::default()
        });
        let picture = drawn(vec![black(Path::rect(2.0, 2.0, 6.0, 6.0)), group]);
        assert_eq!((picture.width(), picture.height()), (80, 40));
        assert!(dark(&picture, 8, 8) && !dark(&picture, 30, 8));
        assert!(dark(&picture, 45, 20), "the group's clip begins at 20 pt");
        assert!(!dark(&picture, 55, 20), "and ends at 25 pt");
    }

    #[test]
    fn dashes_have_gaps_and_words_are_inked() {
        let line = shape(
            Path::line(0.0, 5.0, 40.0, 5.0),
            Some(Pen::dashed(2.0, 5.0)),
            None,
        );
        let picture = drawn(vec![line]);
        assert!(dark(&picture, 4, 10) && !dark(&picture, 14, 10));
        let words = drawn(vec![Item::Text(Text::new(2.0, 16.0, 14.0, "40 ft"))]);
        let inked = words.pixels().iter().filter(|p| p.red() < 128).count();
        assert!(inked > 100, "{inked}");
    }

    #[test]
    fn a_page_without_a_size_is_no_picture() {
        for width in [0.0, -1.0, f64::NAN, 1e9] {
            let page = Page {
                width,
                height: 10.0,
                ..Page::default()
            };
            assert!(file(&page).is_none(), "{width}");
        }
    }
}
