//! Cut sheet: pull order, then one block per joint.

use crate::measure::Length;
use crate::plan::{JointSource, PlannedJoint};

use super::blade::blade_rule;
use super::cope_kind::CopeKinds;
use super::cut_records::cut_records;
use super::figures::Figures;
use super::job::Job;
use super::joint_block::joint_block;
use super::planned_length::planned_as;
use super::sheet::{Block, Sheet};
use super::table::{Cell, Column, Kind, Table};

/// The cut sheet of the week.
pub(super) fn cut_sheet(job: Job<'_>, kinds: &CopeKinds) -> Sheet {
    let mut blocks = vec![Block::Points(how_to_read(job)), pull_order(job)];
    if job.plan.sittings.len() > 1 {
        blocks.push(sittings(job));
    }
    for joint in &job.plan.joints {
        blocks.push(joint_block(job, kinds, joint));
    }
    Sheet {
        stem: "cut_sheet".to_owned(),
        title: "CUT SHEET".to_owned(),
        heading: job.heading(),
        blocks,
        records: Some(cut_records(job, kinds)),
    }
}

fn how_to_read(job: Job<'_>) -> Vec<String> {
    let figures = Figures::of(job.week);
    let kerf = job.week.shop.saw.kerf;
    let trimmed = job.plan.joints.iter().any(|j| j.near > Length::ZERO);
    vec![
        "Hook the tape on the raw near end of the joint and leave it there. Lay out every RUNNING MARK \
         before the first cut."
            .to_owned(),
        blade_rule(trimmed).to_owned(),
        format!(
            "Kerf {} planned; another blade, another sheet.",
            super::joint_block::fine(figures, kerf)
        ),
        "SAW LENGTH is long point to long point (for a stop block). THROAT is what is left \
         along the axis when both copes are cut; a dash where both ends are square. COPE numbers \
         are on the cope sheet; a splice end is square."
            .to_owned(),
        "First piece of each length: a second person measures it.".to_owned(),
        keep_rule(job),
    ]
}

/// How a drop is judged: with its raw end cut clean, not as it lies.
fn keep_rule(job: Job<'_>) -> String {
    let figures = Figures::of(job.week);
    let keep = figures.spoken(job.week.shop.money.keep_length);
    format!(
        "KEEP from {keep} after a clean cut of its raw end. What lies on the floor still has that \
         end on: a piece that lies there at {keep} or a little more may be SCRAP."
    )
}

/// Joints in pulling order, neighbours of one row of stock or rack on one line.
fn pull_order(job: Job<'_>) -> Block {
    let row = |joint: &PlannedJoint| match joint.source {
        JointSource::Bought(quote) => (true, quote),
        JointSource::Rack(piece, _) => (false, piece),
    };
    let mut runs: Vec<(&PlannedJoint, u32)> = Vec::new();
    for joint in &job.plan.joints {
        match runs.last_mut() {
            Some((first, last)) if first.pipe == joint.pipe && row(first) == row(joint) => {
                *last = joint.number;
            }
            _ => runs.push((joint, joint.number)),
        }
    }
    let rows = runs.iter().map(|(first, last)| {
        let joints = if first.number == *last {
            format!("{last}")
        } else {
            format!("{}-{last}", first.number)
        };
        vec![
            Cell::text("[ ]"),
            Cell::text(joints),
            Cell::count(last + 1 - first.number),
            Cell::text(what(job, first)),
            Cell::text(job.short_pipe(first.pipe)),
            Cell::text(supplier(job, first)),
        ]
    });
    let table = Table {
        columns: vec![
            Column::new("", Kind::Mark),
            Column::new("joints", Kind::Mark),
            Column::new("pull", Kind::Number),
            Column::new("from", Kind::Words),
            Column::new("pipe", Kind::Words),
            Column::new("supplier", Kind::Words),
        ],
        rows: rows.collect(),
    };
    Block::Group {
        title: "PULL ORDER".to_owned(),
        aside: job.heading().strip(),
        blocks: vec![Block::Table(table)],
    }
}

/// What a joint is: `new 21'-0"` or `rack R4, 13'-2 1/4"`.
pub(super) fn what(job: Job<'_>, joint: &PlannedJoint) -> String {
    let figures = Figures::of(job.week);
    match joint.source {
        JointSource::Bought(quote) => {
            let nominal = figures.spoken(job.week.quotes[quote].nominal);
            format!("new {nominal}{}", planned_as(job.week, joint))
        }
        JointSource::Rack(piece, _) => {
            let piece = &job.week.rack[piece];
            format!("rack {}, {}", piece.tag, figures.spoken(piece.length))
        }
    }
}

/// Whom a new joint comes from; empty for a rack piece, or where the quote names nobody.
pub(super) fn supplier<'a>(job: Job<'a>, joint: &PlannedJoint) -> &'a str {
    match joint.source {
        JointSource::Bought(quote) => &job.week.quotes[quote].supplier,
        JointSource::Rack(..) => "",
    }
}

fn sittings(job: Job<'_>) -> Block {
    let rows = job.plan.sittings.iter().map(|s| {
        let joints: Vec<String> = s.joints.iter().map(u32::to_string).collect();
        vec![
            Cell::count(s.saw),
            Cell::text(joints.join(" ")),
            Cell::number(s.minutes, 0),
        ]
    });
    let table = Table {
        columns: vec![
            Column::new("saw", Kind::Number),
            Column::new("joints", Kind::Words),
            Column::new("minutes", Kind::Number),
        ],
        rows: rows.collect(),
    };
    Block::Group {
        title: "WHO CUTS WHAT (estimated minutes)".to_owned(),
        aside: job.heading().strip(),
        blocks: vec![Block::Table(table)],
    }
}
