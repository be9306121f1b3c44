//! `Pose`: the gate with its rollers at one place, and what acts where.

use super::bar::Inner;
use super::rig::Spot;
use super::{Lift, Line, Rig, StaticsFault};

/// Which side of a roller or node is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Just on the latch side.
    Left,
    /// Just on the tail side.
    Right,
}

/// One place of the rollers.
#[derive(Clone, Debug)]
pub struct Pose<'a> {
    rig: &'a Rig,
    lifts: Vec<Lift>,
    moved: Vec<f64>,
    starts: Vec<Inner>,
    /// Rise at x = 0 and per inch that puts the gate onto its rollers.
    rise: f64,
    tilt: f64,
}

impl Rig {
    /// The gate with the front roller's axis at `front`, in from the latch end post's axis.
    pub fn pose(&self, front: f64) -> Result<Pose<'_>, StaticsFault> {
        self.model.judge_roller(front)?;
        self.model.judge_roller(front + self.model.spacing)?;
        let lifts = self.lifts(front);
        let mut moved = self.own.clone();
        let mut starts = self.own_starts.clone();
        for lift in &lifts {
            let spot = self.spot(lift.line, lift.x);
            self.add_moved(&mut moved, spot, lift.force);
            self.add_starts(&mut starts, spot, lift.force);
        }
        let mut pose = Pose {
            rig: self,
            lifts,
            moved,
            starts,
            rise: 0.0,
            tilt: 0.0,
        };
        let [front, .., rear] = pose.lifts[..] else {
            return Err(StaticsFault::Mechanism);
        };
        let (at_front, at_rear) = (pose.rise(front.line, front.x), pose.rise(rear.line, rear.x));
        pose.tilt = (at_front - at_rear) / (rear.x - front.x);
        pose.rise = -at_front - pose.tilt * front.x;
        Ok(pose)
    }
}

impl Pose<'_> {
    /// The rollers' lifts.
    pub fn lifts(&self) -> &[Lift] {
        &self.lifts
    }

    /// Rise of a horizontal at x, in, + up.
    pub fn rise(&self, line: Line, x: f64) -> f64 {
        let spot = self.rig.spot(line, x);
        let within: f64 = self
            .lifts
            .iter()
            .map(|lift| {
                let lifted = self.rig.spot(lift.line, lift.x);
                lift.force * self.rig.rise_within(spot, lifted)
            })
            .sum();
        self.rise
            + self.tilt * x
            + self.rig.rise_between(&self.moved, spot)
            + self.rig.sag_within(spot)
            + within
    }

    /// What acts in a horizontal at x.
    pub fn inner(&self, line: Line, x: f64, side: Side) -> Inner {
        let chain = &self.rig.skeleton.chains[line.index()];
        let mut spot = self.rig.spot(line, x);
        if side == Side::Left && spot.along <= 0.0 && spot.bar > 0 {
            spot = Spot {
                bar: spot.bar - 1,
                along: x - chain.at[spot.bar - 1],
                ..spot
            };
        }
        let first = if line == Line::Bottom {
            0
        } else {
            self.rig.skeleton.chains[0].bars.len()
        };
        let lie = &self.rig.skeleton.structure.lies[chain.bars[spot.bar]];
        let mut inner = lie.along(self.starts[first + spot.bar], spot.along);
        for lift in &self.lifts {
            let lifted = self.rig.spot(lift.line, lift.x);
            let past = spot.along - lifted.along;
            let counts = past > 0.0 || (past == 0.0 && side == Side::Right);
            if lifted.line == line && lifted.bar == spot.bar && counts {
                inner.shear += lift.force;
                inner.moment += lift.force * past;
            }
        }
        inner
    }

    /// What acts in the upright at a bay line (0..=n), `up` inches above the bottom horizontal's axis.
    pub fn upright(&self, line: usize, up: f64) -> Option<Inner> {
        let bar = *self.rig.skeleton.uprights.get(line)?;
        Some(self.rig.skeleton.structure.inner(bar, &self.moved, up))
    }

    /// What acts in the diagonal of a bay (1..=n) at a fraction of its length from the latch side.
    pub fn diagonal(&self, bay: usize, fraction: f64) -> Option<Inner> {
        let bar = *self.rig.skeleton.diagonals.get(bay.checked_sub(1)?)?;
        let length = self.rig.skeleton.structure.lies[bar].length;
        Some(
            self.rig
                .skeleton
                .structure
                .inner(bar, &self.moved, fraction * length),
        )
    }
}
