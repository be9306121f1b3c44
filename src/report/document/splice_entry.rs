//! Spliced horizontals.

use serde::Serialize;

use crate::plan::{Splice, SplicedLine};
use crate::splice::{ReachForm, WindowClass};

use super::super::figures::Figures;
use super::super::job::Job;
use super::super::splice_name::splice_name;
use super::super::splice_sheet::line_mark;
use super::quantity::{Exact, Geometric, exact, geometric, rounded};

/// One spliced horizontal of one gate copy.
#[derive(Serialize)]
pub(in crate::report) struct LineEntry {
    mark: String,
    part: usize,
    copy: u32,
    serial: u32,
    pieces: Vec<Exact>,
    gap: Geometric,
    form: ReachForm,
    splices: Vec<SpliceEntry>,
}

/// One splice.
#[derive(Serialize)]
pub(super) struct SpliceEntry {
    /// The two pieces it joins: `A4-HB/1+2`.
    name: String,
    from_long_point: Geometric,
    /// None on a sway brace, which is measured along itself.
    from_latch_face: Option<Geometric>,
    bay: u32,
    from_bay_line_before: Geometric,
    to_bay_line_after: Geometric,
    window: [Exact; 2],
    roller_bay: bool,
    tolerated: bool,
    class: WindowClass,
    rel: Option<f64>,
}

impl LineEntry {
    /// The same line under the mark its pieces print.
    pub(in crate::report) fn marked(self, mark: String) -> LineEntry {
        let named = self.splices.into_iter().enumerate();
        let named = named.map(|(i, splice)| SpliceEntry {
            name: splice_name(&mark, i),
            ..splice
        });
        LineEntry {
            splices: named.collect(),
            mark,
            ..self
        }
    }
}

/// Every spliced horizontal.
pub(super) fn lines(job: Job<'_>) -> Vec<LineEntry> {
    let figures = Figures::of(job.week);
    let lines = job.plan.spliced.iter();
    lines
        .map(|line| entry(figures, line).marked(line_mark(job, line)))
        .collect()
}

/// One line, without the mark its pieces print.
pub(in crate::report) fn entry(figures: Figures<'_>, line: &SplicedLine) -> LineEntry {
    LineEntry {
        mark: String::new(),
        part: line.part,
        copy: line.copy,
        serial: line.serial,
        pieces: line.pieces.iter().map(|p| exact(figures, *p)).collect(),
        gap: geometric(figures, line.gap),
        form: line.form,
        splices: line.splices.iter().map(|s| splice(figures, s)).collect(),
    }
}

fn splice(figures: Figures<'_>, s: &Splice) -> SpliceEntry {
    SpliceEntry {
        name: String::new(),
        from_long_point: geometric(figures, s.centre),
        from_latch_face: s.x.map(|x| geometric(figures, x)),
        bay: s.bay,
        from_bay_line_before: geometric(figures, s.from_latch_side),
        to_bay_line_after: geometric(figures, s.from_tail_side),
        window: [exact(figures, s.window.0), exact(figures, s.window.1)],
        roller_bay: s.roller_bay,
        tolerated: s.tolerated,
        class: s.class,
        rel: s.rel.and_then(|r| rounded(r, 4)),
    }
}
