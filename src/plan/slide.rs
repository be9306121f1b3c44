//! Slide splices inside their slack once the plan is fixed; no money changes.
//!
//! The best place in a window is where the gate's bending, as it rolls, stresses the pipe least;
//! of equal places (or where the bending is not computed) the one nearest the window's middle,
//! which forgives most on the floor. A splice moves by whole marks within its own window as far as
//! every rule and both joints allow.

use super::owner::Made;
use super::welded::window_of;
use crate::measure::Length;
use crate::order::Week;
use crate::splice::{SpliceLine, SpliceSet, Window};

/// Where the pieces lie: who knows how far a splice may move, and moves it.
pub(super) trait Floor {
    /// How far in ticks splice `splice` (0-based) may move toward the latch end and toward the tail
    /// before a joint holds too much.
    fn room(&self, sets: &[SpliceSet], made: &Made, splice: usize) -> (i64, i64);

    /// Lengthens the piece before the splice and shortens the one after by `by` ticks if both joints
    /// allow it; else changes nothing.
    fn shift(&mut self, sets: &[SpliceSet], made: &Made, splice: usize, by: i64) -> bool;
}

/// Rounds in which splices slide at most: one that moved may make room for another.
const ROUNDS: usize = 10;

/// Slides every splice of every line until none moves.
pub(super) fn slide(week: &Week, sets: &[SpliceSet], made: &mut [Made], floor: &mut impl Floor) {
    for _ in 0..ROUNDS {
        let mut moved = false;
        for index in 0..made.len() {
            for splice in 0..made[index].pieces.len().saturating_sub(1) {
                moved |= slide_one(week, sets, made, (index, splice), floor);
            }
        }
        if !moved {
            return;
        }
    }
}

/// Slides one splice to the best place it can reach; whether it moved.
fn slide_one(
    week: &Week,
    sets: &[SpliceSet],
    made: &mut [Made],
    (index, splice): (usize, usize),
    floor: &mut impl Floor,
) -> bool {
    let mark = week.shop.saw.mark.ticks().max(1);
    let room = floor.room(sets, &made[index], splice);
    for step in wishes(sets, &made[index], splice, mark, room) {
        let by = step * mark;
        if keeps_rules(week, sets, made, index, splice, by)
            && floor.shift(sets, &made[index], splice, by)
        {
            made[index].pieces[splice] += by;
            made[index].pieces[splice + 1] -= by;
            return true;
        }
    }
    false
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

pub(super) fn line_of<'a>(sets: &'a [SpliceSet], made: &Made) -> &'a SpliceLine {
    &sets[made.set].lines[made.line]
}

fn window<'a>(sets: &'a [SpliceSet], made: &Made, splice: usize) -> Option<&'a Window> {
    let line = line_of(sets, made);
    window_of(line, splices(made), centre(line, made, splice))
}

/// Moves in whole marks to better places of the splice's own window, best first; `room` is how far
/// in ticks it may move toward the latch end and toward the tail.
fn wishes(
    sets: &[SpliceSet],
    made: &Made,
    splice: usize,
    mark: i64,
    (back, ahead): (i64, i64),
) -> Vec<i64> {
    let Some(window) = window(sets, made, splice) else {
        return Vec::new();
    };
    let line = line_of(sets, made);
    let over = 2 * splices(made);
    let from = centre(line, made, splice);
    let (lo, hi) = (
        window.lo.ticks() * over - from,
        window.hi.ticks() * over - from,
    );
    let least = (-(-lo).div_euclid(over * mark)).max(-(back / mark));
    let most = hi.div_euclid(over * mark).min(ahead / mark);
    let worth = |step: i64| {
        let at = from + step * over * mark;
        let off = (2 * at - (window.lo + window.hi).ticks() * over).abs();
        (rel(sets, made, at, over), off)
    };
    let now = worth(0);
    let better = |(rel, off): (f64, i64)| rel.total_cmp(&now.0).then(off.cmp(&now.1)).is_lt();
    let mut found: Vec<(i64, (f64, i64))> = (least..=most)
        .map(|step| (step, worth(step)))
        .filter(|(_, worth)| better(*worth))
        .collect();
    found.sort_by(|(_, a), (_, b)| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    found.into_iter().map(|(step, _)| step).collect()
}

/// Stress at a centre (given × `over`) as a share of the gate's peak; 0 where it is not computed.
fn rel(sets: &[SpliceSet], made: &Made, at: i64, over: i64) -> f64 {
    let (line, set) = (line_of(sets, made), &sets[made.set]);
    let Some((envelope, which)) = set.bending.as_ref().zip(line.horizontal) else {
        return 0.0;
    };
    let p = Length::from_ticks(at).geometric() / Length::from_ticks(over).geometric();
    envelope.rel(which, line.x_long.geometric() + p)
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
