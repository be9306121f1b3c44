//! Rows of dimensions above and below an elevation.

use super::labels::{levels, within};
use crate::report::draw::{Face, Path, Pen, Tag, Text, width};
use crate::report::paper::Block;

/// One mark of a running row: where it falls (points) and what is read there.
#[derive(Clone, Debug)]
pub struct Stop {
    /// Points from the left.
    pub at: f64,
    /// Words.
    pub words: String,
    /// Read-back tag.
    pub tag: Option<Tag>,
}

/// Size of dimension text, points.
const SIZE: f64 = 11.0;

/// Sizes that the figures of running rows may be set in, points: the first with which they all stand
/// side by side.
const SIZES: [f64; 4] = [SIZE, 10.5, 10.0, 9.5];

/// Size of figures that stand upright, points.
const UPRIGHT: f64 = 9.0;

/// How the figures of a drawing's running rows stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Way {
    /// Side by side.
    Level,
    /// By turns on two levels, a thin line from each mark to its figure.
    Stepped,
    /// Turned to read upward.
    Upright,
}

/// How the figures of a drawing's running rows are set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Set {
    size: f64,
    way: Way,
    room: f64,
}

/// The way to set rows so that all of them fit in a room's width: side by side if any size allows,
/// then on two levels, else upright.
pub fn set<'a>(room: f64, rows: impl Iterator<Item = &'a [Stop]> + Clone) -> Set {
    let tried = |way: Way| SIZES.map(|size| Set { size, way, room });
    let fits = |set: &Set| rows.clone().all(|stops| set.holds(stops));
    let mut sets = tried(Way::Level).into_iter().chain(tried(Way::Stepped));
    sets.find(fits).unwrap_or(Set {
        size: UPRIGHT,
        way: Way::Upright,
        room,
    })
}

impl Set {
    fn wide(&self, stop: &Stop) -> f64 {
        width(Face::Bold, self.size, &stop.words)
    }

    /// Middle of a level figure: under its mark, or as near to it as the room's edges let it.
    fn middle(&self, stop: &Stop) -> f64 {
        let half = self.wide(stop) / 2.0;
        stop.at.clamp(half, (self.room - half).max(half))
    }

    /// Whether a row's figures stand clear of each other; on two levels also of the lines to the
    /// figures below.
    fn holds(&self, stops: &[Stop]) -> bool {
        let halves = |a: &Stop, b: &Stop| (self.wide(a) + self.wide(b)) / 2.0;
        let apart = |a: &Stop, b: &Stop| self.middle(b) - self.middle(a) > halves(a, b) + 3.5;
        match self.way {
            Way::Level => stops.windows(2).all(|w| apart(&w[0], &w[1])),
            Way::Stepped => {
                let clear = |a: &Stop, b: &Stop| {
                    let half = self.wide(a) / 2.0 + 1.5;
                    (self.middle(a) - b.at).abs() > half
                };
                stops.windows(3).all(|w| apart(&w[0], &w[2]))
                    && stops.windows(2).enumerate().all(|(i, w)| match i % 2 {
                        0 => clear(&w[0], &w[1]),
                        _ => clear(&w[1], &w[0]),
                    })
            }
            Way::Upright => true,
        }
    }

    /// Height of the figures under the row's line, points.
    fn high(&self, stops: &[Stop]) -> f64 {
        match self.way {
            Way::Level => self.size + 3.0,
            Way::Stepped => 2.0 * self.size + 4.0,
            Way::Upright => stops.iter().map(|s| self.wide(s)).fold(0.0, f64::max) + 4.0,
        }
    }
}

/// A running row (one tape, many marks): title at the left above it, a mark and its figure at each
/// stop. Gives back the row's height.
pub fn running(block: &mut Block, top: f64, title: &str, stops: &[Stop], set: Set) -> f64 {
    let size = set.size;
    let base = top + 12.0;
    let (Some(first), Some(last)) = (stops.first(), stops.last()) else {
        return 0.0;
    };
    block.text(Text::new(first.at - 2.0, top + 7.0, 9.0, title));
    block.line(first.at, base, last.at, base, 0.6);
    for (i, stop) in stops.iter().enumerate() {
        block.shape(
            Path::line(stop.at, base - 3.5, stop.at, base + 3.5),
            Some(Pen::solid(1.0)),
            None,
            stop.tag.clone(),
        );
        let text = Text::new(set.middle(stop), base + 5.0 + size, size, &stop.words).bold();
        let lower = set.way == Way::Stepped && i % 2 == 1;
        if lower {
            block.line(stop.at, base + 3.5, stop.at, base + size + 6.5, 0.3);
        }
        block.text(match set.way {
            Way::Upright => Text {
                x: stop.at + 0.35 * size,
                y: base + 7.0,
                ..text.end().turned(90.0)
            },
            _ if lower => Text {
                y: base + 6.0 + 2.0 * size,
                ..text.middle()
            },
            _ => text.middle(),
        });
    }
    12.0 + 8.0 + set.high(stops)
}

/// A chain row: the spaces between neighbouring stops, each with its words. A narrow space has its
/// shorter words over the row, on as many levels as they need not to run into each other.
#[derive(Clone, Debug)]
pub struct Chain {
    stops: Vec<f64>,
    /// Figures, baselines counted from the row's line.
    texts: Vec<Text>,
    /// Height over the line, points.
    pub above: f64,
}

/// Between the levels of a chain's figures, points.
const LEVEL: f64 = 9.0;

impl Chain {
    /// Sets a chain's figures: (words, shorter words) of each space.
    pub fn of(stops: Vec<f64>, figures: &[(String, String)], room: f64) -> Chain {
        let set = |(pair, (words, narrow)): (&[f64], &(String, String))| {
            let middle = (pair[0] + pair[1]) / 2.0;
            let whole = Text::new(middle, -3.5, SIZE - 1.0, words).middle();
            let fits = whole.width() <= pair[1] - pair[0] - 4.0;
            // Above the slashes, where it may be wider than its space.
            let alone = Text::new(middle, -7.0, 8.0, narrow).middle();
            if fits { whole } else { within(alone, room) }
        };
        let mut texts: Vec<Text> = stops.windows(2).zip(figures).map(set).collect();
        let spans: Vec<(f64, f64)> = texts.iter().map(|t| (t.bounds().0, t.bounds().2)).collect();
        for (text, level) in texts.iter_mut().zip(levels(&spans)) {
            let up = f64::from(u32::try_from(level).unwrap_or(u32::MAX));
            if level > 0 {
                (text.size, text.y) = (8.0, -7.0 - LEVEL * up);
            }
        }
        let top = texts.iter().map(|t| -t.bounds().1).fold(5.0, f64::max);
        Chain {
            stops,
            texts,
            above: top,
        }
    }

    /// Draws the row with its line at a height.
    pub fn draw(self, block: &mut Block, y: f64) {
        let (Some(first), Some(last)) = (self.stops.first(), self.stops.last()) else {
            return;
        };
        block.line(*first, y, *last, y, 0.6);
        for x in &self.stops {
            slash(block, *x, y);
        }
        for text in self.texts {
            let down = text.y;
            block.text(Text {
                y: y + down,
                ..text
            });
        }
    }
}

fn slash(block: &mut Block, x: f64, y: f64) {
    block.line(x - 3.0, y + 3.0, x + 3.0, y - 3.0, 1.0);
    block.line(x, y - 5.0, x, y + 5.0, 0.5);
}
