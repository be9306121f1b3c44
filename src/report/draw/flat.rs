//! `Flat`: a drawn page laid flat, every text run and every outline where it stands on the paper, for
//! measuring what runs into what.

use super::{Item, Page, Path, Segment, Text};

/// A text run at its place on the page.
#[derive(Clone, Debug)]
pub struct Run {
    /// The run, moved to the page's own coordinates.
    pub text: Text,
}

impl Run {
    /// (left, top, right, bottom), points.
    pub fn bounds(&self) -> (f64, f64, f64, f64) {
        self.text.bounds()
    }
}

/// A page laid flat.
#[derive(Clone, Debug, Default)]
pub struct Flat {
    /// Width and height, points.
    pub size: (f64, f64),
    /// The section's name.
    pub title: String,
    /// Text runs, back to front.
    pub runs: Vec<Run>,
    /// Outlines: their points on the page, and whether they are filled.
    pub paths: Vec<(Vec<(f64, f64)>, bool)>,
}

impl Flat {
    /// Lays a page flat.
    pub fn of(page: &Page) -> Flat {
        let mut flat = Flat {
            size: (page.width, page.height),
            title: page.title.clone(),
            ..Flat::default()
        };
        flat.take(&page.items, 0.0, 0.0, None);
        flat
    }

    /// Lays some items flat.
    pub fn of_items(items: &[Item]) -> Flat {
        let mut flat = Flat::default();
        flat.take(items, 0.0, 0.0, None);
        flat
    }

    fn take(&mut self, items: &[Item], dx: f64, dy: f64, clip: Option<(f64, f64, f64, f64)>) {
        for item in items {
            match item {
                Item::Text(text) => {
                    let mut text = text.clone();
                    (text.x, text.y) = (text.x + dx, text.y + dy);
                    let seen = clip.is_none_or(|(x, y, w, h)| {
                        text.x >= x && text.x <= x + w && text.y >= y && text.y <= y + h
                    });
                    if seen {
                        self.runs.push(Run { text });
                    }
                }
                Item::Shape(shape) => {
                    let inside = |p: (f64, f64)| match clip {
                        Some((x, y, w, h)) => (p.0.clamp(x, x + w), p.1.clamp(y, y + h)),
                        None => p,
                    };
                    let points = points(&shape.path).into_iter();
                    let points = points.map(|(x, y)| inside((x + dx, y + dy))).collect();
                    self.paths.push((points, shape.fill.is_some()));
                }
                Item::Group(group) => {
                    let (dx, dy) = (dx + group.dx, dy + group.dy);
                    let own = group.clip.map(|(x, y, w, h)| (x + dx, y + dy, w, h));
                    self.take(&group.items, dx, dy, own.or(clip));
                }
            }
        }
    }

    /// All its words, a run a line.
    pub fn words(&self) -> String {
        let runs: Vec<&str> = self.runs.iter().map(|r| r.text.words.as_str()).collect();
        runs.join("\n")
    }

    /// Runs whose words hold a text.
    pub fn holding<'a>(&'a self, words: &'a str) -> impl Iterator<Item = &'a Run> {
        self.runs
            .iter()
            .filter(move |r| r.text.words.contains(words))
    }

    /// Empty squares: left, top, side.
    pub fn boxes(&self) -> Vec<(f64, f64, f64)> {
        let square = |(p, filled): &(Vec<(f64, f64)>, bool)| match p[..] {
            [a, b, c, _] if !filled && (b.0 - a.0 - (c.1 - b.1)).abs() < 1e-6 && b.1 == a.1 => {
                Some((a.0, a.1, b.0 - a.0))
            }
            _ => None,
        };
        self.paths.iter().filter_map(square).collect()
    }
}

/// A path's points, control points too: they hold the curve.
fn points(path: &Path) -> Vec<(f64, f64)> {
    let mut out = Vec::new();
    for segment in &path.segments {
        match *segment {
            Segment::Move(x, y) | Segment::Line(x, y) => out.push((x, y)),
            Segment::Curve(a, b, c, d, x, y) => out.extend([(a, b), (c, d), (x, y)]),
            Segment::Close => {}
        }
    }
    out
}
