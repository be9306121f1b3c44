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

/// A running row (one tape, many marks): title at the left above it, a mark and its figure at each
/// stop. Figures stand upright when they do not fit side by side. Gives back the row's height.
pub fn running(block: &mut Block, top: f64, title: &str, stops: &[Stop]) -> f64 {
    let widest = stops
        .iter()
        .map(|s| width(Face::Bold, SIZE, &s.words))
        .fold(0.0, f64::max);
    let nearest = stops
        .windows(2)
        .map(|w| w[1].at - w[0].at)
        .fold(f64::INFINITY, f64::min);
    let level = nearest > widest + 3.5;
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
        let text = Text::new(stop.at, base + 5.0 + SIZE, SIZE, &stop.words).bold();
        block.text(match level {
            true => text.middle(),
            false => Text {
                x: stop.at + 4.0,
                y: base + 7.0,
                ..text.end().turned(90.0)
            },
        });
    }
    12.0 + 8.0 + if level { SIZE + 3.0 } else { widest + 4.0 }
}

/// A chain row: the spaces between neighbouring stops, each with its name and figure; a narrow space
/// keeps its figure alone. Height 20.
pub fn chain(block: &mut Block, y: f64, stops: &[f64], figures: &[(String, String)]) {
    let (Some(first), Some(last)) = (stops.first(), stops.last()) else {
        return;
    };
    block.line(*first, y, *last, y, 0.6);
    for x in stops {
        slash(block, *x, y);
    }
    for (pair, (name, figure)) in stops.windows(2).zip(figures) {
        let room = pair[1] - pair[0] - 4.0;
        let middle = (pair[0] + pair[1]) / 2.0;
        let whole = Text::new(middle, y - 3.5, SIZE - 1.0, format!("{name} {figure}")).middle();
        if whole.width() <= room {
            block.text(whole);
        } else {
            // Above the slashes, where it may be wider than its space.
            let alone = Text::new(middle, y - 7.0, 8.0, figure).middle();
            block.text(alone);
        }
    }
}

fn slash(block: &mut Block, x: f64, y: f64) {
    block.line(x - 3.0, y + 3.0, x + 3.0, y - 3.0, 1.0);
    block.line(x, y - 5.0, x, y + 5.0, 0.5);
}
