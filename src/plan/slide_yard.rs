//! The week's joints as the floor on which splices slide: each joint keeps its credit, keeps its drop
//! kept (or scrap), and is not driven into *measure first*.

use std::collections::BTreeMap;

use super::PlannedJoint;
use super::lay::settle;
use super::owner::Made;
use super::slide::{Floor, line_of, slide};
use crate::measure::{Length, Money};
use crate::order::Week;
use crate::splice::SpliceSet;
use crate::stock::PoolSource;

/// (part, copy, piece) → joint.
type Where = BTreeMap<(usize, u32, u32), usize>;

/// Slides every splice of the plan; lines, joints and positions follow.
pub(crate) fn slide_on_joints(
    week: &Week,
    pools: &[PoolSource],
    sets: &[SpliceSet],
    made: &mut [Made],
    joints: &mut [PlannedJoint],
) {
    let place: Where = joints
        .iter()
        .enumerate()
        .flat_map(|(i, j)| {
            j.pieces
                .iter()
                .filter_map(move |p| Some(((p.part, p.copy, p.piece?), i)))
        })
        .collect();
    let mut yard = Yard {
        week,
        pools,
        joints,
        place,
    };
    slide(week, sets, made, &mut yard);
    for joint in yard.joints.iter_mut() {
        joint.pieces.sort_by_key(|p| std::cmp::Reverse(p.saw));
        let rate = rate(pools, joint);
        settle(week, joint, rate);
    }
}

fn rate(pools: &[PoolSource], joint: &PlannedJoint) -> Money {
    let pool = pools.iter().find(|p| p.pipe == joint.pipe);
    pool.map_or(Money::ZERO, |p| p.credit_per_foot)
}

/// The joints, and which piece of which line lies on which.
struct Yard<'a> {
    week: &'a Week,
    pools: &'a [PoolSource],
    joints: &'a mut [PlannedJoint],
    place: Where,
}

impl Floor for Yard<'_> {
    fn room(&self, sets: &[SpliceSet], made: &Made, splice: usize) -> (i64, i64) {
        let part = line_of(sets, made).part;
        let number = u32::try_from(splice).unwrap_or(u32::MAX - 2) + 1;
        let here = |n: u32| self.place.get(&(part, made.copy, n)).copied();
        let (Some(a), Some(b)) = (here(number), here(number + 1)) else {
            return (0, 0);
        };
        if a == b {
            let all = line_of(sets, made).long.ticks();
            return (all, all);
        }
        let left = |joint: usize| self.joints[joint].leftover.ticks().max(0);
        (left(b), left(a))
    }

    fn shift(&mut self, sets: &[SpliceSet], made: &Made, splice: usize, by: i64) -> bool {
        let part = line_of(sets, made).part;
        let number = u32::try_from(splice).unwrap_or(u32::MAX - 2) + 1;
        let here = |n: u32| self.place.get(&(part, made.copy, n)).copied();
        let (Some(a), Some(b)) = (here(number), here(number + 1)) else {
            return false;
        };
        let mut changed = vec![(a, self.joints[a].clone())];
        if a != b {
            changed.push((b, self.joints[b].clone()));
        }
        for (_, joint) in &mut changed {
            for p in &mut joint.pieces {
                if p.part == part && p.copy == made.copy {
                    if p.piece == Some(number) {
                        p.saw += Length::from_ticks(by);
                    } else if p.piece == Some(number + 1) {
                        p.saw -= Length::from_ticks(by);
                    }
                }
            }
            let rate = rate(self.pools, joint);
            settle(self.week, joint, rate);
        }
        let sound = changed.iter().all(|(i, new)| {
            let old = &self.joints[*i];
            new.leftover >= Length::ZERO
                && new.credit == old.credit
                && new.kept == old.kept
                && (!new.measure_first || old.measure_first)
        });
        if sound {
            for (i, joint) in changed {
                self.joints[i] = joint;
            }
        }
        sound
    }
}
