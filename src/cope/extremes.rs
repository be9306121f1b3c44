//! Long point and throat of an end: the exact least and largest setback.

use std::f64::consts::TAU;

use super::curve::{clock, largest, one, outside_hits, saddle, turning_lines};
use super::roots::bisect;
use super::{Branch, CopeFault, EndCut, Main, Method};

/// Two setbacks this close (as a part of the pipes' radii) are one; the smaller clock angle is named.
const TIE: f64 = 1e-10;

/// A surface line and its setback.
type Line = (f64, f64);

/// The extremes of an end's setback curve (see the room's header for the method).
///
/// # Errors
/// [`CopeFault::Misses`] when some outside surface line meets none of the mains (also when there is
/// no main), [`CopeFault::NoPipe`] when the numbers are not pipes.
pub fn end_cut(branch: &Branch, mains: &[Main], method: Method) -> Result<EndCut, CopeFault> {
    if !branch.is_real() || !mains.iter().all(Main::is_real) {
        return Err(CopeFault::NoPipe);
    }
    let (mut least, mut most) = (Vec::new(), Vec::new());
    for span in spans(branch, mains, method) {
        let mid = 0.5 * (span[0] + span[1]);
        if !outside_hits(branch, mains, mid) {
            return Err(CopeFault::Misses { theta: clock(mid) });
        }
        let rising = Rising::on(branch, mains, method, span);
        least.push(rising.lowest(branch, method, span));
        most.extend(rising.ends(branch, method, span));
    }
    let scale = mains.iter().map(|m| m.radius).fold(branch.radius, f64::max);
    let tie = TIE * scale;
    let long = pick(&least, tie, |a, b| a < b).ok_or(CopeFault::Misses { theta: 0.0 })?;
    let short = pick(&most, tie, |a, b| a > b).ok_or(CopeFault::Misses { theta: 0.0 })?;
    if !long.1.is_finite() || !short.1.is_finite() {
        return Err(CopeFault::NoPipe);
    }
    Ok(EndCut {
        s_long: long.1,
        theta_long: long.0,
        s_short: short.1,
        theta_short: short.0,
        cutback: short.1 - long.1,
        feather: method == Method::TrueSaddle && is_feather(branch, mains, long, tie),
    })
}

/// Neighbouring turning lines of all mains, once round.
pub(super) fn spans(branch: &Branch, mains: &[Main], method: Method) -> Vec<[f64; 2]> {
    let mut lines: Vec<f64> = mains
        .iter()
        .flat_map(|m| turning_lines(branch, m, method))
        .collect();
    lines.sort_by(f64::total_cmp);
    lines.dedup_by(|a, b| (*a - *b).abs() < 1e-12);
    let Some(&first) = lines.first() else {
        return Vec::new();
    };
    lines.push(first + TAU);
    lines.windows(2).map(|w| [w[0], w[1]]).collect()
}

/// The mains met inside one span, apart by whether their curve rises or falls over it. Mains missed
/// there are left out, so a value at the span's end is the limit from inside.
struct Rising {
    up: Vec<Main>,
    down: Vec<Main>,
}

impl Rising {
    fn on(branch: &Branch, mains: &[Main], method: Method, [a, b]: [f64; 2]) -> Rising {
        let mid = 0.5 * (a + b);
        let met = mains
            .iter()
            .filter_map(|m| Some((m, one(branch, m, method, mid)?)));
        let (up, down): (Vec<_>, Vec<_>) = met.partition(|(m, at_mid)| {
            let from = one(branch, m, method, a).unwrap_or(*at_mid);
            let to = one(branch, m, method, b).unwrap_or(*at_mid);
            from <= to
        });
        let mains_of = |v: Vec<(&Main, f64)>| v.into_iter().map(|(m, _)| *m).collect();
        Rising {
            up: mains_of(up),
            down: mains_of(down),
        }
    }

    /// The lowest point of the larger curve over the span: an end, or the one crossing.
    fn lowest(&self, branch: &Branch, method: Method, [a, b]: [f64; 2]) -> Line {
        let low = f64::NEG_INFINITY;
        let up = |t| largest(branch, &self.up, method, t).unwrap_or(low);
        let down = |t| largest(branch, &self.down, method, t).unwrap_or(low);
        let theta = if up(a) >= down(a) {
            a
        } else if down(b) >= up(b) {
            b
        } else {
            bisect(|t| up(t) - down(t), a, b).unwrap_or(0.5 * (a + b))
        };
        (theta, up(theta).max(down(theta)))
    }

    /// The larger curve at both ends of the span.
    fn ends(&self, branch: &Branch, method: Method, span: [f64; 2]) -> Vec<Line> {
        let met: Vec<Main> = self.up.iter().chain(&self.down).copied().collect();
        span.into_iter()
            .filter_map(|t| Some((t, largest(branch, &met, method, t)?)))
            .collect()
    }
}

/// The best line; among ties the smallest clock angle.
fn pick(lines: &[Line], tie: f64, better: impl Fn(f64, f64) -> bool) -> Option<Line> {
    let best = lines
        .iter()
        .map(|l| l.1)
        .reduce(|a, b| if better(b, a) { b } else { a })?;
    lines
        .iter()
        .filter(|l| (l.1 - best).abs() <= tie)
        .map(|l| (clock(l.0), best))
        .min_by(|a, b| a.0.total_cmp(&b.0))
}

/// A sharp edge: the long point lies where a main as large as the branch is just touched.
fn is_feather(branch: &Branch, mains: &[Main], long: Line, tie: f64) -> bool {
    mains.iter().any(|m| {
        let y = branch.radius * (long.0 - m.beta).sin() - m.offset;
        let touches = (y.abs() - m.radius).abs() <= 1e-9 * m.radius;
        let governs = saddle(m, branch.radius, long.0).is_some_and(|s| s >= long.1 - tie);
        touches && governs
    })
}
