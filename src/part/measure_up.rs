//! The lengths of one part: long point, throat, surface lines, ends.

use std::f64::consts::PI;

use super::{Cope, CopeEnd};
use crate::cope::{Branch, CopeFault, Main, Method, end_cut, setback};
use crate::gate::{End, Member, branch_of, mains_of, method_of};
use crate::order::Week;

/// Lengths of a member as cut, ticks.
pub(super) struct Measured {
    /// Axis less both least setbacks.
    pub long: f64,
    /// Axis less both largest setbacks.
    pub throat: f64,
    /// Surface line at the scribe line's own clock, θ = 0 (a diagonal's under line).
    pub at_zero: f64,
    /// Surface line at θ = π (a diagonal's top line).
    pub at_pi: f64,
    /// Both ends.
    pub ends: [CopeEnd; 2],
}

/// Measures a member.
///
/// # Errors
/// The fault of the first end that cannot be coped.
pub(super) fn measure(week: &Week, member: &Member) -> Result<Measured, CopeFault> {
    let branch = branch_of(week, member.pipe);
    let method = method_of(member.cut);
    let [start, end] = &member.ends;
    let mut cuts = [
        cut(week, &branch, method, start)?,
        cut(week, &branch, method, end)?,
    ];
    let total = |f: fn(&Cut) -> f64| member.axis - cuts.iter().map(f).sum::<f64>();
    let (long, throat) = (
        total(|c| c.cope.as_ref().map_or(0.0, |k| k.cut.s_long)),
        total(|c| c.cope.as_ref().map_or(0.0, |k| k.cut.s_short)),
    );
    let (at_zero, at_pi) = (
        total(|c| c.cope.as_ref().map_or(0.0, |k| k.at_zero)),
        total(|c| c.cope.as_ref().map_or(0.0, |k| k.at_pi)),
    );
    let blunted = total(|c| c.blunt);
    for cope in cuts.iter_mut().filter_map(|c| c.cope.as_mut()) {
        cope.blunted = cope.cut.feather.then_some(blunted);
    }
    Ok(Measured {
        long,
        throat,
        at_zero,
        at_pi,
        ends: cuts.map(|c| match c.cope {
            Some(cope) => CopeEnd::Coped(cope),
            None => CopeEnd::Square { capped: c.capped },
        }),
    })
}

/// One end being cut.
struct Cut {
    cope: Option<Cope>,
    capped: bool,
    /// Least setback once a feather edge is ground back to full wall.
    blunt: f64,
}

fn cut(week: &Week, branch: &Branch, method: Method, end: &End) -> Result<Cut, CopeFault> {
    if end.meets.is_empty() {
        return Ok(Cut {
            cope: None,
            capped: end.capped,
            blunt: 0.0,
        });
    }
    let mains = mains_of(week, end);
    let cut = end_cut(branch, &mains, method)?;
    let line = |theta| setback(branch, &mains, method, theta).ok_or(CopeFault::Misses { theta });
    Ok(Cut {
        blunt: if cut.feather {
            full_wall(branch, &mains, cut.theta_long).unwrap_or(cut.s_long)
        } else {
            cut.s_long
        },
        capped: false,
        cope: Some(Cope {
            meets: end.meets.clone(),
            at_zero: line(0.0)?,
            at_pi: line(PI)?,
            cut,
            blunted: None,
        }),
    })
}

/// Setback of the bore's line: where the edge at `theta` first has the full wall.
fn full_wall(branch: &Branch, mains: &[Main], theta: f64) -> Option<f64> {
    let bore = Branch {
        radius: branch.bore,
        bore: 0.0,
    };
    setback(&bore, mains, Method::TrueSaddle, theta)
}
