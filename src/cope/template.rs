//! Wrap template: the curve unrolled, to be wrapped round the pipe and scribed.

use std::f64::consts::TAU;

use serde::Serialize;

use super::{Branch, CopeFault, EndCut, Main, Method, end_cut, setback};

/// One ordinate of a template.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Ordinate {
    /// Clock angle from the scribe line, radians.
    pub theta: f64,
    /// Place along the wrapped edge: (r + paper/2) θ.
    pub x: f64,
    /// Height from the throat toward the tip, ≥ 0; the long point is the highest.
    pub height: f64,
}

/// A template: ordinates once round, the first repeated at the overlap.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Template {
    /// Length of the wrapped edge, 2π (r + paper/2): the check bar.
    pub girth: f64,
    /// The cut it draws.
    pub cut: EndCut,
    /// Ordinates in order of θ, both ends of the turn included.
    pub ordinates: Vec<Ordinate>,
}

/// The wrap template of an end in `steps` equal steps (at least 4), for paper of the given
/// thickness, opened by `fit_gap` (added to every setback: the piece gets shorter, its shape stays).
///
/// # Errors
/// As [`end_cut`].
pub fn wrap_template(
    branch: &Branch,
    mains: &[Main],
    method: Method,
    paper: f64,
    fit_gap: f64,
    steps: u32,
) -> Result<Template, CopeFault> {
    let mut cut = end_cut(branch, mains, method)?;
    let radius = branch.radius + 0.5 * paper;
    let steps = steps.max(4);
    let ordinates = (0..=steps)
        .map(|i| {
            let theta = TAU * f64::from(i) / f64::from(steps);
            let s = setback(branch, mains, method, theta).ok_or(CopeFault::Misses { theta })?;
            Ok(Ordinate {
                theta,
                x: radius * theta,
                height: cut.s_short - s,
            })
        })
        .collect::<Result<_, _>>()?;
    cut.s_long += fit_gap;
    cut.s_short += fit_gap;
    Ok(Template {
        girth: TAU * radius,
        cut,
        ordinates,
    })
}
