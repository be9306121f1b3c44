//! Buy list: order lines complete enough to send as they stand, spares apart, rack pieces to pull.

use crate::measure::{Length, Money, Units};
use crate::order::{PipeId, Quote};

use super::counted::counted;
use super::figures::Figures;
use super::job::Job;
use super::sheet::{Block, Sheet};
use super::table::{Cell, Column, Kind, Table};

/// One order line: what the plan cuts, or spares on top.
struct Line {
    quote: usize,
    joints: u32,
    nominal: Length,
    weight: f64,
    money: Option<Money>,
    spare: bool,
}

/// The buy list of the week.
pub(super) fn buy_list(job: Job<'_>) -> Sheet {
    let lines = lines(job);
    let mut blocks = Vec::new();
    if lines.is_empty() {
        blocks.push(Block::Note("Nothing to buy.".to_owned()));
    }
    for supplier in suppliers(job, &lines) {
        blocks.push(supplier_block(job, &lines, &supplier));
    }
    blocks.push(Block::Pairs(totals(job, &lines)));
    blocks.extend(unpriced_note(job, &lines));
    blocks.extend(super::money_adds_up::money_adds_up(job));
    Sheet {
        stem: "buy_list".to_owned(),
        title: "BUY LIST".to_owned(),
        heading: job.heading(),
        blocks,
        records: Some(records(job, &lines)),
    }
}

fn lines(job: Job<'_>) -> Vec<Line> {
    let bought = job.plan.buy.iter().filter(|b| b.joints > 0).map(|b| Line {
        quote: b.quote,
        joints: b.joints,
        nominal: b.nominal,
        weight: b.weight,
        money: b.money,
        spare: false,
    });
    let spares = job.plan.spares.iter().filter(|s| s.joints > 0).map(|s| {
        let quote = &job.week.quotes[s.quote];
        let nominal = quote.nominal * i64::from(s.joints);
        Line {
            quote: s.quote,
            joints: s.joints,
            nominal,
            weight: weight(job, quote.pipe, nominal),
            money: s.money,
            spare: true,
        }
    });
    bought.chain(spares).collect()
}

fn weight(job: Job<'_>, pipe: PipeId, length: Length) -> f64 {
    job.week.pipe(pipe).weight(job.units(), length.geometric())
}

/// Suppliers in the order their first line stands.
fn suppliers(job: Job<'_>, lines: &[Line]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for line in lines {
        let name = &job.week.quotes[line.quote].supplier;
        if !names.contains(name) {
            names.push(name.clone());
        }
    }
    names
}

fn supplier_block(job: Job<'_>, lines: &[Line], supplier: &str) -> Block {
    let figures = Figures::of(job.week);
    let of = |spare: bool| {
        let mine = lines
            .iter()
            .filter(move |l| l.spare == spare && job.week.quotes[l.quote].supplier == supplier);
        mine.map(|l| order_line(job, l)).collect::<Vec<_>>()
    };
    let mut blocks = Vec::new();
    let (plan, spare) = (of(false), of(true));
    if !plan.is_empty() {
        blocks.push(Block::Points(plan));
    }
    if !spare.is_empty() {
        blocks.push(Block::Note("Spares on top, not in the plan:".to_owned()));
        blocks.push(Block::Points(spare));
    }
    blocks.push(Block::Note(
        "Uniform lengths, no jointers, plain square ends; tell us before shipping if a length \
         runs short of its nominal."
            .to_owned(),
    ));
    let mine = lines
        .iter()
        .filter(|l| job.week.quotes[l.quote].supplier == supplier);
    let money = total_money(mine);
    let name = if supplier.is_empty() {
        "SUPPLIER NOT NAMED".to_owned()
    } else {
        format!("FROM {}", super::table::clean(supplier))
    };
    Block::Group {
        title: name,
        aside: format!(
            "{}   {}",
            figures.spoken_money(money),
            job.heading().strip()
        ),
        blocks,
    }
}

/// `31 joints of 21'-0" pipe, 2-3/8 SS40, OD 2.375 in x wall 0.154 in, ASTM F1083, galvanized …`.
fn order_line(job: Job<'_>, line: &Line) -> String {
    let figures = Figures::of(job.week);
    let quote = &job.week.quotes[line.quote];
    let pipe = job.week.pipe(quote.pipe);
    let unit = |d: crate::measure::Dimension| match d.unit {
        crate::measure::Unit::Inch => format!("{d} in"),
        crate::measure::Unit::Mm => d.to_string(),
    };
    let mut words = format!(
        "{} {} of {}: {}, OD {} x wall {}",
        line.joints,
        if line.joints == 1 { "joint" } else { "joints" },
        figures.spoken(quote.nominal),
        pipe.name,
        unit(pipe.od),
        unit(pipe.wall)
    );
    for part in [&pipe.standard, &pipe.grade, &pipe.finish] {
        if !part.is_empty() {
            words.push_str(&format!(", {part}"));
        }
    }
    words.push_str(&format!(
        "; {} in all, about {} {}",
        footage(job, line.nominal),
        Cell::number(line.weight, 0).printed(),
        figures.weight_unit()
    ));
    if quote.quoted.is_empty() {
        words.push_str("; price not given");
    } else {
        let money = figures.spoken_money(line.money);
        words.push_str(&format!("; {} = {money}", quote.quoted));
    }
    words
}

/// Billed length in whole trade units: `651 ft` or `114.0 m`.
pub(super) fn footage(job: Job<'_>, length: Length) -> String {
    match job.units() {
        Units::Inch => format!("{} ft", Cell::number(length.inches() / 12.0, 1).printed()),
        Units::Metric => format!(
            "{} m",
            Cell::number(length.millimetres() / 1000.0, 1).printed()
        ),
    }
}

/// Sum of lines; `None` as soon as one has no price.
fn total_money<'l>(lines: impl Iterator<Item = &'l Line>) -> Option<Money> {
    let amounts: Option<Vec<Money>> = lines.map(|l| l.money).collect();
    amounts.map(|a| a.into_iter().sum())
}

fn totals(job: Job<'_>, lines: &[Line]) -> Vec<(String, String)> {
    let figures = Figures::of(job.week);
    let plan = || lines.iter().filter(|l| !l.spare);
    let spare = || lines.iter().filter(|l| l.spare);
    let joints: u32 = plan().map(|l| l.joints).sum();
    let nominal: Length = plan().map(|l| l.nominal).sum();
    let weight: f64 = plan().map(|l| l.weight).sum();
    let rack: u32 = job.plan.pipes.iter().map(|p| p.from_rack).sum();
    let mut pairs = vec![
        Block::pair("Joints to buy", joints.to_string()),
        Block::pair("Billed length", footage(job, nominal)),
        Block::pair("Weight, bare pipe", figures.spoken_weight(weight)),
        Block::pair(
            "Money of the order",
            figures.spoken_money(total_money(plan())),
        ),
    ];
    if spare().next().is_some() {
        let joints: u32 = spare().map(|l| l.joints).sum();
        let money = figures.spoken_money(total_money(spare()));
        pairs.push(Block::pair(
            "Spares on top",
            format!("{}, {money}", counted(joints, "joint", "joints")),
        ));
    }
    pairs.push(Block::pair(
        "Taken off the rack",
        counted(rack, "piece", "pieces"),
    ));
    pairs
}

fn unpriced_note(job: Job<'_>, lines: &[Line]) -> Option<Block> {
    let unpriced = lines
        .iter()
        .any(|l| job.week.quotes[l.quote].price.is_none());
    unpriced.then(|| {
        Block::Alert(
            "A price is missing: that pipe was planned by joints, not by money.".to_owned(),
        )
    })
}

fn records(job: Job<'_>, lines: &[Line]) -> Table {
    let figures = Figures::of(job.week);
    let rows = lines.iter().map(|line| {
        let quote: &Quote = &job.week.quotes[line.quote];
        let pipe = job.week.pipe(quote.pipe);
        vec![
            Cell::text(if line.spare { "spare" } else { "plan" }),
            Cell::text(&quote.supplier),
            Cell::text(&pipe.name),
            Cell::text(pipe.od.to_string()),
            Cell::text(pipe.wall.to_string()),
            Cell::text(&pipe.standard),
            Cell::text(&pipe.grade),
            Cell::text(&pipe.finish),
            Cell::count(line.joints),
            figures.exact(quote.nominal),
            figures.exact(line.nominal),
            figures.weight(line.weight),
            Cell::text(&quote.quoted),
            figures.money(quote.price),
            figures.money(line.money),
        ]
    });
    Table {
        columns: vec![
            Column::new("for", Kind::Mark),
            Column::new("supplier", Kind::Words),
            Column::new("pipe", Kind::Words),
            Column::new("od", Kind::Mark),
            Column::new("wall", Kind::Mark),
            Column::new("standard", Kind::Words),
            Column::new("grade", Kind::Words),
            Column::new("finish", Kind::Words),
            Column::new("joints", Kind::Number),
            figures.column("joint", "joint_length"),
            figures.column("billed", "billed_length"),
            figures.weight_column("weight", "weight"),
            Column::new("quoted", Kind::Words),
            figures.money_column("each", "price_each"),
            figures.money_column("money", "money"),
        ],
        rows: rows.collect(),
    }
}
