//! Characters → glyphs with widths; which characters no face holds.

use std::collections::BTreeSet;
use std::sync::LazyLock;

use super::Face;

/// One glyph of a run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Glyph {
    /// The face it comes from (the run's own, or the fallback).
    pub face: Face,
    /// Its number in that face; 0 is the box drawn for a missing character.
    pub id: u16,
    /// The character.
    pub character: char,
    /// Advance in ems.
    pub advance: f64,
}

/// Characters under this number are looked up in a table made once; the rest (Han and the like, few
/// on any sheet) in the font itself.
const TABLED: u32 = 0x2600;

/// A face ready to be asked.
struct Reader {
    /// The committed fonts parse (tested below); a broken one would draw boxes, never panic.
    font: Option<ttf_parser::Face<'static>>,
    em: f64,
    /// Glyph and advance in ems, by character.
    table: Vec<Option<(u16, f64)>>,
    /// The box's advance.
    boxed: f64,
}

static READERS: [LazyLock<Reader>; 3] = [
    LazyLock::new(|| Reader::of(Face::Regular)),
    LazyLock::new(|| Reader::of(Face::Bold)),
    LazyLock::new(|| Reader::of(Face::Fallback)),
];

fn reader(face: Face) -> &'static Reader {
    &READERS[face.index()]
}

impl Reader {
    fn of(face: Face) -> Reader {
        let font = ttf_parser::Face::parse(face.data(), 0).ok();
        let em = font.as_ref().map_or(1.0, |f| f64::from(f.units_per_em()));
        let mut reader = Reader {
            font,
            em,
            table: Vec::new(),
            boxed: 0.6,
        };
        if reader.font.is_some() {
            reader.boxed = reader.advance(ttf_parser::GlyphId(0));
            let characters = (0..TABLED).map(|c| char::from_u32(c).and_then(|c| reader.look(c)));
            reader.table = characters.collect();
        }
        reader
    }

    fn advance(&self, id: ttf_parser::GlyphId) -> f64 {
        let units = self.font.as_ref().and_then(|f| f.glyph_hor_advance(id));
        f64::from(units.unwrap_or(0)) / self.em
    }

    /// In the font itself.
    fn look(&self, c: char) -> Option<(u16, f64)> {
        let id = self.font.as_ref()?.glyph_index(c)?;
        Some((id.0, self.advance(id)))
    }

    fn get(&self, c: char) -> Option<(u16, f64)> {
        let place = usize::try_from(u32::from(c)).ok()?;
        match self.table.get(place) {
            Some(found) => *found,
            None => self.look(c),
        }
    }
}

/// The glyph of one character, from the face itself or the fallback; `None` when neither has it.
fn find(face: Face, c: char) -> Option<Glyph> {
    [face, Face::Fallback].into_iter().find_map(|f| {
        reader(f).get(c).map(|(id, advance)| Glyph {
            face: f,
            id,
            character: c,
            advance,
        })
    })
}

/// What a character is drawn as: control characters and odd spaces as a plain space.
fn plain(c: char) -> char {
    if c.is_control() || c == '\u{a0}' || c == '\u{202f}' {
        ' '
    } else {
        c
    }
}

/// Characters that take no room and are left out: joiners, direction marks, variation selectors.
fn silent(c: char) -> bool {
    matches!(c, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{2069}' | '\u{feff}' | '\u{fe00}'..='\u{fe0f}')
}

/// A run's glyphs. A character that no face holds becomes the face's box (glyph 0).
pub fn glyphs(face: Face, words: &str) -> impl Iterator<Item = Glyph> {
    let glyph = move |c: char| {
        find(face, c).unwrap_or(Glyph {
            face,
            id: 0,
            character: c,
            advance: reader(face).boxed,
        })
    };
    words
        .chars()
        .filter(|&c| !silent(c))
        .map(move |c| glyph(plain(c)))
}

/// A run's width, points.
pub fn width(face: Face, size: f64, words: &str) -> f64 {
    size * glyphs(face, words).map(|g| g.advance).sum::<f64>()
}

/// The characters of some text that no face holds, in code point order.
pub fn missing(words: &str) -> BTreeSet<char> {
    words
        .chars()
        .filter(|&c| !silent(c) && find(Face::Regular, plain(c)).is_none())
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_face_parses_and_the_family_holds_what_a_shop_prints() {
        for face in Face::ALL {
            assert!(reader(face).font.is_some(), "{face:?}");
        }
        let wanted = "½¼¾⅛⅜⅝⅞′″'\"0123456789×°±–—•αφßñéżŁøЖёΩφ€£";
        for face in [Face::Regular, Face::Bold] {
            for c in wanted.chars() {
                assert!(reader(face).get(c).is_some(), "{face:?} {c}");
            }
        }
    }

    #[test]
    fn digits_are_all_one_width() {
        for face in [Face::Regular, Face::Bold] {
            let widths: BTreeSet<u64> = ('0'..='9')
                .filter_map(|c| Some(reader(face).get(c)?.1.to_bits()))
                .collect();
            assert_eq!(widths.len(), 1);
        }
    }

    #[test]
    fn han_kana_and_hangul_come_from_the_fallback_and_the_rest_is_named() {
        assert!(missing("北京大门 東京 ゲート 서울 대문 Łódź Κήπος Ворота").is_empty());
        let first = |face, words| glyphs(face, words).next().map(|g| (g.face, g.id));
        assert_eq!(first(Face::Bold, "門").map(|g| g.0), Some(Face::Fallback));
        assert_eq!(
            missing("a\u{5d0}b").into_iter().collect::<String>(),
            "\u{5d0}"
        );
        assert_eq!(first(Face::Regular, "\u{5d0}"), Some((Face::Regular, 0)));
        assert!(width(Face::Regular, 10.0, "\u{5d0}") > 1.0);
    }

    #[test]
    fn line_breaks_are_spaces_and_marks_of_direction_take_no_room() {
        assert_eq!(
            width(Face::Regular, 10.0, "a\nb"),
            width(Face::Regular, 10.0, "a b")
        );
        assert_eq!(
            width(Face::Regular, 10.0, "a\u{200f}b"),
            width(Face::Regular, 10.0, "ab")
        );
    }
}
