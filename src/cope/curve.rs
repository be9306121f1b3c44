//! The setback curve of one end: every surface line, either way of cutting.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use super::roots::roots_in;
use super::{Branch, Main, Method};

/// How far outside a main a line may lie, as a part of R, and still count as touching it: float
/// noise of r = R, where the root is clamped to 0.
const TOUCH: f64 = 1e-9;

/// Setback at the clock angle `theta` (radians), the largest over `mains`, measured from the end's
/// node along the branch axis. `None`: the outside surface line there misses every main, or the
/// numbers are no pipes.
///
/// Each main is `z + [ρ cos t cos φ + sqrt(R² − (ρ sin t − e)²)] / sin φ` with `t = θ − β`, at ρ = r
/// for a true saddle and at its largest over ri ≤ ρ ≤ r for a radial cut.
pub fn setback(branch: &Branch, mains: &[Main], method: Method, theta: f64) -> Option<f64> {
    if !branch.is_real() || !theta.is_finite() || !outside_hits(branch, mains, theta) {
        return None;
    }
    largest(branch, mains, method, theta)
}

/// Whether the outside surface line at `theta` meets any main.
pub(super) fn outside_hits(branch: &Branch, mains: &[Main], theta: f64) -> bool {
    mains
        .iter()
        .any(|m| m.is_real() && saddle(m, branch.radius, theta).is_some())
}

/// Largest setback over mains, without asking the outside line to hit.
pub(super) fn largest(b: &Branch, mains: &[Main], method: Method, theta: f64) -> Option<f64> {
    mains
        .iter()
        .filter(|m| m.is_real())
        .filter_map(|m| one(b, m, method, theta))
        .max_by(f64::total_cmp)
}

/// Setback of one main; `None` where it is missed.
pub(super) fn one(branch: &Branch, main: &Main, method: Method, theta: f64) -> Option<f64> {
    match method {
        Method::TrueSaddle => saddle(main, branch.radius, theta),
        Method::Radial => seat(main, branch, theta),
    }
}

/// Setback of the line at radius `rho`: the true saddle's at ρ = r.
pub(super) fn saddle(main: &Main, rho: f64, theta: f64) -> Option<f64> {
    let (sin_phi, cos_phi) = trig(main.phi);
    let (sin_t, cos_t) = trig(theta - main.beta);
    let root = reach(main.radius, rho * sin_t - main.offset)?;
    Some(main.station + (rho * cos_t * cos_phi + root) / sin_phi)
}

/// `sqrt(R² − y²)`, clamped at a touching line; `None` beyond.
fn reach(radius: f64, y: f64) -> Option<f64> {
    let square = (radius - y) * (radius + y);
    if square >= 0.0 {
        Some(square.sqrt())
    } else if y.abs() <= radius * (1.0 + TOUCH) {
        Some(0.0)
    } else {
        None
    }
}

/// Seat of a radial cut: the largest setback through the wall. The setback is concave in ρ, so it
/// is at an end of the wall or at the one stationary radius `(R c/√(c² + σ²) · sgn σ + e)/σ`, with
/// `c = cos t cos φ` and `σ = sin t`.
fn seat(main: &Main, branch: &Branch, theta: f64) -> Option<f64> {
    let (sin_t, cos_t) = trig(theta - main.beta);
    let (mut lo, mut hi) = (branch.bore, branch.radius);
    if sin_t == 0.0 {
        return [lo, hi]
            .into_iter()
            .filter_map(|rho| saddle(main, rho, theta))
            .max_by(f64::total_cmp);
    }
    let edges = [
        (main.offset - main.radius) / sin_t,
        (main.offset + main.radius) / sin_t,
    ];
    lo = lo.max(edges[0].min(edges[1]));
    hi = hi.min(edges[0].max(edges[1]));
    if lo > hi {
        // Only a touching line may be this narrow.
        return saddle(main, branch.bore, theta).or_else(|| saddle(main, branch.radius, theta));
    }
    let c = cos_t * trig(main.phi).1;
    let y = main.radius * c * sin_t.signum() / c.hypot(sin_t);
    let still = ((y + main.offset) / sin_t).max(lo).min(hi);
    [lo, still, hi]
        .into_iter()
        .filter_map(|rho| saddle(main, rho, theta))
        .max_by(f64::total_cmp)
}

/// Clock angles in `0..2π` between which this main's curve only rises or only falls (some may be
/// neither a crest nor a foot: harmless).
pub(super) fn turning_lines(branch: &Branch, main: &Main, method: Method) -> Vec<f64> {
    let mut local: Vec<f64> = (0..4).map(|k| f64::from(k) * FRAC_PI_2).collect();
    turn_at(main, branch.radius, &mut local);
    if method == Method::Radial {
        if branch.bore > 0.0 {
            turn_at(main, branch.bore, &mut local);
        }
        turn_inside(main, &mut local);
    }
    local.into_iter().map(|t| clock(t + main.beta)).collect()
}

/// Turning lines of the surface at radius `rho`, and the lines that just touch the main.
fn turn_at(main: &Main, rho: f64, out: &mut Vec<f64>) {
    let (r, e) = (main.radius, main.offset);
    for edge in [(e + r) / rho, (e - r) / rho] {
        if edge.abs() <= 1.0 + TOUCH {
            push_sine(edge, out);
        }
    }
    let (sin_phi, cos_phi) = trig(main.phi);
    if e == 0.0 {
        let cos_t = -cos_phi / sin_phi * ((r - rho) * (r + rho)).max(0.0).sqrt() / rho;
        if cos_t.abs() <= 1.0 {
            let t = if cos_t == 0.0 {
                FRAC_PI_2
            } else {
                cos_t.acos()
            };
            out.extend([t, -t]);
        }
        return;
    }
    // sin²t cos²φ (R² − y²) = y² cos²t with y = ρ sin t − e, a quartic in sin t; lengths over ρ.
    let (k, big, off) = (cos_phi * cos_phi, r / rho, e / rho);
    let quartic = [
        -off * off,
        2.0 * off,
        k * big * big + (1.0 - k) * off * off - 1.0,
        -2.0 * (1.0 - k) * off,
        1.0 - k,
    ];
    for s in roots_in(&quartic, -1.0, 1.0) {
        push_sine(s, out);
    }
}

/// Turning line of the stationary radius inside the wall: there the seat is
/// `e cos φ cot t + R sqrt(1 + cos²φ cot² t)`, least at `cos φ cot t = −e/√(R² − e²)`.
fn turn_inside(main: &Main, out: &mut Vec<f64>) {
    let (r, e) = (main.radius, main.offset);
    let cos_phi = trig(main.phi).1;
    if cos_phi == 0.0 || e.abs() >= r {
        return;
    }
    let cot = -e / ((r - e) * (r + e)).sqrt() / cos_phi;
    let t = 1.0_f64.atan2(cot);
    out.extend([t, t + PI]);
}

/// Both angles of a sine, clamped to ±1.
fn push_sine(s: f64, out: &mut Vec<f64>) {
    let t = s.clamp(-1.0, 1.0).asin();
    out.extend([t, PI - t]);
}

/// An angle brought into `0..2π`; noise just under a full turn is 0.
pub(super) fn clock(t: f64) -> f64 {
    let t = t.rem_euclid(TAU);
    if TAU - t < 1e-12 { 0.0 } else { t }
}

/// Sine and cosine, exact at right angles.
fn trig(angle: f64) -> (f64, f64) {
    let (s, c) = angle.sin_cos();
    if c.abs() < 1e-14 {
        (s.signum(), 0.0)
    } else if s.abs() < 1e-14 {
        (0.0, c.signum())
    } else {
        (s, c)
    }
}
