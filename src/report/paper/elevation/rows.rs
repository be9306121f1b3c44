//! Rows of dimensions above and below an elevation.

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

/// How the figures of a drawing's running rows are set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Set {
    size: f64,
    level: bool,
    room: f64,
}

/// The way to set rows so that all of them fit in a room's width: side by side if any size allows,
/// else upright.
pub fn set<'a>(room: f64, rows: impl Iterator<Item = &'a [Stop]> + Clone) -> Set {
    let level = |size: &f64| {
        let set = Set {
            size: *size,
            level: true,
            room,
        };
        rows.clone()
            .all(|stops| set.side_by_side(stops))
            .then_some(set)
    };
    SIZES.iter().find_map(level).unwrap_or(Set {
        size: SIZE,
        level: false,
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

    fn side_by_side(&self, stops: &[Stop]) -> bool {
        let apart = |w: &[Stop]| {
            let halves = (self.wide(&w[0]) + self.wide(&w[1])) / 2.0;
            self.middle(&w[1]) - self.middle(&w[0]) > halves + 3.5
        };
        stops.windows(2).all(apart)
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
    for stop in stops {
        block.shape(
            Path::line(stop.at, base - 3.5, stop.at, base + 3.5),
            Some(Pen::solid(1.0)),
            None,
            stop.tag.clone(),
        );
        let text = Text::new(set.middle(stop), base + 5.0 + size, size, &stop.words).bold();
        block.text(match set.level {
            true => text.middle(),
            false => Text {
                x: stop.at + 4.0,
                y: base + 7.0,
                ..text.end().turned(90.0)
            },
        });
    }
    let widest = stops.iter().map(|s| set.wide(s)).fold(0.0, f64::max);
    12.0 + 8.0 + if set.level { size + 3.0 } else { widest + 4.0 }
}

/// A chain row: the spaces between neighbouring stops, each with its words; a narrow space has its
/// shorter words over it. Height 20.
pub fn chain(block: &mut Block, y: f64, stops: &[f64], figures: &[(String, String)]) {
    let (Some(first), Some(last)) = (stops.first(), stops.last()) else {
        return;
    };
    block.line(*first, y, *last, y, 0.6);
    for x in stops {
        slash(block, *x, y);
    }
    for (pair, (words, narrow)) in stops.windows(2).zip(figures) {
        let room = pair[1] - pair[0] - 4.0;
        let middle = (pair[0] + pair[1]) / 2.0;
        let whole = Text::new(middle, y - 3.5, SIZE - 1.0, words).middle();
        if whole.width() <= room {
            block.text(whole);
        } else {
            // Above the slashes, where it may be wider than its space.
            let alone = Text::new(middle, y - 7.0, 8.0, narrow).middle();
            block.text(alone);
        }
    }
}

fn slash(block: &mut Block, x: f64, y: f64) {
    block.line(x - 3.0, y + 3.0, x + 3.0, y - 3.0, 1.0);
    block.line(x, y - 5.0, x, y + 5.0, 0.5);
}
