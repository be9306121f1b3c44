//! Cope list by station: each kind of coped end, what it meets, cutback, and where it is used with
//! its clock on the part's one scribe line.

use crate::gate::Role;
use crate::order::CutMethod;

use super::cope_kind::{CopeKind, CopeKinds, Station, acute, clock};
use super::cope_scribe::{SCRIBE_AT, Scribe};
use super::counted::counted;
use super::figures::{Figures, degrees};
use super::job::{Job, role_name};
use super::sheet::{Block, Sheet};
use super::table::{Cell, Column, Kind, Table};

/// The cope list of the week.
pub(super) fn cope_sheet(job: Job<'_>, kinds: &CopeKinds) -> Sheet {
    let mut blocks = vec![Block::Points(vec![
        "Clock: where on the branch the acute side of the cope lies, degrees from the part's \
         scribe line, the same line for both ends. Scribe line: vertical and end post toward the \
         tail, horizontal up, diagonal underside."
            .to_owned(),
        SCRIBE_AT.to_owned(),
        "Cutback: long point back to throat, along the branch.".to_owned(),
    ])];
    for station in Station::ALL {
        let kinds = kinds.kinds.iter();
        let ours = |k: &&CopeKind| uses(job, k).next().is_some();
        let mine: Vec<&CopeKind> = kinds
            .filter(|k| k.station == station)
            .filter(ours)
            .collect();
        if mine.is_empty() {
            continue;
        }
        blocks.push(Block::Group {
            title: format!("STATION: {}", station.name().to_uppercase()),
            aside: job.heading().strip(),
            blocks: mine.iter().flat_map(|k| kind_blocks(job, k)).collect(),
        });
    }
    Sheet {
        stem: "copes".to_owned(),
        title: "COPES".to_owned(),
        heading: job.heading(),
        blocks,
        records: Some(records(job, kinds)),
    }
}

fn kind_blocks(job: Job<'_>, kind: &CopeKind) -> Vec<Block> {
    let figures = Figures::of(job.week);
    let count: u32 = uses(job, kind).map(|u| u.2).sum();
    let mut words = format!(
        "COPE {}: {} of {} {}; {}; cutback {}",
        kind.number,
        counted(count, "end", "ends"),
        job.pipe(kind.branch),
        kind.onto(job.week),
        method(kind.cut),
        figures.spoken_of(kind.cutback),
    );
    if kind.feather {
        words.push_str("; feather edge at the long point");
    }
    vec![
        Block::Note(words),
        Block::Table(use_table(job, kind)),
        Block::Note(String::new()),
    ]
}

/// Uses as (part index, end, ends to cut in the week) in this shop: what the customer provides he copes
/// himself, by his own sheet.
fn uses(job: Job<'_>, kind: &CopeKind) -> impl Iterator<Item = (usize, usize, u32)> {
    let part = move |index: &usize| &job.take_off.parts[*index];
    kind.uses
        .iter()
        .filter(move |(index, _)| part(index).ours)
        .map(move |(index, end)| (*index, *end, part(index).count))
}

/// One row a part: its two ends on one row when they are clocked alike.
fn use_table(job: Job<'_>, kind: &CopeKind) -> Table {
    let mut lines: Vec<(usize, &str, String, String, u32)> = Vec::new();
    for (index, end, count) in uses(job, kind) {
        let part = &job.take_off.parts[index];
        let (clocks, scribe) = (clocks(part, end), scribe(kind, part, end));
        match lines.last_mut() {
            Some(last) if last.0 == index && last.2 == clocks => {
                last.1 = "both";
                last.4 += count;
            }
            _ => lines.push((index, end_name(part.role, end), clocks, scribe, count)),
        }
    }
    let rows = lines
        .into_iter()
        .map(|(index, end, clocks, scribe, count)| {
            vec![
                Cell::text("[ ]"),
                Cell::text(&job.take_off.parts[index].mark),
                Cell::text(end),
                Cell::text(scribe),
                Cell::text(clocks),
                Cell::count(count),
            ]
        });
    Table {
        columns: vec![
            Column::new("", Kind::Mark),
            Column::new("mark", Kind::Mark),
            Column::new("end", Kind::Mark),
            Column::new("SCRIBE AT", Kind::Mark),
            Column::new("clock", Kind::Words),
            Column::new("ends", Kind::Number),
        ],
        rows: rows.collect(),
    }
}

/// Where the template's edge lies on an end.
fn scribe(kind: &CopeKind, part: &crate::part::Part, end: usize) -> String {
    match &part.ends[end] {
        crate::part::CopeEnd::Coped(cope) => Scribe::of(kind, cope).words(),
        crate::part::CopeEnd::Square { .. } => String::new(),
    }
}

/// Clocks of an end: `0°` when it meets one pipe, else each with the member it lies on.
fn clocks(part: &crate::part::Part, end: usize) -> String {
    let crate::part::CopeEnd::Coped(cope) = &part.ends[end] else {
        return String::new();
    };
    if let [only] = cope.meets.as_slice() {
        return degrees(clock(only));
    }
    let each = cope
        .meets
        .iter()
        .map(|m| format!("{} {}", degrees(clock(m)), role_name(Some(m.role))));
    each.collect::<Vec<_>>().join(", ")
}

/// What an end is called: horizontals by latch and tail, the rest by foot and head.
pub(super) fn end_name(role: Option<Role>, end: usize) -> &'static str {
    match (role, end) {
        (Some(Role::TopHorizontal | Role::BottomHorizontal | Role::SwayBrace), 0) => "latch end",
        (Some(Role::TopHorizontal | Role::BottomHorizontal | Role::SwayBrace), _) => "tail end",
        (_, 0) => "foot",
        (_, _) => "head",
    }
}

/// How a profile is cut, in words.
pub(super) fn method(cut: CutMethod) -> &'static str {
    match cut {
        CutMethod::TrueSaddle => "true saddle",
        CutMethod::Radial => "radial cut",
    }
}

fn records(job: Job<'_>, kinds: &CopeKinds) -> Table {
    let figures = Figures::of(job.week);
    let mut rows = Vec::new();
    for kind in &kinds.kinds {
        for (index, end, count) in uses(job, kind) {
            let part = &job.take_off.parts[index];
            rows.push(vec![
                Cell::count(kind.number),
                Cell::text(kind.station.name()),
                Cell::text(&part.mark),
                Cell::text(end_name(part.role, end)),
                Cell::text(job.pipe(kind.branch)),
                Cell::text(kind.onto(job.week)),
                kind.meets
                    .first()
                    .map_or(Cell::Missing, |m| figures.angle(acute(m.phi))),
                kind.meets
                    .get(1)
                    .map_or(Cell::Missing, |m| figures.angle(acute(m.phi))),
                figures.geometric(kind.cutback),
                Cell::text(scribe(kind, part, end)),
                Cell::text(clocks(part, end)),
                Cell::text(method(kind.cut)),
                super::cut_records::yes_no(kind.feather),
                Cell::count(count),
            ]);
        }
    }
    Table {
        columns: vec![
            Column::new("cope", Kind::Number),
            Column::new("station", Kind::Words),
            Column::new("mark", Kind::Mark),
            Column::new("end", Kind::Mark),
            Column::new("pipe", Kind::Words),
            Column::new("onto", Kind::Words),
            Column::named("angle 1", "angle_1_deg", Kind::Number),
            Column::named("angle 2", "angle_2_deg", Kind::Number),
            figures.column("cutback", "cutback"),
            Column::new("scribe at", Kind::Mark),
            Column::new("clock", Kind::Words),
            Column::new("method", Kind::Words),
            Column::new("feather edge", Kind::Mark),
            Column::new("ends", Kind::Number),
        ],
        rows,
    }
}
