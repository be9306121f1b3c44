//! A sound take-off with one figure spoiled at a time; the judge names each.

use longpoint::check::Rule;
use longpoint::gate::Role;
use longpoint::measure::Length;
use longpoint::order::{Bays, PipeId};
use longpoint::part::{CopeEnd, TakeOff};

use super::spoil::{Spoil, all_named};
use crate::tiny;
use crate::tiny_week::week;

fn cope(t: &mut TakeOff) -> &mut longpoint::part::Cope {
    let diagonal = t.parts.iter_mut().find(|p| p.top_line.is_some());
    match &mut diagonal.expect("the gate has diagonals").ends[0] {
        CopeEnd::Coped(cope) => cope,
        CopeEnd::Square { .. } => panic!("a diagonal is coped"),
    }
}

fn diagonal(t: &mut TakeOff) -> &mut longpoint::gate::Member {
    let members = t.frames[0].members.iter_mut();
    let found = members.into_iter().find(|m| m.role == Role::Diagonal);
    found.expect("the gate has diagonals")
}

pub const TAKE_OFF: &[(Rule, Spoil)] = &[
    (Rule::CopeSetback, |_, _, t| cope(t).cut.s_long += 1.0),
    (Rule::CopeSetback, |_, _, t| cope(t).at_pi += 1.0),
    (Rule::CopeCutback, |_, _, t| cope(t).cut.cutback += 1.0),
    (Rule::CopeClock, |_, _, t| cope(t).cut.theta_long += 0.1),
    (Rule::CopeMeets, |_, _, t| cope(t).meets[0].phi += 0.1),
    (Rule::CopeMeets, |_, _, t| cope(t).meets[0].beta += 0.1),
    (Rule::CopeEnd, |_, _, t| {
        t.parts[0].ends[0] = CopeEnd::Square { capped: true }
    }),
    (Rule::BayAngle, |_, _, t| t.frames[0].bays[1].alpha += 0.01),
    (Rule::FrameMember, |_, _, t| {
        let member = diagonal(t);
        std::mem::swap(&mut member.start.x, &mut member.end.x);
    }),
    (Rule::FrameMember, |_, _, t| {
        t.frames[0].members.pop();
    }),
    (Rule::PartLongPoint, |_, _, t| t.parts[0].long_exact += 1.0),
    (Rule::PartSaw, |_, _, t| {
        t.parts[0].saw += Length::from_64ths(4)
    }),
    (Rule::PartThroat, |_, _, t| t.parts[0].throat_exact -= 1.0),
    (Rule::PartThroat, |_, _, t| {
        t.parts[0].throat += Length::from_64ths(4)
    }),
    (Rule::PartAxis, |_, _, t| t.parts[0].axis += 1.0),
    (Rule::PartWeight, |_, _, t| t.parts[0].weight *= 1.01),
    (Rule::PartOurs, |_, _, t| t.parts[0].ours = false),
    (Rule::PartCount, |_, _, t| t.parts[0].count += 1),
    (Rule::PartCount, |_, _, t| t.parts[0].per_gate += 1),
    (Rule::PartMark, |_, _, t| t.parts[0].mark = "A1-X".into()),
    (Rule::PartMark, |_, _, t| {
        t.parts[0].mark = t.parts[1].mark.clone()
    }),
    (Rule::PartMissing, |_, _, t| {
        let part = t.parts.iter_mut().find(|p| p.role == Some(Role::EndPost));
        part.expect("posts").pipe = tiny::LIGHT;
    }),
    (Rule::PartTopLine, |_, _, t| {
        let d = t.parts.iter_mut().find(|p| p.top_line.is_some());
        if let Some(line) = d.and_then(|p| p.top_line.as_mut()) {
            *line += 2.0;
        }
    }),
    (Rule::PartUnderLine, |_, _, t| {
        let d = t.parts.iter_mut().find(|p| p.under_line.is_some());
        if let Some(line) = d.and_then(|p| p.under_line.as_mut()) {
            *line += 2.0;
        }
    }),
    (Rule::BayLine, |_, _, t| t.frames[0].bay_lines[1] += 10.0),
    (Rule::BayCount, |_, _, t| {
        t.frames[0].bay_lines.pop();
    }),
    (Rule::FrameLeaf, |_, _, t| t.frames[0].leaf += 10.0),
    (Rule::FrameHeight, |_, _, t| t.frames[0].axis_height += 10.0),
    (Rule::CheckMeasure, |_, _, t| {
        t.frames[0].check_measure += 10.0
    }),
    (Rule::Rollers, |_, _, t| t.frames[0].rollers.spacing += 10.0),
    (Rule::FrameRise, |_, _, t| t.frames[0].rise += 10.0),
    (Rule::FrameDrop, |_, _, t| t.frames[0].drop += 10.0),
    (Rule::LeafSum, |_, w, _| w.gates[0].leaf += 10.0),
    (Rule::BayLimit, |_, w, _| {
        w.gates[0].bays = Bays::Count(2);
    }),
    (Rule::ExtraPart, |_, _, t| {
        let part = t.parts.iter_mut().find(|p| p.extra.is_some());
        part.expect("an extra part").per_gate += 1;
    }),
    (Rule::ExtraPart, |_, _, t| {
        let part = t.parts.iter_mut().find(|p| p.extra.is_some());
        part.expect("an extra part").mark.push('9');
    }),
    (Rule::ExtraPart, |_, _, t| {
        let part = t.parts.iter_mut().find(|p| p.extra.is_some());
        part.expect("an extra part").ours = false;
    }),
    (Rule::Index, |_, _, t| {
        // Of a gate and of a row of extra parts at once.
        t.parts[0].extra = Some(0);
    }),
    (Rule::Index, |_, _, t| {
        // Of neither.
        let part = t.parts.iter_mut().find(|p| p.extra.is_some());
        part.expect("an extra part").extra = None;
    }),
    (Rule::CopeMeets, |_, _, t| {
        // Turned half round.
        cope(t).meets[0].beta += std::f64::consts::PI;
    }),
    (Rule::ExtraPart, |_, _, t| {
        let part = t.parts.iter().find(|p| p.extra.is_some());
        let again = part.expect("an extra part").clone();
        t.parts.push(again);
    }),
    (Rule::CopeMisses, |_, w, _| {
        // The diagonals are of a pipe larger than the horizontals.
        w.pipes.push(tiny::pipe("4 SS40", "4.000", "0.226"));
        w.gates[0].pipes.diagonal = PipeId(w.pipes.len() - 1);
    }),
    (Rule::FrameTwice, |_, _, t| {
        t.frames.push(t.frames[0].clone())
    }),
];

#[test]
fn a_spoiled_take_off_is_named() {
    all_named(week, TAKE_OFF);
}
