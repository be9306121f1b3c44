//! On the floor: when each gate is complete, how long the work takes, which saw cuts what.

use std::collections::BTreeMap;

use super::owner::Owner;
use super::{GateDone, Minutes, PlannedJoint, Sitting, SplicedLine};
use crate::measure::Length;
use crate::order::Week;
use crate::part::{CopeEnd, Part, TakeOff};
use crate::splice::fraction;

/// After which joint the last piece of each gate copy has been cut; gates in the order they finish,
/// in due order among equals. 0: nothing of it is cut here.
pub(crate) fn done(take_off: &TakeOff, owners: &[Owner], joints: &[PlannedJoint]) -> Vec<GateDone> {
    let mut last: BTreeMap<(usize, u32), u32> = BTreeMap::new();
    for joint in joints {
        for piece in &joint.pieces {
            if let Some(gate) = take_off.parts[piece.part].gate {
                last.insert((gate, piece.copy), joint.number);
            }
        }
    }
    let mut out: Vec<GateDone> = owners
        .iter()
        .filter_map(|o| {
            let gate = o.gate?;
            Some(GateDone {
                gate,
                copy: o.copy,
                after_joint: last.get(&(gate, o.copy)).copied().unwrap_or(0),
            })
        })
        .collect();
    out.sort_by_key(|d| d.after_joint);
    out
}

/// Cuts on a joint: one per piece, the near trim, and the far end's last cut when it is not the
/// last piece's own.
fn cuts(joint: &PlannedJoint) -> usize {
    let trim = usize::from(joint.near > Length::ZERO);
    let last = usize::from(joint.last_cut > Length::ZERO);
    (joint.pieces.len() + last + trim).saturating_sub(1)
}

fn coped_ends(part: &Part, piece: Option<u32>, pieces: u32) -> usize {
    let coped = |end: &CopeEnd| matches!(end, CopeEnd::Coped(_));
    match piece {
        None => part.ends.iter().filter(|e| coped(e)).count(),
        Some(1) => usize::from(coped(&part.ends[0])),
        Some(n) if n == pieces => usize::from(coped(&part.ends[1])),
        Some(_) => 0,
    }
}

/// Coped ends of a joint's pieces.
fn copes(take_off: &TakeOff, spliced: &[SplicedLine], joint: &PlannedJoint) -> usize {
    joint
        .pieces
        .iter()
        .map(|p| {
            let line = spliced
                .iter()
                .find(|l| l.part == p.part && l.copy == p.copy && p.piece.is_some());
            let pieces = line.map_or(1, |l| u32::try_from(l.pieces.len()).unwrap_or(u32::MAX));
            coped_ends(&take_off.parts[p.part], p.piece, pieces)
        })
        .sum()
}

/// Minutes of the week by the shop's figures.
pub(crate) fn minutes(
    week: &Week,
    take_off: &TakeOff,
    joints: &[PlannedJoint],
    spliced: &[SplicedLine],
) -> Minutes {
    let rules = &week.shop.minutes;
    let splices: usize = spliced.iter().map(|l| l.splices.len()).sum();
    let all_copes: usize = joints.iter().map(|j| copes(take_off, spliced, j)).sum();
    Minutes {
        joints: fraction(rules.joint) * count(joints.len()),
        cuts: fraction(rules.cut) * count(joints.iter().map(cuts).sum()),
        copes: fraction(rules.cope) * count(all_copes),
        splices: fraction(rules.splice) * count(splices),
    }
}

fn count(n: usize) -> f64 {
    u32::try_from(n).map_or(f64::INFINITY, f64::from)
}

/// Split the joints over the shop's saws: each joint in order to the saw with least work so far
/// (handling and cutting only; copes and splices have their own stations).
pub(crate) fn sittings(week: &Week, joints: &[PlannedJoint]) -> Vec<Sitting> {
    let mut out: Vec<Sitting> = (1..=week.shop.saw.saws.clamp(1, 100))
        .map(|saw| Sitting {
            saw,
            joints: Vec::new(),
            minutes: 0.0,
        })
        .collect();
    for joint in joints {
        let least = out
            .iter_mut()
            .min_by(|a, b| a.minutes.total_cmp(&b.minutes).then(a.saw.cmp(&b.saw)));
        if let Some(sitting) = least {
            sitting.joints.push(joint.number);
            sitting.minutes += joint_minutes(week, joint);
        }
    }
    out
}

/// Minutes of one joint at the saw: handled, and every cut.
pub(super) fn joint_minutes(week: &Week, joint: &PlannedJoint) -> f64 {
    let rules = &week.shop.minutes;
    fraction(rules.joint) + fraction(rules.cut) * count(cuts(joint))
}
