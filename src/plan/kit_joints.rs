//! A kit's local joints: which piece lies on which, splices slid on them, running marks.

use super::owner::Made;
use super::slide::Floor;
use super::{KitJoint, PieceCut};
use crate::measure::Length;
use crate::nest::{Cut, PoolAnswer};
use crate::order::Week;
use crate::part::TakeOff;
use crate::splice::SpliceSet;

/// One piece on a joint.
#[derive(Clone, Copy, Debug)]
struct Lying {
    /// Index into the set's lines.
    line: usize,
    /// Number along the line from 1; `None`: the line is cut whole.
    piece: Option<u32>,
    /// Ticks.
    length: i64,
}

/// The joints of one kit gate, each the pieces cut from it; lengths in ticks.
#[derive(Clone, Debug)]
pub(super) struct KitFloor {
    joints: Vec<Vec<Lying>>,
    usable: i64,
    kerf: i64,
    /// A joint that leaves less than this is measured first.
    tight: i64,
}

impl KitFloor {
    /// The pieces `made` on the joints of the answer.
    pub(super) fn lay(week: &Week, made: &[Made], answer: &PoolAnswer, usable: Length) -> KitFloor {
        let mut left: Vec<Lying> = made
            .iter()
            .flat_map(|m| {
                let spliced = m.pieces.len() > 1;
                (1u32..).zip(&m.pieces).map(move |(n, length)| Lying {
                    line: m.line,
                    piece: spliced.then_some(n),
                    length: *length,
                })
            })
            .collect();
        let mut take = |cut: &Cut| {
            let Cut::Piece { length, .. } = cut else {
                return None;
            };
            let found = left.iter().position(|l| l.length == *length)?;
            Some(left.remove(found))
        };
        let mut joints = Vec::new();
        for pattern in &answer.patterns {
            for _ in 0..pattern.times {
                joints.push(pattern.cuts.iter().filter_map(&mut take).collect());
            }
        }
        KitFloor {
            joints,
            usable: usable.ticks(),
            kerf: week.shop.kit.kerf.ticks(),
            tight: week.shop.saw.measure_first_under.ticks(),
        }
    }

    /// What a joint has left for one more piece and no cut.
    fn left(&self, joint: usize) -> i64 {
        let load: i64 = self.joints[joint]
            .iter()
            .map(|l| l.length + self.kerf)
            .sum();
        self.usable + self.kerf - load
    }

    /// (joint, place on it) of a piece.
    fn find(&self, line: usize, piece: u32) -> Option<(usize, usize)> {
        let same = |l: &Lying| (l.line, l.piece) == (line, Some(piece));
        let mut joints = self.joints.iter().enumerate();
        joints.find_map(|(i, joint)| Some((i, joint.iter().position(same)?)))
    }

    /// The two places of a splice's pieces.
    fn beside(&self, made: &Made, splice: usize) -> Option<[(usize, usize); 2]> {
        let number = u32::try_from(splice).ok()?.checked_add(1)?;
        Some([
            self.find(made.line, number)?,
            self.find(made.line, number.checked_add(1)?)?,
        ])
    }

    /// The joints with running marks, longest pieces first.
    pub(super) fn marked(
        mut self,
        week: &Week,
        take_off: &TakeOff,
        set: &SpliceSet,
        joint: Length,
    ) -> Vec<KitJoint> {
        let kit = &week.shop.kit;
        let mut out = Vec::new();
        for lying in &mut self.joints {
            lying.sort_by_key(|l| std::cmp::Reverse(l.length));
            let mut at = kit.trim;
            let mut pieces = Vec::new();
            for l in lying {
                let part = set.lines[l.line].part;
                let saw = Length::from_ticks(l.length);
                let mark = &take_off.parts[part].mark;
                pieces.push(PieceCut {
                    part,
                    copy: 1,
                    serial: 1,
                    piece: l.piece,
                    mark: l
                        .piece
                        .map_or_else(|| mark.clone(), |n| format!("{mark}/{n}")),
                    saw,
                    start: at,
                    end: at + saw,
                });
                at = at + saw + kit.kerf;
            }
            let end = pieces.last().map_or(kit.trim, |p| p.end);
            let rest = joint - end;
            out.push(KitJoint {
                pieces,
                floor: rest - rest.min(kit.kerf),
            });
        }
        out
    }
}

impl Floor for KitFloor {
    fn room(&self, sets: &[SpliceSet], made: &Made, splice: usize) -> (i64, i64) {
        match self.beside(made, splice) {
            Some([(a, _), (b, _)]) if a == b => {
                let all = sets[made.set].lines[made.line].long.ticks();
                (all, all)
            }
            Some([(a, _), (b, _)]) => (self.left(b).max(0), self.left(a).max(0)),
            None => (0, 0),
        }
    }

    fn shift(&mut self, _: &[SpliceSet], made: &Made, splice: usize, by: i64) -> bool {
        let Some([(a, i), (b, j)]) = self.beside(made, splice) else {
            return false;
        };
        let before = [self.left(a), self.left(b)];
        self.joints[a][i].length += by;
        self.joints[b][j].length -= by;
        let after = [self.left(a), self.left(b)];
        let sound = |(new, old): (&i64, &i64)| *new >= self.tight.max(0) || *new >= *old;
        if after.iter().zip(&before).all(sound) {
            return true;
        }
        self.joints[a][i].length -= by;
        self.joints[b][j].length += by;
        false
    }
}
