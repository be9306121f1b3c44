//! `Labels`: words placed on a drawing one after another so that none runs into another; and rows of
//! labels that step up or down a level where they would.

use crate::report::draw::Text;
use crate::report::paper::Block;

/// Air between neighbouring labels, points.
const AIR: f64 = 3.0;

/// (left, top, right, bottom), points.
pub type Bounds = (f64, f64, f64, f64);

/// Where words stand already.
#[derive(Clone, Debug, Default)]
pub struct Labels {
    taken: Vec<Bounds>,
}

impl Labels {
    /// Whether a text would run into none of the others.
    fn free(&self, text: &Text) -> bool {
        let b = text.bounds();
        let apart = |t: &Bounds| b.0 >= t.2 || b.2 <= t.0 || b.1 >= t.3 || b.3 <= t.1;
        self.taken.iter().all(apart)
    }

    /// Remembers that something stands here.
    fn take(&mut self, text: &Text) {
        let (left, top, right, bottom) = text.bounds();
        self.keep_clear((left - 1.0, top - 0.5, right + 1.0, bottom + 0.5));
    }

    /// Remembers a sign that no words may cover: (left, top, right, bottom).
    pub fn keep_clear(&mut self, sign: Bounds) {
        self.taken.push(sign);
    }

    /// Draws the first of some candidates that is free; `false` where none is.
    pub fn place(
        &mut self,
        candidates: impl IntoIterator<Item = Text>,
        draw: impl FnOnce(Text),
    ) -> bool {
        let Some(text) = candidates.into_iter().find(|t| self.free(t)) else {
            return false;
        };
        self.take(&text);
        draw(text);
        true
    }
}

/// The level of each label of a row, in order from the left: the lowest on which it stands clear of the
/// ones before it. `spans` are their left and right ends.
pub fn levels(spans: &[(f64, f64)]) -> Vec<usize> {
    let mut ends: Vec<f64> = Vec::new();
    let mut out = Vec::with_capacity(spans.len());
    for &(left, right) in spans {
        let free = ends.iter().position(|end| left >= end + AIR);
        let level = free.unwrap_or(ends.len());
        match ends.get_mut(level) {
            Some(end) => *end = right,
            None => ends.push(right),
        }
        out.push(level);
    }
    out
}

/// A row of labels held at their middles, each moved as little as the room's edges ask, on levels `step`
/// points apart counted downward from a baseline. Gives back the levels used.
pub fn row(block: &mut Block, texts: Vec<Text>, room: f64, step: f64) -> usize {
    let mut texts: Vec<Text> = texts.into_iter().map(|t| within(t, room)).collect();
    texts.sort_by(|a, b| a.x.total_cmp(&b.x));
    let spans: Vec<(f64, f64)> = texts.iter().map(|t| (t.bounds().0, t.bounds().2)).collect();
    let levels = levels(&spans);
    for (mut text, level) in texts.into_iter().zip(&levels) {
        text.y += step * f64::from(u32::try_from(*level).unwrap_or(u32::MAX));
        block.text(text);
    }
    levels.iter().max().map_or(0, |l| l + 1)
}

/// A label held at its middle, moved inside the room's edges.
pub fn within(text: Text, room: f64) -> Text {
    let half = text.width() / 2.0;
    Text {
        x: text.x.clamp(half, (room - half).max(half)),
        ..text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_label_steps_to_the_first_level_that_is_free() {
        let spans = [(0.0, 10.0), (5.0, 15.0), (8.0, 20.0), (14.0, 30.0)];
        assert_eq!(levels(&spans), [0, 1, 2, 0]);
        assert!(levels(&[]).is_empty());
    }

    #[test]
    fn a_place_that_is_taken_is_passed_over() {
        let mut labels = Labels::default();
        let at = |x: f64| Text::new(x, 20.0, 10.0, "HT");
        let mut drawn = Vec::new();
        assert!(labels.place([at(0.0)], |t| drawn.push(t.x)));
        assert!(labels.place([at(5.0), at(40.0)], |t| drawn.push(t.x)));
        assert!(!labels.place([at(5.0), at(42.0)], |t| drawn.push(t.x)));
        assert_eq!(drawn, [0.0, 40.0]);
    }
}
