//! `Bar`: one straight Euler–Bernoulli member between two nodes, with its stiffness, the nodal
//! equivalents of its own load, and its end forces.
//!
//! Source of the stiffness matrix and of the work-equivalent loads: W. Weaver and J. M. Gere,
//! *Matrix Analysis of Framed Structures*, plane frame member and its fixed-end actions (from memory).

use super::Section;

/// A node of a structure, inches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Node {
    /// Toward the tail.
    pub x: f64,
    /// Up.
    pub y: f64,
}

/// One member.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bar {
    /// Start node.
    pub from: usize,
    /// End node.
    pub to: usize,
    /// Its tube.
    pub section: Section,
    /// Load straight down per inch of its length, lbf/in.
    pub load: f64,
    /// Moment released at both ends.
    pub pinned: bool,
}

/// What acts inside a bar at one place: tension +; shear + when the part on the left (start) is
/// pushed up by what is cut away; moment + sagging (for a bar drawn left to right).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Inner {
    /// Axial force N, lbf.
    pub axial: f64,
    /// Shear V, lbf.
    pub shear: f64,
    /// Moment M, lbf·in.
    pub moment: f64,
}

/// A bar's fixed figures.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lie {
    pub length: f64,
    pub cosine: f64,
    pub sine: f64,
    /// EA/L.
    pub axial: f64,
    /// EI.
    pub flexural: f64,
    pub pinned: bool,
    pub load: f64,
}

impl Lie {
    pub fn new(bar: &Bar, from: Node, to: Node, elasticity: f64) -> Lie {
        let (dx, dy) = (to.x - from.x, to.y - from.y);
        let length = (dx * dx + dy * dy).sqrt();
        Lie {
            length,
            cosine: dx / length,
            sine: dy / length,
            axial: elasticity * bar.section.area() / length,
            flexural: elasticity * bar.section.inertia(),
            pinned: bar.pinned,
            load: bar.load,
        }
    }

    /// 12EI/L³, 6EI/L², 4EI/L, 2EI/L; all zero when both ends are pinned.
    fn bending(&self) -> [f64; 4] {
        if self.pinned {
            return [0.0; 4];
        }
        let by_length = self.flexural / self.length;
        let by_square = by_length / self.length;
        [
            12.0 * by_square / self.length,
            6.0 * by_square,
            4.0 * by_length,
            2.0 * by_length,
        ]
    }

    /// Stiffness in the gate's axes, unknowns ux, uy, θ of the start then of the end.
    pub fn stiffness(&self) -> [[f64; 6]; 6] {
        let (c, s) = (self.cosine, self.sine);
        let [b, d, e, f] = self.bending();
        let (xx, xy, yy) = (
            self.axial * (c * c) + b * (s * s),
            (self.axial - b) * (c * s),
            self.axial * (s * s) + b * (c * c),
        );
        let (ds, dc) = (d * s, d * c);
        [
            [xx, xy, -ds, -xx, -xy, -ds],
            [xy, yy, dc, -xy, -yy, dc],
            [-ds, dc, e, ds, -dc, f],
            [-xx, -xy, ds, xx, xy, ds],
            [-xy, -yy, -dc, xy, yy, -dc],
            [-ds, dc, f, ds, -dc, e],
        ]
    }

    /// Forces on the two nodes that do the same work as the bar's own load.
    pub fn nodal_load(&self) -> [f64; 6] {
        let half = self.load * self.length / 2.0;
        let moment = if self.pinned {
            0.0
        } else {
            self.load * self.cosine * self.length * self.length / 12.0
        };
        [0.0, -half, -moment, 0.0, -half, moment]
    }

    /// What acts just inside the start, from the six end displacements and the bar's own load.
    pub fn start(&self, moved: [f64; 6]) -> Inner {
        let free = self.start_unloaded(moved);
        let [_, up, turn, ..] = self.nodal_load();
        Inner {
            axial: free.axial + up * self.sine,
            shear: free.shear - up * self.cosine,
            moment: free.moment + turn,
        }
    }

    /// The same without the bar's own load.
    pub fn start_unloaded(&self, moved: [f64; 6]) -> Inner {
        let (c, s) = (self.cosine, self.sine);
        let [b, d, e, f] = self.bending();
        let along = c * (moved[3] - moved[0]) + s * (moved[4] - moved[1]);
        let across = c * (moved[1] - moved[4]) - s * (moved[0] - moved[3]);
        Inner {
            axial: self.axial * along,
            shear: b * across + d * (moved[2] + moved[5]),
            moment: -(d * across + e * moved[2] + f * moved[5]),
        }
    }

    /// From what acts at the start to what acts `x` inches along, under the bar's own load alone.
    pub fn along(&self, start: Inner, x: f64) -> Inner {
        let across = self.load * self.cosine;
        Inner {
            axial: start.axial + self.load * self.sine * x,
            shear: start.shear - across * x,
            moment: start.moment + start.shear * x - across * x * x / 2.0,
        }
    }
}

/// Hermite's cubics on a bar of length `length` at `x`: the share of a unit lift there that goes to
/// uy, θ of the start and uy, θ of the end (and the shape of the bar between its moved ends).
pub(super) fn hermite(length: f64, x: f64) -> [f64; 4] {
    let t = x / length;
    let (t2, t3) = (t * t, t * t * t);
    [
        1.0 - 3.0 * t2 + 2.0 * t3,
        length * (t - 2.0 * t2 + t3),
        3.0 * t2 - 2.0 * t3,
        length * (t3 - t2),
    ]
}

/// Rise at `x` of a bar with both ends fixed under a unit lift at `a`. Source: AISC *Manual of
/// Steel Construction*, beam diagrams, beam fixed at both ends with a load at any point (from memory).
pub(super) fn fixed_rise(flexural: f64, length: f64, a: f64, x: f64) -> f64 {
    let (a, x) = if x <= a {
        (a, x)
    } else {
        (length - a, length - x)
    };
    let b = length - a;
    b * b * x * x * (3.0 * a * length - 3.0 * a * x - b * x)
        / (6.0 * flexural * length * length * length)
}

/// Rise at `x` of a bar with both ends fixed under a uniform load down (negative).
pub(super) fn fixed_sag(flexural: f64, length: f64, load: f64, x: f64) -> f64 {
    let rest = length - x;
    -load * x * x * rest * rest / (24.0 * flexural)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// AISC *Manual*, beam fixed at both ends, load at any point: Pa³b³/(3EIl³) under the load; and
    /// uniform load: ql⁴/(384EI) at mid-span (from memory).
    #[test]
    fn fixed_bar_bends_as_the_handbook_says() {
        let (flexural, a, b) = (2.0e7_f64, 20.0_f64, 40.0_f64);
        let under = (a * b).powi(3) / (3.0 * flexural * (a + b).powi(3));
        assert!((fixed_rise(flexural, a + b, a, a) - under).abs() < 1e-12);
        let (there, back) = (
            fixed_rise(flexural, 60.0, a, 50.0),
            fixed_rise(flexural, 60.0, 50.0, a),
        );
        assert!((there - back).abs() < 1e-15 && there > 0.0);
        let middle = -0.5 * 60.0_f64.powi(4) / (384.0 * flexural);
        assert!((fixed_sag(flexural, 60.0, 0.5, 30.0) - middle).abs() < 1e-15);
    }

    #[test]
    fn shares_carry_the_whole_lift_and_its_moment() {
        let [first, turn, second, back] = hermite(60.0, 17.0);
        assert!((first + second - 1.0).abs() < 1e-15);
        assert!((turn + back + 60.0 * second - 17.0).abs() < 1e-12);
    }
}
