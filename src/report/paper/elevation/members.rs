//! The members of a gate, drawn: what runs through first, what is coped onto it over that.

use std::cmp::Reverse;

use super::labels::Labels;
use super::outline::outline;
use super::view::{View, placed};
use crate::gate::{Frame, Member, Role};
use crate::order::{Lean, Week};
use crate::part::{Part, TakeOff};
use crate::report::draw::{Ink, Path, Pen, Text};
use crate::report::paper::Block;

/// Size of part marks on the drawing, points.
const MARK: f64 = 10.0;
/// Places tried for a mark that is said elsewhere already.
const USUAL: usize = 3;

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

/// Writes every mark at least once, and at each of its members where it stands clear of the others.
pub fn marks(
    block: &mut Block,
    labels: &mut Labels,
    view: &View,
    take_off: &TakeOff,
    frame: &Frame,
) {
    let mut said: Vec<String> = Vec::new();
    let mut again: Vec<(&Member, String)> = Vec::new();
    for member in back_to_front(frame) {
        let words = mark(take_off, frame, member);
        if !said.contains(&words)
            && labels.place(label(view, frame, member, &words), |t| block.text(t))
        {
            said.push(words);
        } else {
            again.push((member, words));
        }
    }
    for (member, words) in again {
        let usual = label(view, frame, member, &words).into_iter().take(USUAL);
        labels.place(usual, |t| block.text(t));
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

/// Where a member's mark may stand, the usual places first.
fn label(view: &View, frame: &Frame, member: &Member, words: &str) -> Vec<Text> {
    let (x0, y0) = view.at(member.start);
    let (x1, y1) = view.at(member.end);
    let along = |share: f64| (x0 + (x1 - x0) * share, y0 + (y1 - y0) * share);
    let bays = frame.bays.iter();
    let middles = bays.map(|b| view.x((b.from + b.to) / 2.0));
    // The empty corner beside a vertical: over the diagonal's foot, or under its head.
    let (beside, down) = match frame.lean {
        Lean::HeadToTail => (0.72, MARK + 1.0),
        Lean::HeadToLatch => (0.28, -3.0),
    };
    let at = |x: f64, y: f64| Text::new(x, y, MARK, words).bold();
    let texts: Vec<Text> = match member.role {
        Role::TopHorizontal => middles.map(|x| at(x, y0 - 6.0).middle()).collect(),
        Role::BottomHorizontal => middles.map(|x| at(x, y0 + 6.0 + MARK).middle()).collect(),
        Role::EndPost => [0.5, 0.3, 0.7, 0.15, 0.85]
            .map(along)
            .map(|(x, y)| match member.place > 0 {
                true => at(x + 7.0, y),
                false => at(x - 7.0, y).end(),
            })
            .to_vec(),
        Role::Vertical => [beside, 1.0 - beside, 0.5]
            .map(along)
            .map(|(x, y)| at(x + 4.5, y + MARK / 2.0))
            .to_vec(),
        Role::FirstDiagonal | Role::Diagonal | Role::LastDiagonal => [0.5, 0.4, 0.6, 0.3, 0.7]
            .map(along)
            .map(|(x, y)| at(x + 6.0, y + down))
            .to_vec(),
        _ => [(4.0, -4.0), (4.0, 10.0), (-14.0, -4.0), (-14.0, 10.0)]
            .map(|(right, under)| at((x0 + x1) / 2.0 + right, (y0 + y1) / 2.0 + under))
            .to_vec(),
    };
    let smaller = |size: f64| texts.clone().into_iter().map(move |t| Text { size, ..t });
    texts
        .iter()
        .cloned()
        .chain(smaller(8.0))
        .chain(smaller(6.5))
        .collect()
}
