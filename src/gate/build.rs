//! One gate order judged and drawn.

use super::frame::{Frame, Member, Role};
use super::lay_out::{branch_of, lay_out, mains_of, method_of};
use super::layout::{Span, bay_lines};
use super::strictly_under;
use super::trouble::Trouble;
use super::words::impossible;
use crate::cope::end_cut;
use crate::order::{GateOrder, Impossible, PipeId, Variant, Week};

/// The frame of `week.gates[gate]`.
///
/// # Errors
/// Every reason why the gate cannot be made as ordered, each with the smallest change that frees it;
/// an empty list when there is no such gate.
pub fn build(week: &Week, gate: usize) -> Result<Frame, Vec<Impossible>> {
    let order = week.gates.get(gate).ok_or_else(Vec::new)?;
    attempt(week, gate, order).map_err(|troubles| {
        troubles
            .iter()
            .map(|t| impossible(week, gate, order, t))
            .collect()
    })
}

/// As [`build`], for an order that may be a changed copy, with its troubles as data.
pub(super) fn attempt(week: &Week, gate: usize, order: &GateOrder) -> Result<Frame, Vec<Trouble>> {
    pipes_fit(week, order)?;
    room_inside(week, order)?;
    let frame = lay_out(week, gate, order, bay_lines(week, order)?);
    let troubles: Vec<Trouble> = exclusion_troubles(order, &frame)
        .chain(brace_troubles(&frame))
        .chain(throat_troubles(week, &frame))
        .collect();
    if troubles.is_empty() {
        Ok(frame)
    } else {
        Err(troubles)
    }
}

/// Every branch no larger than its main: `r + |e| ≤ R` with e = 0.
fn pipes_fit(week: &Week, order: &GateOrder) -> Result<(), Vec<Trouble>> {
    let std = &week.shop.gate;
    let p = &order.pipes;
    let od = |id: PipeId| week.pipe(id).od.exact_mm();
    let mut wrong = Vec::new();
    let posts = [p.latch_post, p.tail_post];
    match std.variant {
        Variant::PostsRunPast if posts.iter().any(|q| od(*q) < od(p.horizontal)) => {
            wrong.push(Trouble::PostUnderHorizontal);
        }
        Variant::Through if posts.iter().any(|q| od(*q) > od(p.horizontal)) => {
            wrong.push(Trouble::PostOverHorizontal);
        }
        _ => {}
    }
    for (pipe, branch) in [(p.vertical, Role::Vertical), (p.diagonal, Role::Diagonal)] {
        if od(pipe) > od(p.horizontal) {
            wrong.push(Trouble::BranchOverMain {
                branch,
                main: Role::BottomHorizontal,
            });
        }
    }
    if order.barbed > 0 && std.barbed_risers && std.roller_on_top {
        wrong.push(Trouble::RisersUnderRoller);
    }
    if wrong.is_empty() { Ok(()) } else { Err(wrong) }
}

/// Something is left between posts and between horizontals.
fn room_inside(week: &Week, order: &GateOrder) -> Result<(), Vec<Trouble>> {
    let span = Span::of(week, order);
    let mut wrong = Vec::new();
    if !strictly_under(0.0, span.width()) {
        wrong.push(Trouble::LeafShort { span: span.width() });
    }
    if !strictly_under(0.0, span.limits.axis_height) {
        wrong.push(Trouble::HeightSmall {
            axis_height: span.limits.axis_height,
        });
    }
    if wrong.is_empty() { Ok(()) } else { Err(wrong) }
}

/// Bays excluded for splices that the gate does not have: a slip of the pen would free the bay meant.
fn exclusion_troubles<'a>(
    order: &'a GateOrder,
    frame: &Frame,
) -> impl Iterator<Item = Trouble> + 'a {
    let bays = frame.bay_lines.len().saturating_sub(1);
    let there = move |bay: u32| (1..=bays).contains(&usize::try_from(bay).unwrap_or(usize::MAX));
    let excluded = order.excluded_bays.iter().copied();
    excluded
        .filter(move |bay| !there(*bay))
        .map(move |bay| Trouble::NoSuchBay { bay, bays })
}

fn brace_troubles(frame: &Frame) -> Vec<Trouble> {
    let Some(sway) = &frame.sway else {
        return Vec::new();
    };
    let (rise, chord) = (sway.rise, sway.chord);
    if !(rise > 0.0 && 2.0 * rise < chord) {
        return vec![Trouble::SwayRise { rise, chord }];
    }
    sway.standoffs
        .iter()
        .filter(|(_, length)| !strictly_under(0.0, *length))
        .map(|&(line, length)| Trouble::Standoff { line, length })
        .take(1)
        .collect()
}

/// Parts with no pipe left between their copes (the first of each role), and ends that miss.
fn throat_troubles(week: &Week, frame: &Frame) -> Vec<Trouble> {
    let mut wrong: Vec<Trouble> = Vec::new();
    let mut named: Vec<Role> = Vec::new();
    let coped = frame
        .members
        .iter()
        .filter(|m| !matches!(m.role, Role::SwayBrace | Role::Standoff));
    for member in coped {
        if named.contains(&member.role) {
            continue;
        }
        let (role, place) = (member.role, member.place);
        let trouble = match throat(week, member) {
            None => Trouble::Misses { role, place },
            Some(t) if !strictly_under(0.0, t) => Trouble::Throat {
                role,
                place,
                throat: t,
            },
            Some(_) => continue,
        };
        named.push(role);
        wrong.push(trouble);
    }
    wrong
}

/// Axis less the largest setback of each coped end; `None` when an end cannot be coped.
fn throat(week: &Week, member: &Member) -> Option<f64> {
    let branch = branch_of(week, member.pipe);
    let mut throat = member.axis;
    for end in member.ends.iter().filter(|e| !e.meets.is_empty()) {
        let cut = end_cut(&branch, &mains_of(week, end), method_of(member.cut)).ok()?;
        throat -= cut.s_short;
    }
    Some(throat)
}
