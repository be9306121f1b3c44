//! A member's outline in elevation: two edges and, at a coped end, the curve where it meets its mains.

use std::f64::consts::PI;

use crate::cope::setback;
use crate::gate::{End, Member, Point, Role, branch_of, mains_of, method_of};
use crate::order::Week;

/// Lines of the curve drawn per coped end.
const STEPS: u32 = 24;

/// Unit vector of clock 0: vertical and post toward +x, horizontal up, diagonal underside.
fn scribe(member: &Member, along: Point) -> Point {
    let right = Point {
        x: along.y,
        y: -along.x,
    };
    let left = Point {
        x: -along.y,
        y: along.x,
    };
    let horizontal = matches!(
        member.role,
        Role::TopHorizontal | Role::BottomHorizontal | Role::SwayBrace
    );
    let wanted = match member.role {
        Role::FirstDiagonal | Role::Diagonal | Role::LastDiagonal => right.y < 0.0,
        _ if horizontal => right.y > 0.0,
        _ => right.x > 0.0,
    };
    if wanted { right } else { left }
}

/// The closed outline seen square to the gate's plane, in ticks, from clock 0 at the start round by
/// the end's curve and back by the start's. Empty for a member without length.
pub fn outline(week: &Week, member: &Member) -> Vec<Point> {
    let (dx, dy) = (member.end.x - member.start.x, member.end.y - member.start.y);
    let length = dx.hypot(dy);
    if length <= 0.0 {
        return Vec::new();
    }
    let along = Point {
        x: dx / length,
        y: dy / length,
    };
    let side = scribe(member, along);
    let pipe = branch_of(week, member.pipe);
    let point = |axial: f64, theta: f64| {
        let across = pipe.radius * theta.cos();
        Point {
            x: member.start.x + along.x * axial + side.x * across,
            y: member.start.y + along.y * axial + side.y * across,
        }
    };
    let how = method_of(member.cut);
    let curve = |end: &End| -> Vec<(f64, f64)> {
        let met = mains_of(week, end);
        let line = |i: u32| {
            let theta = PI * f64::from(i) / f64::from(STEPS);
            // A line that meets nothing is not cut: it runs to the axis end.
            let s = setback(&pipe, &met, how, theta).unwrap_or(0.0);
            (theta, s)
        };
        match end.meets.is_empty() {
            true => vec![(0.0, 0.0), (PI, 0.0)],
            false => (0..=STEPS).map(line).collect(),
        }
    };
    let tail = curve(&member.ends[1]).into_iter();
    let head = curve(&member.ends[0]).into_iter().rev();
    tail.map(|(t, s)| point(length - s, t))
        .chain(head.map(|(t, s)| point(s, t)))
        .collect()
}
