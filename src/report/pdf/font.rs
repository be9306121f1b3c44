//! The fonts of a PDF: which glyphs were used, cut down, embedded, and mapped back to characters.

use std::collections::BTreeMap;

use miniz_oxide::deflate::compress_to_vec_zlib;
use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Filter, Finish, Name, Pdf, Rect, Ref, Str};
use subsetter::GlyphRemapper;

use super::paint::single;
use crate::report::draw::{Face, Glyph};

/// Object numbers that one font takes.
pub(super) const OBJECTS: i32 = 5;

/// What one face has been asked for.
#[derive(Default)]
struct Used {
    /// Old glyph → new glyph, in order of first use.
    remap: GlyphRemapper,
    /// New glyph → (character, advance in ems).
    glyphs: BTreeMap<u16, (char, f64)>,
}

/// The faces of a document with the glyphs used so far.
#[derive(Default)]
pub(super) struct Fonts {
    faces: [Used; 3],
}

impl Fonts {
    /// The name a content stream calls a face by.
    pub(super) fn name(face: Face) -> &'static str {
        ["F0", "F1", "F2"][face.index()]
    }

    /// A glyph's number in the embedded font; notes that it is used.
    pub(super) fn place(&mut self, glyph: Glyph) -> u16 {
        let used = &mut self.faces[glyph.face.index()];
        let id = used.remap.remap(glyph.id);
        used.glyphs
            .entry(id)
            .or_insert((glyph.character, glyph.advance));
        id
    }

    fn faces(&self) -> impl Iterator<Item = (Face, &Used)> {
        Face::ALL
            .into_iter()
            .zip(&self.faces)
            .filter(|(_, used)| !used.glyphs.is_empty())
    }

    fn id(face: Face, first: i32) -> Ref {
        let step = i32::try_from(face.index()).unwrap_or(0);
        Ref::new(first + OBJECTS * step)
    }

    /// Names and object numbers of the faces in use.
    pub(super) fn used(&self, first: i32) -> Vec<(&'static str, Ref)> {
        self.faces()
            .map(|(face, _)| (Fonts::name(face), Fonts::id(face, first)))
            .collect()
    }

    /// Writes every face in use.
    pub(super) fn write(&self, pdf: &mut Pdf, first: i32) {
        for (face, used) in self.faces() {
            embed(pdf, face, used, Fonts::id(face, first));
        }
    }
}

const INFO: SystemInfo<'static> = SystemInfo {
    registry: Str(b"Adobe"),
    ordering: Str(b"Identity"),
    supplement: 0,
};

fn embed(pdf: &mut Pdf, face: Face, used: &Used, id: Ref) {
    let (cid_id, descriptor_id) = (id.next(), id.next().next());
    let (map_id, file_id) = (descriptor_id.next(), descriptor_id.next().next());
    let name = format!("LNGPNT+{}", face.name());
    let name = Name(name.as_bytes());
    pdf.type0_font(id)
        .base_font(name)
        .encoding_predefined(Name(b"Identity-H"))
        .descendant_font(cid_id)
        .to_unicode(map_id);
    let mut cid = pdf.cid_font(cid_id);
    cid.subtype(CidFontType::Type2)
        .base_font(name)
        .system_info(INFO)
        .font_descriptor(descriptor_id)
        .default_width(0.0)
        .cid_to_gid_map_predefined(Name(b"Identity"));
    let mut widths = cid.widths();
    for (glyph, (_, advance)) in &used.glyphs {
        widths.consecutive(*glyph, [single(advance * 1000.0)]);
    }
    widths.finish();
    cid.finish();
    descriptor(pdf, descriptor_id, name, face, file_id);
    let mut map = UnicodeCmap::new(Name(b"Glyphs"), INFO);
    for (glyph, (c, _)) in &used.glyphs {
        map.pair(*glyph, *c);
    }
    pdf.cmap(map_id, &map.finish());
    // The committed fonts can be cut (tested by embedding each); the whole font is right as well only
    // where glyph numbers did not move, so an empty file stands in and shows at once.
    let cut = subsetter::subset(face.data(), 0, &used.remap).unwrap_or_default();
    let packed = compress_to_vec_zlib(&cut, 6);
    let length = i32::try_from(cut.len()).unwrap_or(0);
    pdf.stream(file_id, &packed)
        .filter(Filter::FlateDecode)
        .pair(Name(b"Length1"), length);
}

fn descriptor(pdf: &mut Pdf, id: Ref, name: Name, face: Face, file: Ref) {
    let parsed = ttf_parser::Face::parse(face.data(), 0).ok();
    let em = parsed
        .as_ref()
        .map_or(1000.0, |f| f32::from(f.units_per_em()));
    let unit = |v: i16| f32::from(v) * 1000.0 / em;
    let (mut bbox, mut ascent, mut descent) = (Rect::new(0.0, 0.0, 1000.0, 1000.0), 1000.0, -300.0);
    let mut cap = 700.0;
    if let Some(f) = &parsed {
        let b = f.global_bounding_box();
        bbox = Rect::new(unit(b.x_min), unit(b.y_min), unit(b.x_max), unit(b.y_max));
        (ascent, descent) = (unit(f.ascender()), unit(f.descender()));
        cap = f.capital_height().map_or(cap, unit);
    }
    pdf.font_descriptor(id)
        .name(name)
        .flags(FontFlags::SYMBOLIC)
        .bbox(bbox)
        .italic_angle(0.0)
        .ascent(ascent)
        .descent(descent)
        .cap_height(cap)
        .stem_v(if face == Face::Bold { 140.0 } else { 80.0 })
        .font_file2(file);
}
