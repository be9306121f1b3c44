//! The blade at its marks, drawn: the raw end, the near trim's cut on the near side of its mark, the
//! next cut on the far side of its own.

use crate::measure::Length;
use crate::report::draw::{Ink, Path, Pen, Text};
use crate::report::paper::Block;
use crate::report::paper::desk::Desk;

/// Width of the picture, points.
pub const WIDE: f64 = 218.0;
/// Top of the pipe, its height, width of the blade, points.
const TOP: f64 = 13.0;
const TALL: f64 = 16.0;
const BLADE: f64 = 5.0;
/// Where the trim's mark and the first running mark stand, points.
const TRIM: f64 = 34.0;
const CUT: f64 = 150.0;

/// Whether some joint of the plan has its near end trimmed.
pub fn trimmed(desk: &Desk) -> bool {
    desk.plan.joints.iter().any(|j| j.near > Length::ZERO)
}

/// The picture; without a trim only the running mark.
pub fn picture(desk: &Desk) -> Block {
    let mut block = Block::new(TOP + TALL + 22.0);
    let (top, foot) = (TOP, TOP + TALL);
    for y in [top, foot] {
        block.line(2.0, y, WIDE - 10.0, y, 1.0);
    }
    raw_end(&mut block);
    if trimmed(desk) {
        blade(&mut block, TRIM - BLADE, TRIM, "near side");
        mark(&mut block, TRIM, "trim mark", true);
    }
    blade(&mut block, CUT, CUT + BLADE, "far side");
    mark(&mut block, CUT, "running mark", false);
    let piece = if trimmed(desk) { TRIM } else { 2.0 };
    let piece = Text::new((piece + CUT) / 2.0, foot - 4.5, 9.0, "first piece").middle();
    block.text(piece);
    block
}

/// The raw end, broken, with the tape's hook on it.
fn raw_end(block: &mut Block) {
    let points = [
        (2.0, TOP),
        (5.0, TOP + TALL * 0.3),
        (1.0, TOP + TALL * 0.65),
        (4.0, TOP + TALL),
    ];
    block.stroke(Path::polyline(&points), Pen::solid(1.0));
    block.text(Text::new(0.0, TOP - 5.0, 8.0, "raw end"));
}

/// The blade in black between two places, with the side it stands on below.
fn blade(block: &mut Block, from: f64, to: f64, side: &str) {
    let (top, tall) = (TOP - 3.0, TALL + 6.0);
    block.fill(Path::rect(from, top, to - from, tall), Ink::Black);
    let words = format!("blade {side}");
    block.text(Text::new((from + to) / 2.0, TOP + TALL + 14.0, 8.0, words).middle());
}

/// A mark over the pipe, its name beside it.
fn mark(block: &mut Block, at: f64, name: &str, right: bool) {
    block.stroke(
        Path::line(at, TOP - 11.0, at, TOP + TALL + 4.0),
        Pen::dashed(0.8, 2.0),
    );
    let text = Text::new(at + 4.0, TOP - 5.0, 8.0, name);
    block.text(match right {
        true => text,
        false => Text {
            x: at - 4.0,
            ..text
        }
        .end(),
    });
}
