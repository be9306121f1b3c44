//! Which rollers push, and how hard.

use super::rig::Spot;
use super::{Lift, Line, Rig};
use crate::order::Carrier;

impl Rig {
    /// The rollers' lifts with the front roller's axis at `front` (in from the latch end post's
    /// axis). Carried on one horizontal: two lifts, front first, by equilibrium alone: where the
    /// gate is pushed up the carrying horizontal takes it, where it is held down the other one.
    /// Both held: four, front bottom, front top, rear bottom, rear top.
    pub fn lifts(&self, front: f64) -> Vec<Lift> {
        let rear = front + self.model.spacing;
        let carrying = match self.model.carrier {
            Carrier::Bottom => Line::Bottom,
            Carrier::Top => Line::Top,
            Carrier::Both => return self.lifts_held(front, rear),
        };
        let at_rear = self.weight() * (self.centre() - front) / self.model.spacing;
        let lift = |x: f64, force: f64| {
            let line = if force >= 0.0 {
                carrying
            } else {
                carrying.other()
            };
            Lift { line, x, force }
        };
        vec![lift(front, self.weight() - at_rear), lift(rear, at_rear)]
    }

    /// Four held places: no rise at any, and equilibrium; the gate's own place in the plane (rise
    /// and tilt) is unknown too. Six equations.
    fn lifts_held(&self, front: f64, rear: f64) -> Vec<Lift> {
        let places = [front, rear].map(|x| Line::BOTH.map(|line| (line, x)));
        let places: [(Line, f64); 4] = [places[0][0], places[0][1], places[1][0], places[1][1]];
        let spots: [Spot; 4] = places.map(|(line, x)| self.spot(line, x));
        let mut rows = [[0.0; 7]; 6];
        for (i, spot) in spots.iter().enumerate() {
            for (j, lifted) in spots.iter().enumerate() {
                rows[i][j] = self.give(*spot, *lifted);
            }
            rows[i][4] = 1.0;
            rows[i][5] = places[i].1;
            rows[i][6] = -self.rise_between(&self.own, *spot) - self.sag_within(*spot);
            rows[4][i] = 1.0;
            rows[5][i] = places[i].1;
        }
        rows[4][6] = self.weight();
        rows[5][6] = self.weight() * self.centre();
        let forces = eliminate(rows);
        let lift = |((line, x), force): ((Line, f64), f64)| Lift { line, x, force };
        places.into_iter().zip(forces).map(lift).collect()
    }
}

/// Gauss with partial pivoting; rows carry the right side last.
fn eliminate(mut rows: [[f64; 7]; 6]) -> [f64; 6] {
    for k in 0..6 {
        let best = (k..6).fold(k, |best, i| {
            if rows[i][k].abs() > rows[best][k].abs() {
                i
            } else {
                best
            }
        });
        rows.swap(k, best);
        let pivot = rows[k];
        for row in rows.iter_mut().skip(k + 1) {
            let factor = row[k] / pivot[k];
            for (value, above) in row.iter_mut().zip(pivot).skip(k) {
                *value -= factor * above;
            }
        }
    }
    let mut found = [0.0; 6];
    for k in (0..6).rev() {
        let known: f64 = (k + 1..6).map(|j| rows[k][j] * found[j]).sum();
        found[k] = (rows[k][6] - known) / rows[k][k];
    }
    found
}
