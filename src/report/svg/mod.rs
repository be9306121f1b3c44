//! A page → SVG text: paths with their tags (`class`, `data-…`), text as text.
//!
//! Stands alone in a browser and inside an HTML page. The viewer's own sans face is used when the
//! printed family is not installed; words keep the width they were laid out with, so that none runs
//! over its neighbour or the drawing's edge.

use std::fmt::{Display, Formatter, Write};

use crate::report::draw::{Anchor, Face, Group, Ink, Item, Page, Path, Segment, Shape, Tag, Text};

/// What every SVG file begins with.
const DECLARATION: &str = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";

/// What an SVG file of that kind begins with: by it a program knows its own drawing before it writes over it.
pub fn head_of(kind: &str) -> String {
    format!("{DECLARATION}<!-- {kind} -->\n")
}

/// One page as a whole SVG file that says its kind in a comment (no two hyphens in it).
pub fn file_of(page: &Page, kind: &str) -> String {
    format!("{}{}\n", head_of(kind), element(page))
}

/// One page as a whole SVG file.
pub fn file(page: &Page) -> String {
    let mut out = String::from(DECLARATION);
    out.push_str(&element(page));
    out.push('\n');
    out
}

/// One page as an `<svg>` element to put inside HTML. Its size is in points; a stylesheet may let it
/// shrink (`max-width: 100%; height: auto`).
pub fn element(page: &Page) -> String {
    let (w, h) = (number(page.width), number(page.height));
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}pt\" height=\"{h}pt\" viewBox=\"0 0 {w} {h}\" role=\"img\" font-family=\"'Noto Sans','DejaVu Sans',sans-serif\"><title>{}</title>",
        escape(&page.title)
    );
    // Clip paths need ids that stay apart when several drawings share one HTML page.
    let stem: String = page
        .title
        .chars()
        .map(|c| if c.is_ascii_alphanumeric() { c } else { '-' })
        .collect();
    let mut clips = 0;
    items(&mut out, &page.items, &stem, &mut clips);
    out.push_str("</svg>");
    out
}

fn items(out: &mut String, list: &[Item], stem: &str, clips: &mut u32) {
    for item in list {
        match item {
            Item::Shape(s) => shape(out, s),
            Item::Text(t) => text(out, t),
            Item::Group(g) => group(out, g, stem, clips),
        }
    }
}

fn group(out: &mut String, g: &Group, stem: &str, clips: &mut u32) {
    let mut attributes = tag(g.tag.as_ref());
    if g.dx != 0.0 || g.dy != 0.0 {
        push(
            &mut attributes,
            format_args!(
                " transform=\"translate({} {})\"",
                number(g.dx),
                number(g.dy)
            ),
        );
    }
    if let Some((x, y, w, h)) = g.clip {
        *clips += 1;
        push(
            out,
            format_args!(
                "<clipPath id=\"{stem}-{clips}\"><path d=\"{}\"/></clipPath>",
                steps(&Path::rect(x + g.dx, y + g.dy, w, h))
            ),
        );
        push(out, format_args!("<g clip-path=\"url(#{stem}-{clips})\">"));
    }
    push(out, format_args!("<g{attributes}>"));
    items(out, &g.items, stem, clips);
    out.push_str(if g.clip.is_some() { "</g></g>" } else { "</g>" });
}

fn shape(out: &mut String, s: &Shape) {
    let fill = s.fill.map_or("none", ink);
    push(
        out,
        format_args!("<path d=\"{}\" fill=\"{fill}\"", steps(&s.path)),
    );
    if let Some(pen) = &s.pen {
        push(
            out,
            format_args!(
                " stroke=\"{}\" stroke-width=\"{}\"",
                ink(pen.ink),
                number(pen.width)
            ),
        );
        if !pen.dash.is_empty() {
            let dash: Vec<String> = pen.dash.iter().map(|d| number(*d).to_string()).collect();
            push(
                out,
                format_args!(" stroke-dasharray=\"{}\"", dash.join(" ")),
            );
        }
    }
    push(out, format_args!("{}/>", tag(s.tag.as_ref())));
}

fn text(out: &mut String, t: &Text) {
    let (x, y) = (number(t.x), number(t.y));
    push(
        out,
        format_args!("<text x=\"{x}\" y=\"{y}\" font-size=\"{}\"", number(t.size)),
    );
    if t.face == Face::Bold {
        out.push_str(" font-weight=\"bold\"");
    }
    if t.words.chars().nth(1).is_some() {
        push(
            out,
            format_args!(
                " textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\"",
                number(t.width())
            ),
        );
    }
    match t.anchor {
        Anchor::Start => {}
        Anchor::Middle => out.push_str(" text-anchor=\"middle\""),
        Anchor::End => out.push_str(" text-anchor=\"end\""),
    }
    if t.ink == Ink::White {
        out.push_str(" fill=\"#fff\"");
    }
    if t.turn != 0.0 {
        push(
            out,
            format_args!(" transform=\"rotate({} {x} {y})\"", number(-t.turn)),
        );
    }
    push(out, format_args!(">{}</text>", escape(&t.words)));
}

fn tag(tag: Option<&Tag>) -> String {
    let mut out = String::new();
    if let Some(t) = tag {
        push(&mut out, format_args!(" class=\"{}\"", escape(&t.class)));
        for (name, value) in &t.data {
            push(&mut out, format_args!(" data-{name}=\"{}\"", escape(value)));
        }
    }
    out
}

fn steps(path: &Path) -> String {
    let mut out = String::new();
    let n = number;
    for s in &path.segments {
        match *s {
            Segment::Move(x, y) => push(&mut out, format_args!("M{} {}", n(x), n(y))),
            Segment::Line(x, y) => push(&mut out, format_args!("L{} {}", n(x), n(y))),
            Segment::Curve(a, b, c, d, x, y) => push(
                &mut out,
                format_args!("C{} {} {} {} {} {}", n(a), n(b), n(c), n(d), n(x), n(y)),
            ),
            Segment::Close => out.push('Z'),
        }
    }
    out
}

fn ink(ink: Ink) -> &'static str {
    match ink {
        Ink::Black => "#000",
        Ink::White => "#fff",
    }
}

/// Appends formatted text; writing to a `String` cannot fail.
fn push(out: &mut String, what: std::fmt::Arguments<'_>) {
    let _ = out.write_fmt(what);
}

/// A number in thousandths of a point, written without trailing zeros.
#[derive(Clone, Copy, PartialEq)]
struct Number(i64);

/// A number to 1/1000 point; what is not a number draws at 0.
fn number(v: f64) -> Number {
    // Saturates, and takes NaN as 0: both are drawings that no page holds.
    Number((v * 1000.0).round() as i64)
}

impl Display for Number {
    fn fmt(&self, f: &mut Formatter<'_>) -> std::fmt::Result {
        let (whole, part) = (self.0.unsigned_abs() / 1000, self.0.unsigned_abs() % 1000);
        if self.0 < 0 {
            f.write_char('-')?;
        }
        write!(f, "{whole}")?;
        match part {
            0 => Ok(()),
            p if p % 100 == 0 => write!(f, ".{}", p / 100),
            p if p % 10 == 0 => write!(f, ".{:02}", p / 10),
            p => write!(f, ".{p:03}"),
        }
    }
}

/// Text for an element or attribute; characters that XML forbids become spaces.
pub fn escape(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    for c in words.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\u{fffe}' | '\u{ffff}' => out.push(' '),
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::draw::Pen;

    #[test]
    fn a_tagged_line_can_be_read_back_with_its_place() {
        let page = Page {
            width: 100.0,
            height: 50.0,
            title: String::from("A<1"),
            items: vec![Item::Group(Group {
                dx: 10.0,
                clip: Some((0.0, 0.0, 5.0, 5.0)),
                items: vec![Item::Shape(Shape {
                    path: Path::line(0.0, 1.0, 2.5, 1.0 / 3.0),
                    pen: Some(Pen::dashed(0.5, 3.0)),
                    fill: None,
                    tag: Some(Tag {
                        class: String::from("bay-line"),
                        data: vec![("at", String::from("57.59375"))],
                    }),
                })],
                ..Group::default()
            })],
        };
        let svg = file(&page);
        assert!(svg.contains("<title>A&lt;1</title>"));
        assert!(svg.contains("d=\"M0 1L2.5 0.333\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.5\" stroke-dasharray=\"3 3\" class=\"bay-line\" data-at=\"57.59375\"/>"));
        assert!(
            svg.contains("<clipPath id=\"A-1-1\"><path d=\"M10 0L15 0L15 5L10 5Z\"/></clipPath>")
        );
        assert!(svg.contains("<g transform=\"translate(10 0)\">"));
    }

    #[test]
    fn words_are_escaped_and_odd_numbers_do_not_leak() {
        assert_eq!(escape("a&\"<\u{1}"), "a&amp;&quot;&lt; ");
        let written = |v: f64| number(v).to_string();
        assert_eq!(written(f64::NAN), "0");
        assert_eq!(written(-0.0001), "0");
        assert_eq!(written(12.0), "12");
        assert_eq!(written(-0.25), "-0.25");
        assert_eq!(written(1.0605), "1.061");
        assert_eq!(written(70.1), "70.1");
    }
}
