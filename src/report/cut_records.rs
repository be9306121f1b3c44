//! Cut sheet as records: one row a piece, its joint's facts repeated.

use crate::measure::Length;
use crate::plan::{JointSource, PieceCut, PlannedJoint};

use super::blade::{CUT_SIDE, TRIM_SIDE};
use super::cope_kind::CopeKinds;
use super::figures::Figures;
use super::job::Job;
use super::joint_block::over_tape;
use super::piece_ends::piece_ends;
use super::planned_length::keep_from;
use super::table::{Cell, Column, Kind, Table};

/// Every piece of every joint; a joint bought uncut has one row without a piece.
pub(super) fn cut_records(job: Job<'_>, kinds: &CopeKinds) -> Table {
    let figures = Figures::of(job.week);
    let mut rows = Vec::new();
    for joint in &job.plan.joints {
        let start = rows.len();
        for piece in &joint.pieces {
            rows.push(row(job, kinds, joint, Some(piece)));
        }
        if rows.len() == start {
            rows.push(row(job, kinds, joint, None));
        }
    }
    Table {
        columns: vec![
            Column::new("joint", Kind::Number),
            Column::new("pipe", Kind::Words),
            Column::new("source", Kind::Words),
            Column::new("rack tag", Kind::Mark),
            figures.column("sold as", "nominal_length"),
            figures.column("joint length", "joint_length"),
            figures.column("near trim", "near_trim"),
            Column::named("blade at trim", "blade_side_of_trim_mark", Kind::Mark),
            Column::new("mark", Kind::Mark),
            Column::new("gate", Kind::Mark),
            Column::new("part", Kind::Mark),
            figures.column("saw length", "saw_length"),
            figures.column("throat", "throat"),
            Column::new("start end", Kind::Mark),
            Column::new("far end", Kind::Mark),
            figures.column("running mark", "running_mark"),
            Column::named("blade", "blade_side_of_running_mark", Kind::Mark),
            Column::new("over tape", Kind::Mark),
            Column::new("measure first", Kind::Mark),
            figures.column("floor", "floor"),
            Column::new("floor piece", Kind::Mark),
            Column::new("keep tag", Kind::Mark),
            figures.column("keep if the floor is from", "keep_if_floor_from"),
        ],
        rows,
    }
}

fn row(
    job: Job<'_>,
    kinds: &CopeKinds,
    joint: &PlannedJoint,
    piece: Option<&PieceCut>,
) -> Vec<Cell> {
    let figures = Figures::of(job.week);
    let mut cells = source(job, joint);
    match piece {
        Some(piece) => {
            let part = &job.take_off.parts[piece.part];
            let ends = piece_ends(job, kinds, piece);
            cells.extend([
                Cell::text(&piece.mark),
                part.gate
                    .map_or(Cell::Missing, |g| Cell::text(job.copy_mark(g, piece.copy))),
                Cell::text(&part.mark),
                figures.exact(piece.saw),
                figures.throat(ends.throat, piece.saw),
                Cell::text(&ends.words[0]),
                Cell::text(&ends.words[1]),
                figures.marked(piece.end),
                Cell::text(CUT_SIDE),
                yes_no(over_tape(job, piece.end)),
            ]);
        }
        None => cells.extend(std::iter::repeat_n(Cell::Missing, 10)),
    }
    cells.extend([
        yes_no(joint.measure_first),
        figures.left_cell(joint.floor, joint.kept),
        Cell::text(floor_word(joint)),
        joint.keep_tag.as_ref().map_or(Cell::Missing, Cell::text),
        keep_from(job.week, joint).map_or(Cell::Missing, |l| figures.exact(l)),
    ]);
    cells
}

fn source(job: Job<'_>, joint: &PlannedJoint) -> Vec<Cell> {
    let figures = Figures::of(job.week);
    let (source, tag, nominal) = match joint.source {
        JointSource::Bought(quote) => (
            "new",
            Cell::Missing,
            figures.exact(job.week.quotes[quote].nominal),
        ),
        JointSource::Rack(piece, _) => {
            ("rack", Cell::text(&job.week.rack[piece].tag), Cell::Missing)
        }
    };
    vec![
        Cell::count(joint.number),
        Cell::text(job.pipe(joint.pipe)),
        Cell::text(source),
        tag,
        nominal,
        figures.exact(joint.length),
        figures.exact(joint.near),
        if joint.near > Length::ZERO {
            Cell::text(TRIM_SIDE)
        } else {
            Cell::Missing
        },
    ]
}

fn floor_word(joint: &PlannedJoint) -> &'static str {
    if joint.kept {
        "keep"
    } else if joint.floor == Length::ZERO {
        "none"
    } else {
        "scrap"
    }
}

/// `yes` or `no`.
pub(super) fn yes_no(yes: bool) -> Cell {
    Cell::text(if yes { "yes" } else { "no" })
}
