//! Bay lines of a gate, from the latch face and from the horizontal's throat, with near edges.

use crate::gate::{Frame, Role};
use crate::part::CopeEnd;

use super::figures::{Figures, degrees};
use super::gate_sheet::complete;
use super::hand_words::{hand, seen_side};
use super::job::Job;
use super::left_out::gate_out;
use super::table::{Cell, Column, Kind, Table};

/// One bay line with its running values, ticks.
struct BayLine {
    number: usize,
    stands: &'static str,
    from_latch: f64,
    /// Along the horizontal from its throat; a post stands at its ends, where no tape lies on it.
    from_throat: Option<f64>,
    /// Near edge of the vertical; a post's edges are the leaf's own ends.
    near_edge: Option<f64>,
    /// Lean of the diagonal in the bay after the line, from the vertical, radians.
    angle_after: Option<f64>,
}

/// x of the horizontal's throat at the latch end: what a tape on the horizontal touches.
fn throat_x(job: Job<'_>, frame: &Frame) -> f64 {
    let bottom = job
        .parts_of(frame.gate)
        .find(|(_, p)| p.role == Some(Role::BottomHorizontal));
    let axis_start = frame
        .members
        .iter()
        .find(|m| m.role == Role::BottomHorizontal)
        .map_or(0.0, |m| m.start.x);
    let setback = match bottom.map(|(_, p)| &p.ends[0]) {
        Some(CopeEnd::Coped(cope)) => cope.cut.s_short,
        _ => 0.0,
    };
    axis_start + setback
}

fn bay_lines(job: Job<'_>, frame: &Frame) -> Vec<BayLine> {
    let throat = throat_x(job, frame);
    let half = job
        .week
        .pipe(job.week.gates[frame.gate].pipes.vertical)
        .radius();
    let last = frame.bay_lines.len().saturating_sub(1);
    let lines = frame.bay_lines.iter().enumerate();
    lines
        .map(|(number, x)| {
            let inner = number > 0 && number < last;
            BayLine {
                number,
                stands: if inner { "V" } else { "end post" },
                from_latch: *x,
                from_throat: inner.then_some(x - throat),
                near_edge: inner.then_some(x - half),
                angle_after: frame
                    .bays
                    .get(number)
                    .map(|b| std::f64::consts::FRAC_PI_2 - b.alpha),
            }
        })
        .collect()
}

/// Bay lines for the floor.
pub(super) fn line_table(job: Job<'_>, frame: &Frame) -> Table {
    let figures = Figures::of(job.week);
    let throat = throat_x(job, frame);
    let rows = bay_lines(job, frame).into_iter().map(|line| {
        vec![
            Cell::text("[ ]"),
            Cell::count(line.number),
            Cell::text(line.stands),
            figures.geometric(line.from_latch),
            figures.maybe(line.from_throat),
            figures.maybe(line.near_edge),
            figures.maybe(line.near_edge.map(|x| x - throat)),
            line.angle_after
                .map_or(Cell::Missing, |a| Cell::text(degrees(a))),
        ]
    });
    Table {
        columns: vec![
            Column::new("", Kind::Mark),
            Column::new("bay line", Kind::Number),
            Column::new("at", Kind::Mark),
            figures.column("axis from latch face", "a"),
            figures.column("axis from throat", "b"),
            figures.column("NEAR EDGE from latch face", "c"),
            figures.column("NEAR EDGE from throat", "d"),
            Column::new("lean after", Kind::Figure),
        ],
        rows: rows.collect(),
    }
}

/// One row per bay line of every gate order, the gate's facts repeated.
pub(super) fn gate_records(job: Job<'_>) -> Table {
    let figures = Figures::of(job.week);
    let mut rows = Vec::new();
    let frames = job.take_off.frames.iter();
    for frame in frames.filter(|f| !gate_out(&job.plan.left_out, f.gate)) {
        let throat = throat_x(job, frame);
        for line in bay_lines(job, frame) {
            let mut row = gate_cells(job, frame);
            row.extend([
                Cell::count(line.number),
                Cell::text(line.stands),
                figures.geometric(line.from_latch),
                figures.maybe(line.from_throat),
                figures.maybe(line.near_edge),
                figures.maybe(line.near_edge.map(|x| x - throat)),
                line.angle_after.map_or(Cell::Missing, |a| figures.angle(a)),
            ]);
            rows.push(row);
        }
    }
    Table {
        columns: columns(figures),
        rows,
    }
}

fn gate_cells(job: Job<'_>, frame: &Frame) -> Vec<Cell> {
    let figures = Figures::of(job.week);
    let gate = &job.week.gates[frame.gate];
    let weight = super::gate_weight::weight(job, frame.gate);
    vec![
        Cell::text(&gate.mark),
        Cell::count(gate.count),
        figures.exact(gate.opening),
        figures.geometric(frame.height),
        figures.geometric(frame.leaf),
        figures.geometric(gate.tail),
        Cell::count(frame.bays.len()),
        figures.geometric(frame.check_measure),
        weight
            .as_ref()
            .map_or(Cell::Missing, |w| figures.weight(w.total)),
        weight
            .as_ref()
            .map_or(Cell::Missing, |w| figures.geometric(w.centre_of_gravity.x)),
        Cell::text(hand(gate.hand)),
        Cell::text(seen_side(gate)),
        figures.geometric(frame.rollers.front_closed),
        figures.geometric(frame.rollers.front_open),
        figures.geometric(frame.rollers.spacing),
        gate.due
            .map_or(Cell::Missing, |due| Cell::text(due.to_string())),
        Cell::text(complete(job, frame.gate)),
        Cell::text(&gate.note),
    ]
}

fn columns(figures: Figures<'_>) -> Vec<Column> {
    vec![
        Column::new("gate", Kind::Mark),
        Column::new("count", Kind::Number),
        figures.column("opening", "opening"),
        figures.column("height", "height"),
        figures.column("leaf", "leaf"),
        figures.column("tail", "tail"),
        Column::new("bays", Kind::Number),
        figures.column("check measure", "check_measure"),
        figures.weight_column("lifting weight", "lifting_weight"),
        figures.column("centre of gravity", "centre_of_gravity_from_latch_face"),
        Column::new("hand", Kind::Mark),
        Column::new("seen from", Kind::Mark),
        figures.column("front roller closed", "front_roller_closed"),
        figures.column("front roller open", "front_roller_open"),
        figures.column("rear roller behind", "rear_roller_behind"),
        Column::new("due", Kind::Mark),
        Column::named("complete after", "complete_after", Kind::Words),
        Column::new("note", Kind::Words),
        Column::new("bay line", Kind::Number),
        Column::new("stands", Kind::Words),
        figures.column("axis from latch face", "axis_from_latch_face"),
        figures.column("axis from throat", "axis_from_throat"),
        figures.column("near edge from latch face", "near_edge_from_latch_face"),
        figures.column("near edge from throat", "near_edge_from_throat"),
        Column::named("lean after", "lean_after_deg", Kind::Number),
    ]
}
