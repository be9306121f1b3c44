//! Upright dimensions: the latch post from tip to tip, and how high the sway brace stands.

use super::view::View;
use crate::gate::{Frame, Role};
use crate::report::draw::Text;
use crate::report::paper::Block;

/// From the post's outside face to the inner string and to the outer one, points.
const INNER: f64 = 26.0;
const OUTER: f64 = 50.0;
/// Size of the figures, points.
const SIZE: f64 = 9.0;

/// Beside the latch post: bottom tip, outside faces of both horizontals, top tip, and the post whole.
pub fn latch_post(block: &mut Block, view: &View, frame: &Frame, print: impl Fn(f64) -> String) {
    let radius = (frame.height - frame.axis_height) / 2.0;
    let low = -radius;
    let high = frame.axis_height + radius;
    let tips = [low - frame.drop, low, high, high + frame.rise];
    let left = view.x(0.0);
    let inner = left - INNER;
    let ys = tips.map(|y| view.y(y));
    let spaces = [frame.drop, frame.height, frame.rise];
    block.line(inner, ys[0], inner, ys[3], 0.6);
    for y in ys {
        tick(block, inner, y);
        block.line(inner + 4.0, y, left - 3.0, y, 0.3);
    }
    let middle = (ys[1] + ys[2]) / 2.0;
    let height = Text::new(inner - 3.0, middle, SIZE, print(spaces[1])).turned(90.0);
    block.text(height.middle());
    // A stop or a cap is a few points high on paper: its figure stands past the string's end.
    for (space, y, under) in [(spaces[0], ys[0], SIZE), (spaces[2], ys[3], -2.5)] {
        if space > 0.0 {
            block.text(Text::new(inner, y + under, SIZE, print(space)).middle());
        }
    }
    // One space alone is the whole.
    if frame.drop + frame.rise > 0.0 {
        let outer = left - OUTER;
        block.line(outer, ys[0], outer, ys[3], 0.6);
        for y in [ys[0], ys[3]] {
            tick(block, outer, y);
        }
        let whole = spaces.iter().sum();
        let text = Text::new(outer - 3.0, (ys[0] + ys[3]) / 2.0, SIZE, print(whole));
        block.text(text.turned(90.0).middle());
    }
}

/// At the tail: the brace's axis over the bottom horizontal's outside face.
pub fn brace(block: &mut Block, view: &View, frame: &Frame, print: impl Fn(f64) -> String) {
    let Some(member) = frame.members.iter().find(|m| m.role == Role::SwayBrace) else {
        return;
    };
    let radius = (frame.height - frame.axis_height) / 2.0;
    let x = view.x(frame.leaf) + 28.0;
    let (low, axis) = (view.y(-radius), view.y(member.start.y));
    block.line(x, low, x, axis, 0.6);
    for y in [low, axis] {
        tick(block, x, y);
        block.line(view.x(frame.leaf) + 3.0, y, x - 4.0, y, 0.3);
    }
    let words = format!("brace {}", print(member.start.y + radius));
    let text = Text::new(x + 11.0, (low + axis) / 2.0, SIZE, words);
    block.text(text.turned(90.0).middle());
}

/// The stroke through an upright dimension line.
fn tick(block: &mut Block, x: f64, y: f64) {
    block.line(x - 3.0, y + 3.0, x + 3.0, y - 3.0, 1.0);
    block.line(x - 5.0, y, x + 5.0, y, 0.5);
}
