//! Every member of a gate by centre line, in sheet order.

use std::f64::consts::FRAC_PI_2;

use super::diagonals::diagonals;
use super::frame::{End, Frame, Meeting, Member, Point, Role};
use crate::order::{GateOrder, PipeId, Variant, Week};

/// A gate being drawn: what every member needs to know.
pub(super) struct Drawing<'a> {
    pub week: &'a Week,
    pub order: &'a GateOrder,
    pub frame: &'a Frame,
}

/// The members of a frame whose lines are known.
pub(super) fn members(week: &Week, order: &GateOrder, frame: &Frame) -> Vec<Member> {
    let drawing = Drawing { week, order, frame };
    let mut all = vec![
        drawing.horizontal(Role::TopHorizontal, frame.axis_height),
        drawing.horizontal(Role::BottomHorizontal, 0.0),
    ];
    all.extend(drawing.uprights());
    all.extend(diagonals(&drawing));
    all.extend(drawing.stops_and_risers());
    all.extend(drawing.brace());
    all.sort_by_key(|m| (m.role, m.place));
    all
}

/// A square end.
pub(super) fn square(capped: bool) -> End {
    End {
        meets: Vec::new(),
        capped,
    }
}

/// An end square onto one pipe.
fn onto(pipe: PipeId, role: Role) -> End {
    End {
        meets: vec![Meeting {
            pipe,
            role,
            phi: FRAC_PI_2,
            beta: 0.0,
            offset: 0.0,
            station: 0.0,
        }],
        capped: false,
    }
}

impl Drawing<'_> {
    /// Index of the last bay line.
    pub fn last_line(&self) -> usize {
        self.frame.bay_lines.len().saturating_sub(1)
    }

    /// Role and pipe of the upright on a bay line.
    pub fn upright_at(&self, line: usize) -> (Role, PipeId) {
        let pipes = &self.order.pipes;
        if line == 0 {
            (Role::EndPost, pipes.latch_post)
        } else if line == self.last_line() {
            (Role::EndPost, pipes.tail_post)
        } else {
            (Role::Vertical, pipes.vertical)
        }
    }

    fn horizontal(&self, role: Role, y: f64) -> Member {
        let pipes = &self.order.pipes;
        let lines = &self.frame.bay_lines;
        let (from, to, ends) = match self.frame.variant {
            Variant::PostsRunPast => (
                lines.first().copied().unwrap_or(0.0),
                lines.last().copied().unwrap_or(0.0),
                [
                    onto(pipes.latch_post, Role::EndPost),
                    onto(pipes.tail_post, Role::EndPost),
                ],
            ),
            Variant::Through => (0.0, self.frame.leaf, [square(true), square(true)]),
        };
        Member {
            role,
            place: 0,
            pipe: pipes.horizontal,
            start: Point { x: from, y },
            end: Point { x: to, y },
            axis: to - from,
            ends,
            cut: self.week.shop.gate.horizontal_cut,
        }
    }

    /// End posts and verticals.
    fn uprights(&self) -> Vec<Member> {
        let frame = self.frame;
        let out = 0.5 * (frame.height - frame.axis_height);
        let horizontal = self.order.pipes.horizontal;
        let between = |x, role, place, pipe| {
            self.upright(role, place, pipe, x, [0.0, frame.axis_height], {
                [
                    onto(horizontal, Role::BottomHorizontal),
                    onto(horizontal, Role::TopHorizontal),
                ]
            })
        };
        frame
            .bay_lines
            .iter()
            .enumerate()
            .map(|(line, &x)| match self.upright_at(line) {
                (Role::EndPost, pipe) if frame.variant == Variant::PostsRunPast => {
                    let y = [-out - frame.drop, frame.axis_height + out + frame.rise];
                    let ends = [square(true), square(true)];
                    self.upright(Role::EndPost, line, pipe, x, y, ends)
                }
                (role, pipe) => between(x, role, line, pipe),
            })
            .collect()
    }

    /// *Through*: the stop at each post's axis; risers on the verticals of a barbed top if wanted.
    fn stops_and_risers(&self) -> Vec<Member> {
        let frame = self.frame;
        let top = frame.axis_height + 0.5 * (frame.height - frame.axis_height) + frame.rise;
        let risers = self.week.shop.gate.barbed_risers && self.order.barbed > 0;
        let stops = frame.variant == Variant::Through;
        if frame.rise <= 0.0 {
            return Vec::new();
        }
        frame
            .bay_lines
            .iter()
            .enumerate()
            .filter_map(|(line, &x)| {
                let (upright, pipe) = self.upright_at(line);
                let role = match upright {
                    Role::EndPost if stops => Role::Stop,
                    Role::Vertical if risers => Role::Riser,
                    _ => return None,
                };
                let foot = onto(self.order.pipes.horizontal, Role::TopHorizontal);
                let ends = [foot, square(true)];
                Some(self.upright(role, line, pipe, x, [frame.axis_height, top], ends))
            })
            .collect()
    }

    fn upright(
        &self,
        role: Role,
        place: usize,
        pipe: PipeId,
        x: f64,
        y: [f64; 2],
        ends: [End; 2],
    ) -> Member {
        Member {
            role,
            place,
            pipe,
            start: Point { x, y: y[0] },
            end: Point { x, y: y[1] },
            axis: y[1] - y[0],
            ends,
            cut: self.week.shop.gate.vertical_cut,
        }
    }

    /// The sway brace (developed length) and its standoffs, all square; drawn at mid-height, out of
    /// the gate's plane.
    fn brace(&self) -> Vec<Member> {
        let Some(sway) = &self.frame.sway else {
            return Vec::new();
        };
        let lines = &self.frame.bay_lines;
        let y = 0.5 * self.frame.axis_height;
        let member = |role, place, from, to, axis| Member {
            role,
            place,
            pipe: self.order.pipes.sway,
            start: Point { x: from, y },
            end: Point { x: to, y },
            axis,
            ends: [square(false), square(false)],
            cut: self.week.shop.gate.vertical_cut,
        };
        let (first, last) = (
            lines.first().copied().unwrap_or(0.0),
            lines.last().copied().unwrap_or(0.0),
        );
        let standoffs = sway.standoffs.iter().filter_map(|&(line, length)| {
            let x = *lines.get(line)?;
            Some(member(Role::Standoff, line, x, x, length))
        });
        [member(Role::SwayBrace, 0, first, last, sway.length)]
            .into_iter()
            .chain(standoffs)
            .collect()
    }
}
