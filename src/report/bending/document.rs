//! The view of one gate's windows as JSON: the gate as in plan.json, each horizontal with its windows, and the
//! splices that the plan puts there.

use serde::Serialize;

use super::Bending;
use crate::order::Fault;
use crate::report::document::gate_entry::{GateEntry, gate};
use crate::report::document::opening::{Opening, opening};
use crate::report::document::quantity::{Exact, exact, rounded};
use crate::report::document::splice_entry::{LineEntry, entry};
use crate::report::figures::Figures;
use crate::report::job::Job;
use crate::report::splice_sheet::line_mark;
use crate::splice::{ReachForm, SpliceLine, Window, WindowClass};
use crate::statics::Line;

#[derive(Serialize)]
struct Document<'a> {
    #[serde(flatten)]
    opening: Opening<'a>,
    gate: GateEntry<'a>,
    form: ReachForm,
    lines: Vec<Horizontal>,
    notices: &'a [Fault],
}

/// One horizontal.
#[derive(Serialize)]
struct Horizontal {
    mark: String,
    horizontal: Line,
    long_point: Exact,
    /// Station of the latch-end long point from the latch face; windows are measured from the long point.
    latch_end: Exact,
    fewest: u32,
    most: u32,
    least_piece: Exact,
    windows: Vec<WindowEntry>,
    spliced: Vec<LineEntry>,
}

/// Where the centre of a splice may stand, from the latch-end long point.
#[derive(Serialize)]
struct WindowEntry {
    bay: u32,
    from: Exact,
    to: Exact,
    roller_bay: bool,
    tolerated: bool,
    class: WindowClass,
    /// Highest stress over it as a share of the gate's peak.
    rel: Option<f64>,
}

/// The document, indented, ending in a line break.
///
/// # Errors
/// When a figure cannot be written as JSON, which no gate that can be made holds.
pub fn document(view: &Bending<'_>, notices: &[Fault]) -> Result<String, serde_json::Error> {
    let lines = [Line::Bottom, Line::Top].into_iter();
    let lines = lines.filter_map(|which| Some(horizontal(view, which, view.line(which)?)));
    let document = Document {
        opening: opening(view.week, "longpoint splice"),
        gate: gate(view.week, view.take_off, view.order, Some(view.frame)),
        form: view.set.form,
        lines: lines.collect(),
        notices,
    };
    Ok(serde_json::to_string_pretty(&document)? + "\n")
}

fn horizontal(view: &Bending<'_>, which: Line, line: &SpliceLine) -> Horizontal {
    let figures = Figures::of(view.week);
    let made = view.splices.iter().filter(|s| s.part == line.part);
    let spliced = made.map(|s| {
        let mark = view.plan.map(|checked| line_mark(Job::of(checked), s));
        entry(figures, s).marked(mark.unwrap_or_default())
    });
    Horizontal {
        mark: view.take_off.parts[line.part].mark.clone(),
        horizontal: which,
        long_point: exact(figures, line.long),
        latch_end: exact(figures, line.x_long),
        fewest: line.least,
        most: line.most,
        least_piece: exact(figures, line.least_piece),
        windows: line
            .windows
            .iter()
            .map(|w| window(view, which, line, w))
            .collect(),
        spliced: spliced.collect(),
    }
}

fn window(view: &Bending<'_>, which: Line, line: &SpliceLine, window: &Window) -> WindowEntry {
    let figures = Figures::of(view.week);
    WindowEntry {
        bay: window.bay,
        from: exact(figures, window.lo),
        to: exact(figures, window.hi),
        roller_bay: window.roller_bay,
        tolerated: window.tolerated,
        class: window.class,
        rel: super::words::highest(view, which, line, window).and_then(|r| rounded(r, 4)),
    }
}
