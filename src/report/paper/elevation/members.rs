//! The members of a gate, drawn: what runs through first, what is coped onto it over that.

use std::cmp::Reverse;

use super::outline::outline;
use super::view::{View, placed};
use crate::gate::{Frame, Member, Role};
use crate::order::{Lean, Week};
use crate::part::{Part, TakeOff};
use crate::report::draw::{Ink, Path, Pen, Text};
use crate::report::paper::Block;

/// Size of part marks on the drawing, points.
const MARK: f64 = 10.0;

/// Members lying in the gate's plane.
fn flat(member: &Member) -> bool {
    !matches!(member.role, Role::SwayBrace | Role::Standoff)
}

/// Members of the plane, back to front: square ends run through and lie behind; then by role, stout
/// pipes before the ones coped on them.
fn back_to_front(frame: &Frame) -> Vec<&Member> {
    let mut order: Vec<&Member> = frame.members.iter().filter(|m| flat(m)).collect();
    order.sort_by_key(|m| {
        let square = m.ends.iter().all(|e| e.meets.is_empty());
        (Reverse(square), m.role, m.place)
    });
    order
}

/// Draws every member of the gate's plane.
pub fn outlines(block: &mut Block, view: &View, week: &Week, take_off: &TakeOff, frame: &Frame) {
    for member in back_to_front(frame) {
        let points: Vec<(f64, f64)> = outline(week, member).iter().map(|p| view.at(*p)).collect();
        let name = mark(take_off, frame, member);
        let middle = (member.start.x + member.end.x) / 2.0;
        let tag = placed(class(member.role), middle, &name);
        let path = Path::polygon(&points);
        block.shape(path, Some(Pen::solid(0.8)), Some(Ink::White), Some(tag));
    }
}

/// Draws every member of the gate's plane with its mark.
pub fn members(block: &mut Block, view: &View, week: &Week, take_off: &TakeOff, frame: &Frame) {
    outlines(block, view, week, take_off, frame);
    for member in back_to_front(frame) {
        label(block, view, take_off, frame, member);
    }
}

fn class(role: Role) -> &'static str {
    match role {
        Role::TopHorizontal | Role::BottomHorizontal => "horizontal",
        Role::EndPost => "end-post",
        Role::Vertical => "vertical",
        Role::FirstDiagonal | Role::Diagonal | Role::LastDiagonal => "diagonal",
        Role::Stop => "stop",
        Role::Riser => "riser",
        Role::SwayBrace => "sway-brace",
        Role::Standoff => "standoff",
    }
}

/// The parts a member may be, by gate and role.
fn parts<'a>(take_off: &'a TakeOff, frame: &Frame, role: Role) -> Vec<&'a Part> {
    let of = |p: &&Part| p.gate == Some(frame.gate) && p.role == Some(role);
    take_off.parts.iter().filter(of).collect()
}

/// A member's part: where one role has several (two unlike end posts), by place along the leaf.
pub fn part<'a>(take_off: &'a TakeOff, frame: &Frame, member: &Member) -> Option<&'a Part> {
    let parts = parts(take_off, frame, member.role);
    let same: Vec<&Part> = parts
        .iter()
        .copied()
        .filter(|p| p.pipe == member.pipe)
        .collect();
    let fits = |p: &&&Part| (p.axis - member.axis).abs() < 1.0;
    same.iter().find(fits).or(same.first()).copied()
}

/// A member's mark without the gate's: `HT`, `D1`.
pub fn mark(take_off: &TakeOff, frame: &Frame, member: &Member) -> String {
    let full = part(take_off, frame, member).map_or("", |p| p.mark.as_str());
    short(full).to_string()
}

/// What stands after the last dash of a mark.
pub fn short(mark: &str) -> &str {
    mark.rsplit_once('-').map_or(mark, |(_, s)| s)
}

fn label(block: &mut Block, view: &View, take_off: &TakeOff, frame: &Frame, member: &Member) {
    let words = mark(take_off, frame, member);
    let (x0, y0) = view.at(member.start);
    let (x1, y1) = view.at(member.end);
    let (mx, my) = ((x0 + x1) / 2.0, (y0 + y1) / 2.0);
    let first_bay = frame
        .bays
        .first()
        .map_or(mx, |b| view.x((b.from + b.to) / 2.0));
    let last = member.place > 0;
    // The empty corner beside a vertical: over the diagonal's foot, or under its head.
    let beside = match frame.lean {
        Lean::HeadToTail => y0 + (y1 - y0) * 0.72,
        Lean::HeadToLatch => y0 + (y1 - y0) * 0.28,
    };
    let text = match member.role {
        Role::TopHorizontal => Text::new(first_bay, my - 6.0, MARK, words).middle(),
        Role::BottomHorizontal => Text::new(first_bay, my + 6.0 + MARK, MARK, words).middle(),
        Role::EndPost if last => Text::new(mx + 7.0, my, MARK, words),
        Role::EndPost => Text::new(mx - 7.0, my, MARK, words).end(),
        Role::Vertical => Text::new(mx + 4.5, beside + MARK / 2.0, MARK, words),
        Role::FirstDiagonal | Role::Diagonal | Role::LastDiagonal => match frame.lean {
            Lean::HeadToTail => Text::new(mx + 6.0, my + MARK + 1.0, MARK, words),
            Lean::HeadToLatch => Text::new(mx + 6.0, my - 3.0, MARK, words),
        },
        _ => Text::new(mx + 4.0, my - 4.0, MARK, words),
    };
    block.text(text.bold());
}
