//! Pages → one PDF file: vector, black, only the used glyphs embedded, text that can be copied out.
//!
//! Same pages → same bytes: object numbers follow page order, no date, no random identifier.

mod font;
mod paint;

use miniz_oxide::deflate::compress_to_vec_zlib;
use pdf_writer::{Filter, Finish, Name, Pdf, Rect, Ref, TextStr};
use rayon::prelude::*;

use crate::report::draw::Page;
use font::Fonts;

/// How hard streams are packed, 0–10: past 3 they get a few percent smaller in twice the time
/// (measured on the demo weeks).
const PACKING: u8 = 3;

const CATALOG: i32 = 1;
const PAGES: i32 = 2;
const INFO: i32 = 3;
const OUTLINE: i32 = 4;
/// First of the fonts' object numbers; each font takes [`font::OBJECTS`].
const FONTS: i32 = 10;
/// First of the pages' object numbers; each page takes two, then come the outline's entries.
const FIRST_PAGE: i32 = 40;

fn number(i: usize) -> i32 {
    i32::try_from(i).unwrap_or(i32::MAX / 4)
}

fn page_ref(i: usize) -> Ref {
    Ref::new(FIRST_PAGE + 2 * number(i))
}

/// The pages as one PDF with a title. Pages with the same title in a row share one entry of the
/// document's outline.
pub fn file(pages: &[Page], title: &str) -> Vec<u8> {
    let mut fonts = Fonts::default();
    let contents: Vec<Vec<u8>> = pages.iter().map(|p| paint::page(p, &mut fonts)).collect();
    // Packed side by side, kept in page order: the bytes do not hang on the threads.
    let packed: Vec<Vec<u8>> = contents
        .par_iter()
        .map(|c| compress_to_vec_zlib(c, PACKING))
        .collect();
    let mut pdf = Pdf::new();
    pdf.set_version(1, 7);
    let entries = entries(pages);
    {
        let mut catalog = pdf.catalog(Ref::new(CATALOG));
        catalog.pages(Ref::new(PAGES));
        if !entries.is_empty() {
            catalog.outlines(Ref::new(OUTLINE));
        }
    }
    pdf.document_info(Ref::new(INFO))
        .title(TextStr(title))
        .producer(TextStr("longpoint"));
    pdf.pages(Ref::new(PAGES))
        .kids((0..pages.len()).map(page_ref))
        .count(number(pages.len()));
    for (i, (page, packed)) in pages.iter().zip(&packed).enumerate() {
        write_page(&mut pdf, i, page, packed, &fonts);
    }
    outline(&mut pdf, &entries, FIRST_PAGE + 2 * number(pages.len()));
    fonts.write(&mut pdf, FONTS);
    pdf.finish()
}

fn write_page(pdf: &mut Pdf, i: usize, page: &Page, packed: &[u8], fonts: &Fonts) {
    let id = page_ref(i);
    let content_id = id.next();
    let mut out = pdf.page(id);
    out.media_box(Rect::new(
        0.0,
        0.0,
        paint::single(page.width),
        paint::single(page.height),
    ));
    out.parent(Ref::new(PAGES)).contents(content_id);
    let mut resources = out.resources();
    let mut dict = resources.fonts();
    for (name, id) in fonts.used(FONTS) {
        dict.pair(Name(name.as_bytes()), id);
    }
    dict.finish();
    resources.finish();
    out.finish();
    pdf.stream(content_id, packed).filter(Filter::FlateDecode);
}

/// Outline entries: (title, first page).
fn entries(pages: &[Page]) -> Vec<(String, usize)> {
    let mut out: Vec<(String, usize)> = Vec::new();
    for (i, page) in pages.iter().enumerate() {
        let same = out.last().is_some_and(|(t, _)| *t == page.title);
        if !same && !page.title.is_empty() {
            out.push((page.title.clone(), i));
        }
    }
    out
}

fn outline(pdf: &mut Pdf, entries: &[(String, usize)], first: i32) {
    if entries.is_empty() {
        return;
    }
    let id = |i: usize| Ref::new(first + number(i));
    pdf.outline(Ref::new(OUTLINE))
        .first(id(0))
        .last(id(entries.len() - 1))
        .count(number(entries.len()));
    for (i, (title, page)) in entries.iter().enumerate() {
        let mut item = pdf.outline_item(id(i));
        item.title(TextStr(title)).parent(Ref::new(OUTLINE));
        if i > 0 {
            item.prev(id(i - 1));
        }
        if i + 1 < entries.len() {
            item.next(id(i + 1));
        }
        item.dest().page(page_ref(*page)).fit();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::draw::{Item, Text};

    fn page(title: &str, words: &str) -> Page {
        Page {
            width: 300.0,
            height: 200.0,
            title: title.to_string(),
            items: vec![Item::Text(Text::new(10.0, 20.0, 14.0, words))],
        }
    }

    #[test]
    fn the_same_pages_give_the_same_bytes() {
        let pages = [page("a", "5'-8 3/16\""), page("a", "門"), page("b", "x")];
        assert_eq!(file(&pages, "t"), file(&pages, "t"));
        assert_eq!(
            entries(&pages),
            [(String::from("a"), 0), (String::from("b"), 2)]
        );
    }

    #[test]
    fn only_used_fonts_are_embedded_and_only_their_used_glyphs() {
        let plain = file(&[page("a", "Saw")], "t");
        let name = |bytes: &[u8], n: &str| bytes.windows(n.len()).any(|w| w == n.as_bytes());
        assert!(name(&plain, "NotoSans-Regular") && !name(&plain, "DroidSansFallback"));
        assert!(plain.len() < 10_000, "{} bytes", plain.len());
        assert!(name(&file(&[page("a", "門")], "t"), "DroidSansFallback"));
    }
}
