//! What is drawn on a gate besides its pipes: bay lines, rollers, splice windows and splices, the
//! corners of the check measure, the centre of gravity.

use super::labels::{self, Labels};
use super::members::short;
use super::view::{View, placed};
use crate::gate::{Frame, Point, Role};
use crate::measure::INCH;
use crate::order::{Carrier, Week};
use crate::part::TakeOff;
use crate::plan::SplicedLine;
use crate::report::draw::{Face, Ink, Path, Pen, Tag, Text};
use crate::report::paper::Block;
use crate::report::paper::wrap::wrap;
use crate::report::splice_name::splice_name;
use crate::report::window_bar::{BAR, legend, window_bar};
use crate::splice::SpliceSet;

/// Radius the rollers are drawn with, ticks (a picture: rollers are bought, not made here).
const ROLLER: f64 = 2.5 * INCH;

/// Outer radius of the horizontals, ticks.
fn horizontal_radius(week: &Week, frame: &Frame) -> f64 {
    let pipe = |m: &crate::gate::Member| {
        (m.role == Role::BottomHorizontal).then(|| week.pipe(m.pipe).radius())
    };
    frame.members.iter().find_map(pipe).unwrap_or(0.0)
}

/// Bay lines, chain-dotted from over the top to under the bottom.
pub fn bay_lines(block: &mut Block, view: &View, frame: &Frame, top: f64, foot: f64) {
    for (i, x) in frame.bay_lines.iter().enumerate() {
        let at = view.x(*x);
        block.shape(
            Path::line(at, top, at, foot),
            Some(Pen::chain(0.4)),
            None,
            Some(placed("bay-line", *x, &i.to_string())),
        );
    }
}

/// Both rollers closed and open, dashed, at the horizontals that carry them.
pub fn rollers(block: &mut Block, view: &View, week: &Week, frame: &Frame) {
    let radius = horizontal_radius(week, frame);
    let under = -radius - ROLLER;
    let levels: &[f64] = &match week.gates[frame.gate].carrier(&week.shop) {
        Carrier::Bottom => vec![under],
        Carrier::Top => vec![frame.axis_height + under],
        Carrier::Both => vec![under, frame.axis_height + under],
    };
    for (x, name) in roller_places(frame) {
        for level in levels {
            block.shape(
                Path::circle(view.x(x), view.y(*level), ROLLER * view.scale),
                Some(Pen::dashed(0.8, 2.0)),
                None,
                Some(placed("roller", x, name)),
            );
        }
    }
}

/// Where the rollers stand under the leaf, open and closed, and what each is called.
fn roller_places(frame: &Frame) -> [(f64, &'static str); 4] {
    let r = &frame.rollers;
    [
        (r.front_open, "front roller, open"),
        (r.front_open + r.spacing, "rear, open"),
        (r.front_closed, "front roller, closed"),
        (r.front_closed + r.spacing, "rear, closed"),
    ]
}

/// Names of the rollers under the gate, on as many rows as they need; gives back what they take.
pub fn roller_names(block: &mut Block, view: &View, frame: &Frame, room: f64, y: f64) -> f64 {
    let places = roller_places(frame).into_iter();
    let texts = places.map(|(x, name)| Text::new(view.x(x), y, 8.0, name).middle());
    let rows = labels::row(block, texts.collect(), room, 9.0);
    9.0 * f64::from(u32::try_from(rows).unwrap_or(u32::MAX))
}

/// What the bars mean, under the rollers' names; gives back what it takes.
pub fn legend_rows(block: &mut Block, view: &View, set: &SpliceSet, room: f64, y: f64) -> f64 {
    let words = legend(set.lines.iter().flat_map(|l| &l.windows));
    let mut down = 0.0;
    for line in wrap(Face::Regular, 8.0, room, &words) {
        let text = Text::new(0.0, y + down, 8.0, line).middle();
        let x = view.x(0.0) - 2.0 + text.width() / 2.0;
        block.text(labels::within(Text { x, ..text }, room));
        down += 10.0;
    }
    down
}

/// Splice windows as bars outside the horizontals.
pub fn windows(
    block: &mut Block,
    labels: &mut Labels,
    view: &View,
    take_off: &TakeOff,
    frame: &Frame,
    set: &SpliceSet,
) {
    for line in &set.lines {
        let Some(top) = level(take_off, line.part) else {
            continue;
        };
        let y = bar(view, frame, top);
        for w in &line.windows {
            let (lo, hi) = (line.x_long + w.lo, line.x_long + w.hi);
            let (a, b) = (view.x(lo.geometric()), view.x(hi.geometric()));
            let tag = Tag {
                class: String::from("window"),
                data: vec![
                    ("from", format!("{:.5}", lo.millimetres())),
                    ("to", format!("{:.5}", hi.millimetres())),
                ],
            };
            labels.keep_clear((a, y - BAR / 2.0, b.max(a + 0.8), y + BAR / 2.0));
            window_bar(block, w, (a, b), y - BAR / 2.0, tag);
        }
    }
}

/// Whether a part is the top horizontal; `None` when it is neither.
fn level(take_off: &TakeOff, part: usize) -> Option<bool> {
    match take_off.parts.get(part)?.role? {
        Role::TopHorizontal => Some(true),
        Role::BottomHorizontal => Some(false),
        _ => None,
    }
}

/// Where the windows' bars of the top or bottom horizontal stand, points.
fn bar(view: &View, frame: &Frame, top: bool) -> f64 {
    if top {
        view.y(frame.axis_height) - 12.0
    } else {
        view.y(0.0) + 12.0
    }
}

/// Splices: a line across the pipe, an arrowhead onto it and its name.
pub fn splices(
    block: &mut Block,
    labels: &mut Labels,
    view: &View,
    take_off: &TakeOff,
    frame: &Frame,
    lines: &[&SplicedLine],
) {
    for line in lines {
        let (Some(top), Some(part)) = (level(take_off, line.part), take_off.parts.get(line.part))
        else {
            continue;
        };
        let axis = if top {
            view.y(frame.axis_height)
        } else {
            view.y(0.0)
        };
        let out = if top { -1.0 } else { 1.0 };
        for (i, splice) in line.splices.iter().enumerate() {
            let Some(at) = splice.x else {
                continue;
            };
            let x = view.x(at);
            let name = splice_name(short(&part.mark), i);
            let tag = placed("splice", at, &name);
            block.shape(
                Path::line(x, axis - 5.0, x, axis + 5.0),
                Some(Pen::solid(2.0)),
                None,
                Some(tag),
            );
            let head = [
                (x, axis + out * 6.0),
                (x - 3.5, axis + out * 13.0),
                (x + 3.5, axis + out * 13.0),
            ];
            block.fill(Path::polygon(&head), Ink::Black);
            let y = if top { axis - 17.0 } else { axis + 24.5 };
            let name = Text::new(x, y, 9.0, name);
            let name = name.bold().middle();
            let steps = [0.0, 1.0, 2.0, 3.0];
            let tried = steps.map(|n| Text {
                y: y + 10.0 * n * out,
                ..name.clone()
            });
            labels.place(tried, |text| block.clear_text(text));
        }
    }
}

/// Centre of gravity: the quartered circle.
pub fn centre_of_gravity(block: &mut Block, labels: &mut Labels, view: &View, at: Point) {
    let ((cx, cy), x, r) = (view.at(at), at.x, 5.0);
    labels.keep_clear((cx - r, cy - r, cx + r, cy + r));
    let tag = placed("centre-of-gravity", x, "centre of gravity");
    block.shape(
        Path::circle(cx, cy, r),
        Some(Pen::solid(0.8)),
        Some(Ink::White),
        Some(tag),
    );
    let k = r * 0.552_284_75;
    use crate::report::draw::Segment::{Close, Curve, Line, Move};
    let quarter = |sx: f64, sy: f64| Path {
        segments: vec![
            Move(cx, cy),
            Line(cx + sx * r, cy),
            Curve(
                cx + sx * r,
                cy + sy * k,
                cx + sx * k,
                cy + sy * r,
                cx,
                cy + sy * r,
            ),
            Close,
        ],
    };
    block.fill(quarter(1.0, -1.0).and(quarter(-1.0, 1.0)), Ink::Black);
}
