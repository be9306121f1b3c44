//! The week taken off: every gate that can be built, its parts, then the extra parts.

use super::group::{Group, groups};
use super::measure_up::measure;
use super::{CopeEnd, Part, TakeOff};
use crate::gate::{Frame, Role, build};
use crate::measure::Length;
use crate::order::{CutMethod, ExtraPart, GateOrder, Impossible, Week};

/// Frames and parts of the week, and what of it is impossible, each with the reason and the smallest
/// change that frees it. A gate with anything impossible has no frame and no parts.
pub fn take_off(week: &Week) -> (TakeOff, Vec<Impossible>) {
    let (mut frames, mut parts, mut impossible) = (Vec::new(), Vec::new(), Vec::new());
    for gate in 0..week.gates.len() {
        let built = build(week, gate).and_then(|f| parts_of(week, &f).map(|p| (f, p)));
        match built {
            Ok((frame, mut of_gate)) => {
                frames.push(frame);
                parts.append(&mut of_gate);
            }
            Err(mut why) => impossible.append(&mut why),
        }
    }
    for (index, extra) in week.extras.iter().enumerate() {
        match extra_part(week, index, extra) {
            Ok(part) => parts.push(part),
            Err(why) => impossible.push(*why),
        }
    }
    (TakeOff { frames, parts }, impossible)
}

/// The parts of one frame, in [`Role`] order.
///
/// # Errors
/// Each part that cannot be cut: an end that misses, or no pipe left between two copes. (Never for a
/// frame from [`build`], which judges both.)
pub fn parts_of(week: &Week, frame: &Frame) -> Result<Vec<Part>, Vec<Impossible>> {
    let Some(order) = week.gates.get(frame.gate) else {
        return Err(Vec::new());
    };
    let (mut parts, mut impossible) = (Vec::new(), Vec::new());
    for group in groups(frame) {
        match gate_part(week, frame, order, &group) {
            Ok(part) => parts.push(part),
            Err(why) => impossible.push(*why),
        }
    }
    if impossible.is_empty() {
        Ok(parts)
    } else {
        Err(impossible)
    }
}

fn gate_part(
    week: &Week,
    frame: &Frame,
    order: &GateOrder,
    group: &Group,
) -> Result<Part, Box<Impossible>> {
    let member = group.members[0];
    let role = member.role;
    let mark = format!("{}-{}", order.mark, group.letters);
    let refuse = |reason: &str| {
        Box::new(Impossible {
            gate: Some(frame.gate),
            extra: None,
            mark: order.mark.clone(),
            part: Some(mark.clone()),
            reason: reason.to_string(),
            change: "another height, bay count or pipe".to_string(),
        })
    };
    let m = measure(week, member).map_err(|_| refuse("a line of its end touches nothing"))?;
    let saw_mark = week.shop.saw.mark;
    let saw = Length::nearest_mark(m.long, saw_mark);
    if m.throat <= 0.0 || m.throat.is_nan() || saw <= Length::ZERO {
        return Err(refuse("no pipe is left between its two copes"));
    }
    let per_gate = u32::try_from(group.members.len()).unwrap_or(u32::MAX);
    let kit_horizontal = order.kit && matches!(role, Role::TopHorizontal | Role::BottomHorizontal);
    Ok(Part {
        gate: Some(frame.gate),
        extra: None,
        role: Some(role),
        pipe: member.pipe,
        per_gate,
        count: per_gate.saturating_mul(order.count),
        axis: member.axis,
        long_exact: m.long,
        throat_exact: m.throat,
        saw,
        throat: Length::nearest_mark(m.throat, saw_mark),
        top_line: role.is_diagonal().then_some(m.at_pi),
        under_line: role.is_diagonal().then_some(m.at_zero),
        ends: m.ends,
        cut: member.cut,
        swaps_in_last_bay: role == Role::FirstDiagonal && per_gate > 1,
        weight: week
            .pipe(member.pipe)
            .weight(week.shop.units, saw.geometric()),
        ours: !kit_horizontal,
        mark,
    })
}

fn extra_part(week: &Week, index: usize, extra: &ExtraPart) -> Result<Part, Box<Impossible>> {
    let saw_mark = week.shop.saw.mark;
    let saw = extra.length.to_nearest(saw_mark);
    if saw <= Length::ZERO {
        return Err(Box::new(Impossible {
            gate: None,
            extra: Some(index),
            mark: extra.mark.clone(),
            part: Some(extra.mark.clone()),
            reason: "its length rounds to nothing on the saw's mark".to_string(),
            change: format!("a length of at least {}", saw_mark.print(week.shop.units)),
        }));
    }
    let long = extra.length.geometric();
    Ok(Part {
        mark: extra.mark.clone(),
        gate: None,
        extra: Some(index),
        role: None,
        pipe: extra.pipe,
        per_gate: extra.count,
        count: extra.count,
        axis: long,
        long_exact: long,
        throat_exact: long,
        saw,
        throat: saw,
        top_line: None,
        under_line: None,
        ends: [
            CopeEnd::Square { capped: false },
            CopeEnd::Square { capped: false },
        ],
        cut: CutMethod::TrueSaddle,
        swaps_in_last_bay: false,
        weight: week
            .pipe(extra.pipe)
            .weight(week.shop.units, saw.geometric()),
        ours: true,
    })
}
