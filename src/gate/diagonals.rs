//! One diagonal per bay, all leaning one way; which of them are cut alike.

use std::f64::consts::{FRAC_PI_2, PI};

use super::frame::{Bay, End, Meeting, Member, Point, Role};
use super::lay_out::{branch_of, mains_of, method_of};
use super::limits::millionths;
use super::members::Drawing;
use crate::cope::{Main, same_profile};
use crate::measure::INCH;
use crate::order::{Lean, PipeId};

/// Two copes whose lines differ nowhere by more than this are one: 1e-6 in.
const ALIKE: f64 = 1e-6 * INCH;

/// The diagonals, bay by bay.
pub(super) fn diagonals(drawing: &Drawing) -> Vec<Member> {
    let last = drawing.frame.bays.len();
    let roles = roles(drawing);
    drawing
        .frame
        .bays
        .iter()
        .enumerate()
        .map(|(i, bay)| {
            let number = i + 1;
            let role = if number == 1 {
                roles[0]
            } else if number == last {
                roles[1]
            } else {
                Role::Diagonal
            };
            diagonal(drawing, role, number, bay)
        })
        .collect()
}

fn diagonal(drawing: &Drawing, role: Role, number: usize, bay: &Bay) -> Member {
    let std = &drawing.week.shop.gate;
    let offset = std.landing_offset.geometric();
    let (latch, tail) = (bay.from + offset, bay.to - offset);
    let (foot, head, foot_line, head_line) = match std.lean {
        Lean::HeadToTail => (latch, tail, number - 1, number),
        Lean::HeadToLatch => (tail, latch, number, number - 1),
    };
    let foot_end = corner(drawing, bay, Foot, drawing.upright_at(foot_line));
    let head_end = corner(drawing, bay, Head, drawing.upright_at(head_line));
    Member {
        role,
        place: number,
        pipe: drawing.order.pipes.diagonal,
        start: Point { x: foot, y: 0.0 },
        end: Point {
            x: head,
            y: drawing.frame.axis_height,
        },
        axis: bay.diagonal_axis,
        ends: [foot_end, head_end],
        cut: std.diagonal_cut,
    }
}

/// Which end of a diagonal.
#[derive(Clone, Copy, PartialEq, Eq)]
enum At {
    Foot,
    Head,
}
use At::{Foot, Head};

/// A diagonal's end in its corner: the horizontal on the clock's own side (under at the foot, over
/// at the head) and the upright opposite. The clock's 0 is the underside for both ends.
fn corner(drawing: &Drawing, bay: &Bay, at: At, upright: (Role, PipeId)) -> End {
    let offset = drawing.week.shop.gate.landing_offset.geometric();
    let station = if offset == 0.0 {
        0.0
    } else {
        -offset / bay.alpha.cos()
    };
    let (horizontal, on_horizontal, on_upright) = match at {
        Foot => (Role::BottomHorizontal, 0.0, PI),
        Head => (Role::TopHorizontal, PI, 0.0),
    };
    let meeting = |pipe, role, phi, beta, station| Meeting {
        pipe,
        role,
        phi,
        beta,
        offset: 0.0,
        station,
    };
    End {
        meets: vec![
            meeting(
                drawing.order.pipes.horizontal,
                horizontal,
                bay.alpha,
                on_horizontal,
                0.0,
            ),
            meeting(
                upright.1,
                upright.0,
                FRAC_PI_2 - bay.alpha,
                on_upright,
                station,
            ),
        ],
        capped: false,
    }
}

/// Marks of the first and the last diagonal: of its own only where its cope differs line by line;
/// one mark for both where the first turned end for end is the last.
fn roles(drawing: &Drawing) -> [Role; 2] {
    let bays = &drawing.frame.bays;
    // Equal bays: the first stands for all, so that like corners compare equal to the last bit.
    let Some(first) = bays.first().filter(|_| bays.len() > 1) else {
        return [Role::Diagonal; 2];
    };
    let width = |b: &Bay| millionths(b.to - b.from);
    if bays.iter().any(|b| (width(b) - width(first)).abs() > 1.0) {
        return [Role::FirstDiagonal, Role::LastDiagonal];
    }
    let (at_latch, at_tail) = match drawing.week.shop.gate.lean {
        Lean::HeadToTail => (Foot, Head),
        Lean::HeadToLatch => (Head, Foot),
    };
    let vertical = (Role::Vertical, drawing.order.pipes.vertical);
    let mains = |bay, at, upright| mains_of(drawing.week, &corner(drawing, bay, at, upright));
    let latch = mains(first, at_latch, drawing.upright_at(0));
    let tail = mains(first, at_tail, drawing.upright_at(drawing.last_line()));
    let first_differs = !alike(drawing, &latch, &mains(first, at_latch, vertical));
    let last_differs = !alike(drawing, &tail, &mains(first, at_tail, vertical));
    let turned: Vec<Main> = tail
        .iter()
        .map(|m| Main {
            beta: PI - m.beta,
            ..*m
        })
        .collect();
    let first_role = if first_differs {
        Role::FirstDiagonal
    } else {
        Role::Diagonal
    };
    let last_role = match (first_differs, last_differs) {
        (_, false) => Role::Diagonal,
        (true, true) if alike(drawing, &latch, &turned) => Role::FirstDiagonal,
        (_, true) => Role::LastDiagonal,
    };
    [first_role, last_role]
}

fn alike(drawing: &Drawing, a: &[Main], b: &[Main]) -> bool {
    let method = method_of(drawing.week.shop.gate.diagonal_cut);
    let branch = branch_of(drawing.week, drawing.order.pipes.diagonal);
    a == b || same_profile(&branch, a, b, method, ALIKE)
}
