//! The sway brace: dashed behind the gate in the elevation, and from above with its standoffs.

use crate::gate::{Frame, Role, Sway};
use crate::order::Week;
use crate::part::TakeOff;
use crate::report::draw::{Path, Pen, Tag, Text};
use crate::report::paper::Block;

use super::members::mark;
use super::view::{View, placed};

/// Depth the brace's rise is drawn with from above, points.
const DEEP: f64 = 26.0;
/// Chords the arc is drawn with.
const CHORDS: u32 = 48;

/// The brace behind the gate: its two edges, dashed, and a dashed ring at each standoff.
pub fn behind(block: &mut Block, view: &View, week: &Week, take_off: &TakeOff, frame: &Frame) {
    for member in &frame.members {
        let radius = week.pipe(member.pipe).radius() * view.scale;
        let (x0, y) = view.at(member.start);
        let (x1, _) = view.at(member.end);
        let name = mark(take_off, frame, member);
        let path = match member.role {
            Role::SwayBrace => Path::line(x0, y - radius, x1, y - radius).and(Path::line(
                x0,
                y + radius,
                x1,
                y + radius,
            )),
            Role::Standoff => Path::circle(x0, y, radius),
            _ => continue,
        };
        let class = match member.role {
            Role::SwayBrace => "sway-brace",
            _ => "standoff",
        };
        let middle = (member.start.x + member.end.x) / 2.0;
        let tag = placed(class, middle, &name);
        block.shape(path, Some(Pen::dashed(0.5, 3.0)), None, Some(tag));
    }
}

/// How far the brace's axis stands off the verticals' axes at x, ticks.
fn ordinate(sway: &Sway, first: f64, x: f64) -> f64 {
    let x = x - first - sway.chord / 2.0;
    let inside = ((sway.radius - x) * (sway.radius + x)).max(0.0);
    inside.sqrt() - (sway.radius - sway.rise)
}

/// The brace from above, its depth drawn larger than its length: verticals, arc, standoffs with their
/// marks and lengths. Height taken; 0 for a gate without a brace.
pub fn from_above(
    block: &mut Block,
    view: &View,
    y: f64,
    take_off: &TakeOff,
    frame: &Frame,
    print: impl Fn(f64) -> String,
) -> f64 {
    let (Some(sway), Some(first), Some(last)) =
        (&frame.sway, frame.bay_lines.first(), frame.bay_lines.last())
    else {
        return 0.0;
    };
    let times = DEEP / (sway.rise * view.scale).max(1e-9);
    let base = y + 30.0 + DEEP;
    let at = |x: f64| {
        (
            view.x(x),
            base - ordinate(sway, *first, x) * view.scale * times,
        )
    };
    let title = format!(
        "sway brace from above, depth drawn {times:.0} times: rise {} in the middle; standoffs on the verticals, on the face away from the supports",
        print(sway.rise)
    );
    block.text(Text::new(view.x(*first) - 2.0, y + 9.0, 9.0, title));
    block.line(view.x(*first), base, view.x(*last), base, 0.5);
    let points = (0..=CHORDS).map(|i| {
        let share = f64::from(i) / f64::from(CHORDS);
        at(first + share * (last - first))
    });
    let arc = Path::polyline(&points.collect::<Vec<_>>());
    block.stroke(arc, Pen::solid(1.6));
    let standoffs = frame.members.iter().filter(|m| m.role == Role::Standoff);
    for member in standoffs {
        let (x, top) = at(member.start.x);
        let length = print(member.axis);
        let tag = Tag {
            class: String::from("standoff-above"),
            data: vec![("length", length.clone())],
        };
        let path = Path::line(x, base, x, top);
        block.shape(path, Some(Pen::solid(2.2)), None, Some(tag));
        let words = format!("{} {length}", mark(take_off, frame, member));
        block.text(Text::new(x, top - 5.0, 8.0, words).middle());
    }
    base + 12.0 - y
}
