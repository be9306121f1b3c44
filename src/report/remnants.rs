//! Remnants: kept drops with their tags, and what the rack gave.

use crate::measure::{Length, Money};
use crate::plan::JointSource;

use super::figures::Figures;
use super::job::Job;
use super::rack_next::{left_on_the_rack, whole_tags};
use super::sheet::{Block, Sheet};
use super::table::{Cell, Column, Kind, Table};

/// The remnants of the week.
pub(super) fn remnants(job: Job<'_>) -> Sheet {
    let figures = Figures::of(job.week);
    let mut blocks = vec![Block::Note(
        "Paint the tag and the floor length on each kept piece. Credited length is what the next \
         plan may count on after a clean cut. rack_next.csv is the rack once all is cut: \
         copy it as rack.csv into the next week's folder."
            .to_owned(),
    )];
    blocks.push(Block::Group {
        title: "KEEP".to_owned(),
        aside: job.heading().strip(),
        blocks: keep(job, figures),
    });
    blocks.push(Block::Group {
        title: "TAKEN OFF THE RACK".to_owned(),
        aside: job.heading().strip(),
        blocks: vec![taken(job, figures)],
    });
    let staying = staying(job, figures);
    if !staying.is_empty() {
        blocks.push(Block::Group {
            title: "STAYS ON THE RACK: saves nothing this week".to_owned(),
            aside: job.heading().strip(),
            blocks: vec![Block::Points(staying)],
        });
    }
    Sheet {
        stem: "remnants".to_owned(),
        title: "REMNANTS".to_owned(),
        heading: job.heading(),
        blocks,
        records: Some(records(job, figures)),
    }
}

fn keep(job: Job<'_>, figures: Figures<'_>) -> Vec<Block> {
    let kept = &job.plan.kept;
    if kept.is_empty() {
        return vec![Block::Note("Nothing is kept.".to_owned())];
    }
    let rows = kept.iter().map(|k| {
        vec![
            Cell::text("[ ]"),
            Cell::text(&k.tag),
            Cell::count(k.joint),
            Cell::text(job.short_pipe(k.pipe)),
            figures.marked(k.floor),
            figures.marked(k.drop),
            figures.money(Some(k.credit)),
        ]
    });
    let table = Table {
        columns: vec![
            Column::new("", Kind::Mark),
            Column::new("tag", Kind::Mark),
            Column::new("joint", Kind::Number),
            Column::new("pipe", Kind::Words),
            figures.column("ON THE FLOOR", "floor"),
            figures.column("credited length", "credited_length"),
            figures.money_column("credit", "credit"),
        ],
        rows: rows.collect(),
    };
    let floor: Length = kept.iter().map(|k| k.floor).sum();
    let credit: Money = kept.iter().map(|k| k.credit).sum();
    let total = format!(
        "{} kept, {} on the floor in all, credit {}.",
        kept.len(),
        super::buy_list::footage(job, floor),
        figures.spoken_money(Some(credit))
    );
    vec![Block::Table(table), Block::Note(total)]
}

fn taken(job: Job<'_>, figures: Figures<'_>) -> Block {
    let rows: Vec<Vec<Cell>> = job
        .plan
        .joints
        .iter()
        .filter_map(|joint| match joint.source {
            JointSource::Rack(piece, _) => Some((joint, &job.week.rack[piece])),
            JointSource::Bought(_) => None,
        })
        .map(|(joint, piece)| {
            vec![
                Cell::text("[ ]"),
                Cell::text(&piece.tag),
                Cell::text(job.short_pipe(piece.pipe)),
                figures.exact(piece.length),
                Cell::count(joint.number),
            ]
        })
        .collect();
    if rows.is_empty() {
        return Block::Note("Nothing.".to_owned());
    }
    Block::Table(Table {
        columns: vec![
            Column::new("", Kind::Mark),
            Column::new("tag", Kind::Mark),
            Column::new("pipe", Kind::Words),
            figures.column("measured", "measured"),
            Column::new("cut as joint", Kind::Number),
        ],
        rows,
    })
}

/// Rack pieces that are not cut, and joints bought to be left whole.
fn staying(job: Job<'_>, figures: Figures<'_>) -> Vec<String> {
    let left = left_on_the_rack(job).map(|(piece, n)| {
        let length = figures.spoken(piece.length);
        let pipe = job.short_pipe(piece.pipe);
        format!(
            "{n} x {}: {length} of {pipe}",
            super::table::clean(&piece.tag)
        )
    });
    let tags = whole_tags(job);
    let whole = job.plan.uncut.iter().zip(&tags).map(|(u, tag)| {
        let quote = &job.week.quotes[u.quote];
        let length = figures.spoken(quote.nominal);
        let pipe = job.short_pipe(quote.pipe);
        format!(
            "{} x {tag}: new {length} of {pipe}, bought and left whole",
            u.joints
        )
    });
    left.chain(whole).collect()
}

fn records(job: Job<'_>, figures: Figures<'_>) -> Table {
    let rows = job.plan.kept.iter().map(|k| {
        vec![
            Cell::text(&k.tag),
            Cell::count(k.joint),
            Cell::text(job.pipe(k.pipe)),
            figures.marked(k.floor),
            figures.marked(k.drop),
            figures.money(Some(k.credit)),
        ]
    });
    Table {
        columns: vec![
            Column::new("tag", Kind::Mark),
            Column::new("joint", Kind::Number),
            Column::new("pipe", Kind::Words),
            figures.column("floor", "floor"),
            figures.column("credited length", "credited_length"),
            figures.money_column("credit", "credit"),
        ],
        rows: rows.collect(),
    }
}
