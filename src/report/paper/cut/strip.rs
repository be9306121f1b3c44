//! The strip: one joint drawn to scale with its cut marks, its number at the head.

use crate::measure::Length;
use crate::part::{CopeEnd, Part};
use crate::plan::PlannedJoint;
use crate::report::draw::{Face, Ink, Path, Pen, Text, width};
use crate::report::paper::Block;
use crate::report::paper::elevation::short;

/// Height of the strip, points.
const TALL: f64 = 36.0;
/// Air over the strip for the cut marks, points.
const OVER: f64 = 6.0;
/// Smallest line number in a piece, points.
const LEAST: f64 = 7.0;
/// Width of the head that holds the joint's number, points.
const HEAD: f64 = 46.0;

/// How an end is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum EndShape {
    /// Straight across.
    Square,
    /// One pipe met square: a fish mouth.
    Saddle,
    /// One pipe met at an angle: a slanted mouth.
    Slant,
    /// Two pipes or more: a point.
    Corner,
}

fn end_shape(end: &CopeEnd) -> EndShape {
    match end {
        CopeEnd::Square { .. } => EndShape::Square,
        CopeEnd::Coped(cope) if cope.meets.len() > 1 => EndShape::Corner,
        CopeEnd::Coped(cope) => match cope.meets.first() {
            Some(m) if (m.phi - std::f64::consts::FRAC_PI_2).abs() > 1e-6 => EndShape::Slant,
            _ => EndShape::Saddle,
        },
    }
}

/// The ends of one piece of a part from the tape end: a piece of a spliced line is square where it
/// is spliced.
fn shapes(part: &Part, piece: Option<u32>, last: bool) -> [EndShape; 2] {
    let mut ends = [end_shape(&part.ends[0]), end_shape(&part.ends[1])];
    if let Some(n) = piece {
        if n > 1 {
            ends[0] = EndShape::Square;
        }
        if !last {
            ends[1] = EndShape::Square;
        }
    }
    ends
}

/// The strip of a joint, `room` wide, where the week's longest joint would fill it. `last` says of a
/// spliced piece whether it is its line's last.
pub fn strip(
    joint: &PlannedJoint,
    head: &str,
    parts: &[Part],
    longest: Length,
    room: f64,
    last: impl Fn(usize) -> bool,
) -> Block {
    let mut block = Block::new(OVER + TALL + 4.0);
    let scale = (room - HEAD) / longest.geometric().max(1.0);
    let top = OVER;
    let x = |l: Length| HEAD + l.geometric() * scale;
    block.frame(0.0, top, HEAD, TALL, 2.0);
    let number = Text::new(HEAD / 2.0, top + TALL / 2.0 + 9.0, 26.0, head)
        .bold()
        .middle();
    block.text(number.fitted(HEAD - 6.0, 8.0));
    block.frame(HEAD, top, joint.length.geometric() * scale, TALL, 1.4);
    for (i, piece) in joint.pieces.iter().enumerate() {
        let (a, b) = (x(piece.start), x(piece.end));
        let Some(part) = parts.get(piece.part) else {
            continue;
        };
        ends(&mut block, (a, b), top, shapes(part, piece.piece, last(i)));
        for at in [a, b] {
            block.line(at, top - 3.0, at, top + TALL + 3.0, 1.0);
        }
        names(&mut block, (a, b), top, i + 1, &piece.mark);
    }
    floor(
        &mut block,
        joint,
        x(joint.length),
        joint.floor.geometric() * scale,
        top,
    );
    block
}

/// Line number and mark inside the piece; a short piece carries its number alone.
fn names(block: &mut Block, (a, b): (f64, f64), top: f64, line: usize, mark: &str) {
    let (middle, room) = ((a + b) / 2.0, b - a - 14.0);
    let number = Text::new(middle, top + 17.0, 16.0, line.to_string());
    let number = number.bold().middle().fitted(b - a - 3.0, LEAST);
    // A number that would run into its neighbours is left to the lines below the strip.
    if number.width() <= b - a - 1.0 {
        block.text(number);
    }
    let fit = [mark, short(mark)]
        .into_iter()
        .find(|m| width(Face::Regular, 11.0, m) <= room);
    if let Some(words) = fit {
        block.text(Text::new(middle, top + 31.0, 11.0, words).middle());
    }
}

/// The floor drop, hatched when it is scrap.
fn floor(block: &mut Block, joint: &PlannedJoint, end: f64, wide: f64, top: f64) {
    let start = end - wide;
    if wide < 0.5 {
        return;
    }
    if joint.kept {
        let words = joint.keep_tag.clone().unwrap_or_default();
        let text = Text::new(end - wide / 2.0, top + 23.0, 14.0, format!("KEEP {words}"))
            .bold()
            .middle();
        if text.width() < wide - 6.0 {
            block.text(text);
        }
        return;
    }
    let mut hatch = Path::default();
    let mut at = start + 4.0;
    while at < end + TALL {
        let (x0, y0) = (at.min(end), top + (at - end).max(0.0));
        let (x1, y1) = ((at - TALL).max(start), top + TALL.min(at - start));
        if y1 > y0 {
            hatch = hatch.and(Path::line(x0, y0, x1, y1));
        }
        at += 6.0;
    }
    block.stroke(hatch, Pen::solid(0.4));
}

fn ends(block: &mut Block, (a, b): (f64, f64), top: f64, shapes: [EndShape; 2]) {
    let deep = 7.0_f64.min((b - a) / 3.0);
    for (at, into, shape) in [(a, deep, shapes[0]), (b, -deep, shapes[1])] {
        let path = match shape {
            EndShape::Square => continue,
            EndShape::Saddle => mouth(at, into, top, 0.0, TALL),
            EndShape::Slant => mouth(at, into, top, 0.0, TALL).and(Path::line(
                at,
                top + TALL,
                at + into * 1.6,
                top,
            )),
            EndShape::Corner => Path::polyline(&[
                (at + into * 1.5, top),
                (at, top + TALL / 2.0),
                (at + into * 1.5, top + TALL),
            ]),
        };
        block.shape(path, Some(Pen::solid(0.9)), None::<Ink>, None);
    }
}

/// A fish mouth from the two tips at the cut line, `into` deep in the middle.
fn mouth(at: f64, into: f64, top: f64, from: f64, to: f64) -> Path {
    use crate::report::draw::Segment::{Curve, Move};
    let deep = at + into * 4.0 / 3.0;
    Path {
        segments: vec![
            Move(at, top + from),
            Curve(
                deep,
                top + from + (to - from) * 0.25,
                deep,
                top + from + (to - from) * 0.75,
                at,
                top + to,
            ),
        ],
    }
}
