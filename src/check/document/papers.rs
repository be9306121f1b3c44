//! `Papers`: the document and the verified answer in it, and the plain questions every judge asks of them.

use super::form::{Joint, Part, PlanFile, Source};
use crate::measure::{INCH, MM};
use crate::nest::{Pool, PoolAnswer, Problem, Whole};

/// A plan.json and what stands in its `nest`.
#[derive(Clone, Copy)]
pub(super) struct Papers<'a> {
    pub(super) plan: &'a PlanFile,
    pub(super) problem: &'a Problem,
    pub(super) answers: &'a [PoolAnswer],
    pub(super) whole: Option<&'a Whole>,
}

/// Half a cent, and what adding up floats may leave: a figure rounded once to cents.
pub(super) const HALF_CENT: f64 = 0.005_1;
/// Figures in cents that must be equal.
pub(super) const SAME: f64 = 0.000_5;

/// Whether two figures lie within so much of each other (NaN never does).
pub(super) fn within(a: f64, b: f64, apart: f64) -> bool {
    (a - b).abs() <= apart
}

/// 1/1000 cent as money.
pub(super) fn money(millicents: i128) -> f64 {
    wide(millicents) / 100_000.0
}

/// A whole number as geometry's number; sizes are judged first, so nothing is lost.
pub(super) fn wide(n: i128) -> f64 {
    use rust_decimal::prelude::ToPrimitive;
    n.to_f64().unwrap_or(f64::NAN)
}

/// A number of things.
pub(super) fn number(n: usize) -> i128 {
    i128::try_from(n).unwrap_or(i128::MAX)
}

impl<'a> Papers<'a> {
    /// Ticks of the document's unit.
    pub(super) fn unit(&self) -> f64 {
        if self.plan.units == "mm" { MM } else { INCH }
    }

    /// The pool of a pipe and its answer.
    pub(super) fn pool(&self, pipe: usize) -> Option<(&'a Pool, &'a PoolAnswer)> {
        let at = self.plan.outcomes.iter().position(|o| o.pipe == pipe)?;
        Some((self.problem.pools.get(at)?, self.answers.get(at)?))
    }

    /// Joints of a source and a pipe.
    pub(super) fn joints_of(&self, pipe: usize, source: Source) -> impl Iterator<Item = &'a Joint> {
        let joints = self.plan.joints.iter();
        joints.filter(move |j| j.pipe == pipe && j.source == source)
    }

    /// Pipe of a quote, told by the buy list.
    pub(super) fn pipe_of_quote(&self, quote: usize) -> Option<usize> {
        let line = self.plan.buy.iter().find(|b| b.quote == quote)?;
        Some(line.pipe)
    }

    /// First and last copy of a part; a plain part has one, numbered 0.
    pub(super) fn copies(&self, part: &Part) -> (u32, u32) {
        part.gate.map_or((0, 0), |g| (1, self.plan.gates[g].count))
    }

    /// `A3.2`: a gate's mark, with its copy when there are several.
    pub(super) fn copy_mark(&self, gate: usize, copy: u32) -> String {
        let gate = &self.plan.gates[gate];
        if gate.count > 1 {
            format!("{}.{copy}", gate.mark)
        } else {
            gate.mark.clone()
        }
    }

    /// `A3.2-V`: the mark that a copy's part prints.
    pub(super) fn part_mark(&self, part: &Part, copy: u32) -> String {
        let Some(gate) = part.gate else {
            return part.mark.clone();
        };
        let own = self.plan.gates[gate].mark.as_str();
        let tail = part.mark.strip_prefix(own).unwrap_or(&part.mark);
        self.copy_mark(gate, copy) + tail
    }

    /// Whether a gate is left out by name.
    pub(super) fn gate_left_out(&self, gate: usize) -> bool {
        self.plan.left_out.iter().any(|l| l.gate == Some(gate))
    }
}
