//! Characters → glyphs with widths; which characters no face holds.

use std::collections::{BTreeMap, BTreeSet};
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

/// A face read once: character → (glyph, advance in ems), and the box's advance.
struct Table {
    map: BTreeMap<char, (u16, f64)>,
    boxed: f64,
}

static TABLES: LazyLock<[Table; 3]> = LazyLock::new(|| Face::ALL.map(read));

fn read(face: Face) -> Table {
    let mut table = Table {
        map: BTreeMap::new(),
        boxed: 0.6,
    };
    // The committed fonts parse (tested below); a broken one would draw boxes, never panic.
    let Ok(font) = ttf_parser::Face::parse(face.data(), 0) else {
        return table;
    };
    let em = f64::from(font.units_per_em());
    let advance = |id| f64::from(font.glyph_hor_advance(id).unwrap_or(0)) / em;
    table.boxed = advance(ttf_parser::GlyphId(0));
    for sub in font.tables().cmap.iter().flat_map(|c| c.subtables) {
        if sub.is_unicode() {
            sub.codepoints(|point| {
                if let (Some(c), Some(id)) = (char::from_u32(point), sub.glyph_index(point)) {
                    table.map.insert(c, (id.0, advance(id)));
                }
            });
        }
    }
    table
}

/// The glyph of one character, from the face itself or the fallback; `None` when neither has it.
fn find(face: Face, c: char) -> Option<Glyph> {
    [face, Face::Fallback].into_iter().find_map(|f| {
        TABLES[f.index()].map.get(&c).map(|&(id, advance)| Glyph {
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
pub fn glyphs(face: Face, words: &str) -> Vec<Glyph> {
    let glyph = |c: char| {
        find(face, c).unwrap_or(Glyph {
            face,
            id: 0,
            character: c,
            advance: TABLES[face.index()].boxed,
        })
    };
    words
        .chars()
        .filter(|&c| !silent(c))
        .map(|c| glyph(plain(c)))
        .collect()
}

/// A run's width, points.
pub fn width(face: Face, size: f64, words: &str) -> f64 {
    size * glyphs(face, words).iter().map(|g| g.advance).sum::<f64>()
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
            assert!(!TABLES[face.index()].map.is_empty(), "{face:?}");
        }
        let wanted = "½¼¾⅛⅜⅝⅞′″'\"0123456789×°±–—•αφßñéżŁøЖёΩφ€£";
        for face in [Face::Regular, Face::Bold] {
            for c in wanted.chars() {
                assert!(TABLES[face.index()].map.contains_key(&c), "{face:?} {c}");
            }
        }
    }

    #[test]
    fn digits_are_all_one_width() {
        for face in [Face::Regular, Face::Bold] {
            let widths: BTreeSet<u64> = ('0'..='9')
                .map(|c| TABLES[face.index()].map[&c].1.to_bits())
                .collect();
            assert_eq!(widths.len(), 1);
        }
    }

    #[test]
    fn han_kana_and_hangul_come_from_the_fallback_and_the_rest_is_named() {
        assert!(missing("北京大门 東京 ゲート 서울 대문 Łódź Κήπος Ворота").is_empty());
        assert_eq!(glyphs(Face::Bold, "門")[0].face, Face::Fallback);
        assert_eq!(
            missing("a\u{5d0}b").into_iter().collect::<String>(),
            "\u{5d0}"
        );
        assert_eq!(glyphs(Face::Regular, "\u{5d0}")[0].id, 0);
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
