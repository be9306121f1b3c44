//! A coped end by sampling: the setback curve itself at many clock angles, its extremes refined by
//! golden section. Slower than the closed form and sharing nothing with it.
//!
//! Setback of the surface line at radius ρ and clock θ on a main of radius R at angle φ (axes that
//! meet): `[ρ cos θ cos φ + sqrt(R² − ρ² sin² θ)] / sin φ`; an end takes the largest over the pipes
//! it meets. Ticks and radians.

use std::f64::consts::{PI, TAU};

/// A pipe the end meets.
#[derive(Clone, Copy, Debug)]
pub(super) struct Met {
    /// Its outer radius.
    pub(super) radius: f64,
    /// Angle between the axes, 0 < φ < π.
    pub(super) phi: f64,
    /// Clock of its acute side.
    pub(super) beta: f64,
    /// Where its axis crosses the branch axis, from the end, positive into the branch.
    pub(super) station: f64,
}

/// The pipe being cut and how.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tube {
    /// Outer radius.
    pub(super) radius: f64,
    /// Inner radius.
    pub(super) bore: f64,
    /// Radial cut (seat through the wall), else true saddle.
    pub(super) radial: bool,
}

/// What sampling finds of one end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Seat {
    /// Least setback (long point).
    pub(super) least: f64,
    /// Largest setback (throat).
    pub(super) largest: f64,
    /// Setback at θ = 0 (underside).
    pub(super) at_zero: f64,
    /// Setback at θ = π (top side).
    pub(super) at_pi: f64,
}

/// A coped end with what was sampled of it.
#[derive(Clone, Debug)]
pub(super) struct Seated {
    tube: Tube,
    /// The pipes it meets.
    pub(super) mets: Vec<Met>,
    /// Its extremes.
    pub(super) seat: Seat,
}

impl Seated {
    /// Samples an end; `None` when a surface line misses every pipe it meets.
    pub(super) fn of(tube: Tube, mets: Vec<Met>) -> Option<Seated> {
        let seat = seat(tube, &mets)?;
        Some(Seated { tube, mets, seat })
    }

    /// Setback at one clock angle.
    pub(super) fn at(&self, theta: f64) -> f64 {
        setback(self.tube, &self.mets, theta)
    }
}

/// Clock angles sampled round the pipe: one each 1.5°; the curve has at most four extremes of one
/// kind, so neighbours on both sides of a sampled extreme enclose the true one.
const CLOCKS: u32 = 240;
/// Radii sampled through the wall before refining.
const RADII: u32 = 6;
/// Golden-section steps: the bracket shrinks by 0.618 each, 1e-12 of it is left (a feather edge is
/// a kink: its error is the bracket's, not the bracket's square).
const STEPS: u32 = 58;

/// The extremes of an end; `None` when a surface line misses every pipe it meets.
fn seat(tube: Tube, mets: &[Met]) -> Option<Seat> {
    let at = |theta: f64| setback(tube, mets, theta);
    let step = TAU / f64::from(CLOCKS);
    let clocks: Vec<f64> = (0..CLOCKS).map(|i| step * f64::from(i)).collect();
    let samples: Vec<f64> = clocks.iter().map(|&t| at(t)).collect();
    if samples.iter().any(|s| !s.is_finite()) {
        return None;
    }
    let refined = |sign: f64| {
        let n = samples.len();
        (0..n)
            .filter(|&i| {
                let here = sign * samples[i];
                here >= sign * samples[(i + n - 1) % n] && here >= sign * samples[(i + 1) % n]
            })
            .map(|i| {
                let (a, b) = (clocks[i] - step, clocks[i] + step);
                golden(|t| sign * at(t), a, b).max(sign * samples[i])
            })
            .fold(f64::NEG_INFINITY, f64::max)
    };
    Some(Seat {
        least: -refined(-1.0),
        largest: refined(1.0),
        at_zero: at(0.0),
        at_pi: at(PI),
    })
}

/// Setback at one clock angle; −∞ when the line misses every pipe.
fn setback(tube: Tube, mets: &[Met], theta: f64) -> f64 {
    if !tube.radial {
        return farthest(mets, tube.radius, theta);
    }
    let at = |rho: f64| farthest(mets, rho, theta);
    let step = (tube.radius - tube.bore) / f64::from(RADII);
    (0..RADII)
        .map(|i| {
            let from = tube.bore + step * f64::from(i);
            golden(at, from, from + step)
                .max(at(from))
                .max(at(from + step))
        })
        .fold(f64::NEG_INFINITY, f64::max)
}

fn farthest(mets: &[Met], rho: f64, theta: f64) -> f64 {
    mets.iter()
        .map(|m| m.station + line(m, rho, theta - m.beta))
        .fold(f64::NEG_INFINITY, f64::max)
}

/// The setback formula; a root that is negative by float noise alone is zero (equal radii).
fn line(met: &Met, rho: f64, theta: f64) -> f64 {
    let half_width = rho * theta.sin();
    let under = met.radius * met.radius - half_width * half_width;
    if under < -1e-9 * met.radius * met.radius {
        return f64::NEG_INFINITY;
    }
    (rho * theta.cos() * met.phi.cos() + under.max(0.0).sqrt()) / met.phi.sin()
}

/// Largest value of `f` on [a, b], unimodal there (golden-section search).
fn golden(f: impl Fn(f64) -> f64, mut a: f64, mut b: f64) -> f64 {
    let ratio = (5.0f64.sqrt() - 1.0) / 2.0;
    let (mut c, mut d) = (b - ratio * (b - a), a + ratio * (b - a));
    let (mut fc, mut fd) = (f(c), f(d));
    let mut best = fc.max(fd);
    for _ in 0..STEPS {
        if fc > fd {
            b = d;
            (d, fd) = (c, fc);
            c = b - ratio * (b - a);
            fc = f(c);
        } else {
            a = c;
            (c, fc) = (d, fd);
            d = a + ratio * (b - a);
            fd = f(d);
        }
        best = best.max(fc).max(fd);
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::INCH;

    fn tube(od: f64, wall: f64, radial: bool) -> Tube {
        Tube {
            radius: od / 2.0 * INCH,
            bore: (od / 2.0 - wall) * INCH,
            radial,
        }
    }

    fn met(od: f64, phi_deg: f64, beta: f64) -> Met {
        Met {
            radius: od / 2.0 * INCH,
            phi: phi_deg.to_radians(),
            beta,
            station: 0.0,
        }
    }

    fn inches(x: f64) -> f64 {
        x / INCH
    }

    /// Worked values of the reference programs (checks/README: closed form against ray marching).
    #[test]
    fn agrees_with_the_worked_values_of_the_reference() {
        let right = seat(tube(1.9, 0.145, false), &[met(2.375, 90.0, 0.0)]).expect("meets");
        assert!((inches(right.least) - 0.7125).abs() < 1e-4);
        assert!((inches(right.largest) - 1.1875).abs() < 1e-6);
        let radial = seat(tube(1.9, 0.145, true), &[met(2.375, 90.0, 0.0)]).expect("meets");
        assert!((inches(radial.least) - 0.8730).abs() < 1e-4);
        let equal = seat(tube(2.375, 0.154, true), &[met(2.375, 90.0, 0.0)]).expect("meets");
        assert!((inches(equal.least) - 0.5848).abs() < 1e-4);
        let oblique = seat(tube(2.875, 0.2, false), &[met(4.5, 60.0, 0.0)]).expect("meets");
        assert!((inches(oblique.least) - 1.7309).abs() < 1e-4);
        assert!((inches(oblique.largest) - 3.4280).abs() < 1e-4);
    }

    #[test]
    fn a_corner_takes_the_larger_of_two_pipes() {
        let mets = [met(2.375, 45.0, 0.0), met(1.9, 45.0, PI)];
        let corner = seat(tube(1.9, 0.145, false), &mets).expect("meets");
        assert!((inches(corner.least) - 0.7828).abs() < 1e-4);
        assert!((inches(corner.at_zero) - 2.6294).abs() < 1e-4);
        assert!((inches(corner.at_pi) - 2.2935).abs() < 1e-4);
    }

    #[test]
    fn a_branch_larger_than_its_main_misses() {
        assert!(seat(tube(2.375, 0.154, false), &[met(1.9, 90.0, 0.0)]).is_none());
    }
}
