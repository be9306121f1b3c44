//! Where the members of a frame stand: what the gate sheet draws.

use std::collections::BTreeMap;

use super::docket::Docket;
use super::outline::Outline;
use super::rule::Rule;
use crate::gate::{Frame, Member, Point, Role};
use crate::measure::INCH;
use crate::order::{GateOrder, Lean, Week};

/// 1e-5 in.
const WITHIN: f64 = 1e-5 * INCH;

/// Judges the members' places and the bays' angles.
pub(super) fn judge(
    week: &Week,
    order: &GateOrder,
    frame: &Frame,
    own: &Outline,
    docket: &mut Docket,
) {
    let mark = &order.mark;
    let offset = week.shop.gate.landing_offset.geometric();
    docket.same(frame.bays.len(), own.bays(), Rule::BayCount, mark);
    for (number, bay) in (1..).zip(&frame.bays) {
        let (from, to) = own.bay(number).unwrap_or((f64::NAN, f64::NAN));
        docket.near(bay.from, from, WITHIN, Rule::BayLine, mark);
        docket.near(bay.to, to, WITHIN, Rule::BayLine, mark);
        docket.near(
            bay.alpha,
            own.alpha(number, offset),
            1e-9,
            Rule::BayAngle,
            mark,
        );
    }
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for member in &frame.members {
        let (name, wanted) = match member.role {
            Role::FirstDiagonal | Role::Diagonal | Role::LastDiagonal => {
                ("diagonals", diagonal(own, member.place, offset))
            }
            Role::Vertical => ("verticals", upright(own, member)),
            Role::EndPost => ("posts", upright(own, member)),
            Role::TopHorizontal | Role::BottomHorizontal => ("horizontals", level(own, member)),
            Role::Stop | Role::Riser | Role::SwayBrace | Role::Standoff => continue,
        };
        *counts.entry(name).or_default() += 1;
        for (at, want) in [member.start, member.end].iter().zip(wanted) {
            let subject = format!("{mark} {:?} {}", member.role, member.place);
            docket.near(at.x, want.x, WITHIN, Rule::FrameMember, &subject);
            docket.near(at.y, want.y, WITHIN, Rule::FrameMember, &subject);
        }
    }
    let verticals = own.bays().saturating_sub(1);
    for (name, want) in [
        ("diagonals", own.bays()),
        ("verticals", verticals),
        ("posts", 2),
        ("horizontals", 2),
    ] {
        let n = counts.get(name).copied().unwrap_or(0);
        docket.demand(n == want, Rule::FrameMember, mark, || {
            format!("{n} {name} drawn, {want} wanted")
        });
    }
}

/// Foot on the bottom horizontal, head on the top one, as the lean says.
fn diagonal(own: &Outline, bay: usize, offset: f64) -> [Point; 2] {
    let (from, to) = own.bay(bay).unwrap_or((f64::NAN, f64::NAN));
    let (latch, tail) = (from + offset, to - offset);
    let (foot, head) = match own.lean {
        Lean::HeadToTail => (latch, tail),
        Lean::HeadToLatch => (tail, latch),
    };
    let y = own.axis_height;
    [Point { x: foot, y: 0.0 }, Point { x: head, y }]
}

/// On its bay line; its height is judged by its length.
fn upright(own: &Outline, member: &Member) -> [Point; 2] {
    let x = own.bay_lines.get(member.place).copied().unwrap_or(f64::NAN);
    [member.start.y, member.end.y].map(|y| Point { x, y })
}

/// On its own level; its ends are judged by its length.
fn level(own: &Outline, member: &Member) -> [Point; 2] {
    let y = if member.role == Role::TopHorizontal {
        own.axis_height
    } else {
        0.0
    };
    [member.start.x, member.end.x].map(|x| Point { x, y })
}
