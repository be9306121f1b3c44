//! Kit sheet: what the customer buys locally, how to cut and splice it, what we send.

use crate::gate::Role;
use crate::order::{GateOrder, Week};
use crate::part::CopeEnd;
use crate::plan::{KitAdvice, KitOption};

use super::cope_kind::CopeKinds;
use super::counted::counted;
use super::figures::Figures;
use super::job::{Job, role_name};
use super::kit_words::{STANDS, assumed, cautions, over_carrier, stands as stands_words};
use super::sheet::{Block, Sheet};
use super::splice_name::splice_name;
use super::splice_sheet::{gap, warnings, windows};
use super::table::{Cell, Column, Kind, Table};

/// One sheet per kit gate order.
pub(super) fn kit_sheets(job: Job<'_>, kinds: &CopeKinds) -> Vec<Sheet> {
    let mut stems: Vec<String> = Vec::new();
    let mut sheets = Vec::new();
    for advice in &job.plan.kits {
        let stem = file_stem("kit", &job.week.gates[advice.gate].mark, &stems);
        stems.push(stem.to_lowercase());
        sheets.push(kit_sheet(job, kinds, advice, stem));
    }
    sheets
}

/// `kit_A3`: characters that no file name may hold become `_`; a second such name gets a number.
pub(super) fn file_stem(kind: &str, mark: &str, taken: &[String]) -> String {
    let safe: String = mark
        .chars()
        .map(|c| {
            if c.is_alphanumeric() || c == '-' || c == '_' {
                c
            } else {
                '_'
            }
        })
        .take(40)
        .collect();
    let plain = format!("{kind}_{safe}");
    let mut name = plain.clone();
    let mut n = 2;
    while taken.contains(&name.to_lowercase()) {
        name = format!("{plain}_{n}");
        n += 1;
    }
    name
}

fn kit_sheet(job: Job<'_>, kinds: &CopeKinds, advice: &KitAdvice, stem: String) -> Sheet {
    let gate = &job.week.gates[advice.gate];
    let mut blocks = vec![
        Block::Note(format!(
            "Gate {}, {} to build. You buy the two horizontals of each gate; we send the rest.",
            gate.mark, gate.count
        )),
        Block::Note(assumed(job.week)),
        Block::Pairs(made_under(gate)),
        group(
            job,
            "THE TWO HORIZONTALS",
            vec![Block::Pairs(horizontals(job, kinds, advice.gate))],
        ),
    ];
    for option in &advice.options {
        blocks.push(option_block(job, option, gate.count));
    }
    blocks.push(group(
        job,
        "WHAT WE SEND",
        [
            Block::Table(checklist(job, advice.gate)),
            Block::Note(sent(job, advice.gate)),
        ]
        .into_iter()
        .chain(over_carrier(job, advice.gate).map(Block::Alert))
        .collect(),
    ));
    blocks.push(group(
        job,
        &STANDS.to_uppercase(),
        vec![Block::Pairs(stands_words(job, advice.gate))],
    ));
    blocks.push(group(
        job,
        "CAUTIONS",
        vec![Block::Points(cautions(job.week, gate))],
    ));
    Sheet {
        stem,
        title: format!("KIT {}", super::table::clean(&gate.mark)),
        heading: job.heading(),
        blocks,
        records: None,
    }
}

/// For whom and under which numbers the kit is made.
fn made_under(gate: &GateOrder) -> Vec<(String, String)> {
    let pairs = gate.paperwork.pairs().into_iter();
    pairs
        .map(|(name, value)| Block::pair(name, super::table::clean(value)))
        .collect()
}

fn group(job: Job<'_>, title: &str, blocks: Vec<Block>) -> Block {
    Block::Group {
        title: title.to_owned(),
        aside: job.heading().strip(),
        blocks,
    }
}

fn horizontals(job: Job<'_>, kinds: &CopeKinds, gate: usize) -> Vec<(String, String)> {
    let figures = Figures::of(job.week);
    let mut pairs = Vec::new();
    for (index, part) in job.parts_of(gate) {
        if !matches!(
            part.role,
            Some(Role::TopHorizontal | Role::BottomHorizontal)
        ) {
            continue;
        }
        if pairs.is_empty() {
            let pipe = job.week.pipe(part.pipe);
            pairs.push(Block::pair(
                "Pipe, exactly",
                format!("{} {}", pipe.title(), pipe.standard),
            ));
        }
        let ends: Vec<String> = (0..2)
            .map(|end| end_template(job, kinds, index, &part.ends[end], end))
            .collect();
        let same = part.ends[0] == part.ends[1];
        pairs.push(Block::pair(
            &format!("{} {}", part.mark, role_name(part.role)),
            format!(
                "{} long point to long point, throat {}",
                figures.spoken(part.saw),
                figures.spoken(part.throat)
            ),
        ));
        let words = if same {
            format!("both: {}", ends[0])
        } else {
            format!("latch: {}; tail: {}", ends[0], ends[1])
        };
        pairs.push(Block::pair("   its ends", words));
    }
    pairs
}

fn end_template(
    job: Job<'_>,
    kinds: &CopeKinds,
    part: usize,
    end: &CopeEnd,
    which: usize,
) -> String {
    let figures = Figures::of(job.week);
    match (end, kinds.at(part, which)) {
        (CopeEnd::Coped(cope), Some(kind)) => format!(
            "coped {}, cutback {}",
            kind.onto(job.week),
            figures.spoken_of(cope.cut.cutback)
        ),
        _ => "square".to_owned(),
    }
}

fn option_block(job: Job<'_>, option: &KitOption, count: u32) -> Block {
    let figures = Figures::of(job.week);
    let title = format!("IF YOUR YARD SELLS {}", figures.spoken(option.joint));
    if let Some(why) = &option.refused {
        return group(
            job,
            &title,
            vec![Block::Alert(format!("Cannot be used: {why}"))],
        );
    }
    let splices: usize = option.lines.iter().map(|l| l.splices.len()).sum();
    let mut blocks = vec![Block::Note(format!(
        "Buy {} a gate, {} in all; {} a gate.",
        counted(option.joints_per_gate, "joint", "joints"),
        u64::from(option.joints_per_gate) * u64::from(count),
        match u32::try_from(splices).unwrap_or(u32::MAX) {
            0 => "no splice".to_owned(),
            n => counted(n, "splice", "splices"),
        }
    ))];
    blocks.push(Block::Note(String::new()));
    blocks.push(Block::Table(cuts(job, option)));
    blocks.extend(measure_first(job.week, option).map(Block::Alert));
    if splices > 0 {
        blocks.push(Block::Note(String::new()));
        blocks.push(Block::Table(stands(job, option)));
        for line in &option.lines {
            let mark = &job.take_off.parts[line.part].mark;
            let root = gap(figures, line.gap);
            let mut points = vec![format!("{mark}: root gap as made {root} at each splice.")];
            points.extend(windows(job, mark, &line.splices));
            blocks.push(Block::Points(points));
            blocks.extend(warnings(mark, line));
        }
    }
    group(job, &title, blocks)
}

/// Local joints that leave less than the measure-first limit: leftover = floor + kerf - trim.
pub(super) fn measure_first(week: &Week, option: &KitOption) -> Option<String> {
    let shop = &week.shop;
    let joints = (1u32..).zip(&option.cuts);
    let tight: Vec<String> = joints
        .filter(|(_, j)| j.floor + shop.kit.kerf - shop.kit.trim < shop.saw.measure_first_under)
        .map(|(n, _)| n.to_string())
        .collect();
    (!tight.is_empty()).then(|| {
        let length = Figures::of(week).spoken(option.joint);
        match tight.as_slice() {
            [one] => format!("MEASURE FIRST: joint {one} must be a full {length}."),
            all => format!(
                "MEASURE FIRST: joints {} must each be a full {length}.",
                all.join(", ")
            ),
        }
    })
}

fn cuts(job: Job<'_>, option: &KitOption) -> Table {
    let figures = Figures::of(job.week);
    let mut rows = Vec::new();
    for (n, joint) in (1u32..).zip(&option.cuts) {
        for piece in &joint.pieces {
            rows.push(vec![
                Cell::text("[ ]"),
                Cell::count(n),
                Cell::text(&piece.mark),
                figures.exact(piece.saw),
                figures.marked(piece.end),
                figures.left_cell(joint.floor, false),
            ]);
        }
    }
    Table {
        columns: vec![
            Column::new("", Kind::Mark),
            Column::new("joint", Kind::Number),
            Column::new("piece", Kind::Mark),
            figures.column("SAW LENGTH", "saw_length"),
            figures.column("RUNNING MARK", "running_mark"),
            figures.column("left of the joint", "floor"),
        ],
        rows,
    }
}

fn stands(job: Job<'_>, option: &KitOption) -> Table {
    let figures = Figures::of(job.week);
    let mut rows = Vec::new();
    for line in &option.lines {
        let part = &job.take_off.parts[line.part];
        for (i, splice) in line.splices.iter().enumerate() {
            rows.push(vec![
                Cell::text(splice_name(&part.mark, i)),
                Cell::count(splice.bay),
                figures.maybe(splice.x),
                figures.geometric(splice.centre),
                figures.geometric(splice.from_latch_side),
                figures.geometric(splice.from_tail_side),
            ]);
        }
    }
    Table {
        columns: vec![
            Column::new("splice", Kind::Mark),
            Column::new("bay", Kind::Number),
            figures.column("FROM LATCH face", "x"),
            figures.column("from long point", "p"),
            figures.column("bay line before", "a"),
            figures.column("bay line after", "b"),
        ],
        rows,
    }
}

/// What the crates hold together.
fn sent(job: Job<'_>, gate: usize) -> String {
    let ours = || job.parts_of(gate).filter(|(_, p)| p.ours);
    let pieces: u32 = ours().map(|(_, p)| p.count).sum();
    let weight: f64 = ours().map(|(_, p)| p.weight * f64::from(p.count)).sum();
    format!(
        "{} in all, {} of bare pipe.",
        counted(pieces, "piece", "pieces"),
        Figures::of(job.week).spoken_weight(weight)
    )
}

fn checklist(job: Job<'_>, gate: usize) -> Table {
    let figures = Figures::of(job.week);
    let unit = figures.weight_unit();
    let rows = job.parts_of(gate).filter(|(_, p)| p.ours).map(|(_, part)| {
        vec![
            Cell::text("[ ]"),
            Cell::text(&part.mark),
            Cell::count(part.per_gate),
            Cell::count(part.count),
            Cell::text(role_name(part.role)),
            Cell::text(&job.week.pipe(part.pipe).name),
            figures.exact(part.saw),
            figures.weight(part.weight),
            figures.weight(part.weight * f64::from(part.count)),
        ]
    });
    Table {
        columns: vec![
            Column::new("", Kind::Mark),
            Column::new("mark", Kind::Mark),
            Column::new("a gate", Kind::Number),
            Column::new("in all", Kind::Number),
            Column::new("part", Kind::Words),
            Column::new("pipe", Kind::Words),
            figures.column("length", "length"),
            figures.weight_column(&format!("{unit} each"), "weight_each"),
            figures.weight_column(&format!("{unit} in all"), "weight_in_all"),
        ],
        rows: rows.collect(),
    }
}
