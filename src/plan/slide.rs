//! Slide splices inside their slack once the plan is fixed; no money changes.
//!
//! Until the envelope is computed the best place in a window is its middle: it forgives most on the
//! floor. A splice moves by whole marks as near to the middle of its own window as every rule and
//! both joints allow: each joint keeps its credit, keeps its drop kept (or scrap), and is not
//! driven into *measure first*.

use std::collections::BTreeMap;

use super::PlannedJoint;
use super::lay::settle;
use super::owner::Made;
use super::welded::window_of;
use crate::measure::{Length, Money};
use crate::order::Week;
use crate::splice::{SpliceLine, SpliceSet, Window};
use crate::stock::PoolSource;

/// (part, copy, piece) → joint.
type Where = BTreeMap<(usize, u32, u32), usize>;

/// Slide every splice; lines, joints and positions follow.
pub(crate) fn slide(
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
    let mark = week.shop.saw.mark.ticks().max(1);
    for index in 0..made.len() {
        let count = made[index].pieces.len();
        for splice in 0..count.saturating_sub(1) {
            let Some(wish) = wish(sets, &made[index], splice, mark) else {
                continue;
            };
            for step in (1..=wish.abs()).rev() {
                let by = step * wish.signum() * mark;
                if keeps_rules(week, sets, made, index, splice, by)
                    && yard.shift(sets, &made[index], splice, by)
                {
                    made[index].pieces[splice] += by;
                    made[index].pieces[splice + 1] -= by;
                    break;
                }
            }
        }
    }
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

fn splices(made: &Made) -> i64 {
    i64::try_from(made.pieces.len()).unwrap_or(1) - 1
}

/// Centre of splice `j` (0-based) × 2m.
fn centre(line: &SpliceLine, made: &Made, j: usize) -> i64 {
    let m = splices(made);
    let metal: i64 = made.pieces.iter().sum();
    let before: i64 = made.pieces[..=j].iter().sum();
    let index = i64::try_from(j).unwrap_or(0);
    2 * m * before + (2 * index + 1) * (line.long.ticks() - metal)
}

fn line_of<'a>(sets: &'a [SpliceSet], made: &Made) -> &'a SpliceLine {
    &sets[made.set].lines[made.line]
}

fn window<'a>(sets: &'a [SpliceSet], made: &Made, splice: usize) -> Option<&'a Window> {
    let line = line_of(sets, made);
    window_of(line, splices(made), centre(line, made, splice))
}

/// Whole marks from where the splice stands to the middle of its window.
fn wish(sets: &[SpliceSet], made: &Made, splice: usize, mark: i64) -> Option<i64> {
    let window = window(sets, made, splice)?;
    let over = 2 * splices(made);
    let middle = (window.lo + window.hi).ticks() * over / 2;
    let from = centre(line_of(sets, made), made, splice);
    Some((middle - from) / (over * mark))
}

/// Whether a splice may move by `by` ticks: its window, the least piece, three in a row, and the
/// other line of the same copy.
fn keeps_rules(
    week: &Week,
    sets: &[SpliceSet],
    made: &[Made],
    index: usize,
    splice: usize,
    by: i64,
) -> bool {
    let line = line_of(sets, &made[index]);
    let Some(window) = window(sets, &made[index], splice) else {
        return false;
    };
    let mut moved = made[index].clone();
    moved.pieces[splice] += by;
    moved.pieces[splice + 1] -= by;
    let m = splices(&moved);
    let at = centre(line, &moved, splice);
    let inside = window.lo.ticks() * 2 * m <= at && at <= window.hi.ticks() * 2 * m;
    let long_enough = moved.pieces[splice..=splice + 1]
        .iter()
        .all(|p| *p >= line.least_piece.ticks());
    let over = week.shop.splice.three_within.ticks() * 2 * m;
    let all: Vec<i64> = (0..moved.pieces.len() - 1)
        .map(|j| centre(line, &moved, j))
        .collect();
    let spread = all.windows(3).all(|w| w[2] - w[0] > over);
    inside && long_enough && spread && clear_of_partner(sets, made, &moved)
}

/// The other line's splices stay the set's distance away.
fn clear_of_partner(sets: &[SpliceSet], made: &[Made], moved: &Made) -> bool {
    let apart = sets[moved.set].apart.ticks();
    let (line, m) = (line_of(sets, moved), splices(moved));
    made.iter()
        .filter(|o| o.set == moved.set && o.copy == moved.copy && o.line != moved.line)
        .filter(|o| o.pieces.len() > 1)
        .all(|other| {
            let (other_line, n) = (line_of(sets, other), splices(other));
            (0..moved.pieces.len() - 1).all(|i| {
                (0..other.pieces.len() - 1).all(|j| {
                    let a = centre(line, moved, i) * n;
                    let b = centre(other_line, other, j) * m;
                    (a - b).abs() >= apart * 2 * m * n
                })
            })
        })
}

/// The joints, and which piece of which line lies on which.
struct Yard<'a> {
    week: &'a Week,
    pools: &'a [PoolSource],
    joints: &'a mut [PlannedJoint],
    place: Where,
}

impl Yard<'_> {
    /// Lengthen one piece and shorten the next if both joints allow it; else change nothing.
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
