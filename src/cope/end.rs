//! One coped end: the pipes it meets and the cut that seats it.

use serde::Serialize;

/// The pipe being cut.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Branch {
    /// Outer radius r.
    pub radius: f64,
    /// Inner radius ri.
    pub bore: f64,
}

/// A pipe the end meets.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Main {
    /// Outer radius R.
    pub radius: f64,
    /// Angle φ between the axes, radians, 0 < φ < π.
    pub phi: f64,
    /// Clock angle β of its plane on the branch, radians: θ − β is the local angle, 0 on the acute
    /// side. In a gate's plane it is 0 or π.
    pub beta: f64,
    /// Offset e of the axes, positive toward θ = β + 90°.
    pub offset: f64,
    /// Station z of its common perpendicular along the branch axis, from the end's node.
    pub station: f64,
}

/// How the profile is cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum Method {
    /// True saddle: outside profile s(r, θ).
    TrueSaddle,
    /// Radial cut: seat, the largest s over ri ≤ ρ ≤ r.
    Radial,
}

/// The extremes of an end's setback curve, measured from the node along the branch axis.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct EndCut {
    /// Least setback: the long point lies here.
    pub s_long: f64,
    /// Where, radians in 0..2π (the smaller of two symmetric ones).
    pub theta_long: f64,
    /// Largest setback: the throat lies here.
    pub s_short: f64,
    /// Where, radians in 0..2π.
    pub theta_short: f64,
    /// Cutback = s_short − s_long.
    pub cutback: f64,
    /// Sharp feather edge at the long point (r = R, right angles included).
    pub feather: bool,
}

/// Why an end cannot be coped.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub enum CopeFault {
    /// Some surface line misses every pipe the end meets (single main: r + |e| > R).
    Misses {
        /// A surface line that misses, radians.
        theta: f64,
    },
    /// The numbers are no pipe on a pipe: not finite, a radius not over 0, a bore outside `0..r`, or
    /// axes that run parallel.
    NoPipe,
}

impl Branch {
    /// Whether the numbers can be a pipe.
    pub(super) fn is_real(&self) -> bool {
        let (r, ri) = (self.radius, self.bore);
        r > 0.0 && r < LARGEST && (0.0..r).contains(&ri)
    }
}

impl Main {
    /// Whether the numbers can be a pipe met at an angle.
    pub(super) fn is_real(&self) -> bool {
        self.radius > 0.0
            && self.radius < LARGEST
            && self.phi > LEAST_ANGLE
            && self.phi < std::f64::consts::PI - LEAST_ANGLE
            && self.beta.abs() < LARGEST
            && self.offset.abs() < LARGEST
            && self.station.abs() < LARGEST
    }
}

/// Past this the squares lose all meaning (2^40 ticks is the longest `Length`).
const LARGEST: f64 = 1e12;
/// Flatter than this (radians) the pipes run side by side.
const LEAST_ANGLE: f64 = 1e-6;
