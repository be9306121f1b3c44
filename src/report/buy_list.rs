//! Buy list: order lines complete enough to send as they stand, spares apart, rack pieces to pull.

use crate::measure::{Length, Money, Units};

use super::counted::counted;
use super::figures::Figures;
use super::freight_words::{free_by_amount, freight_words};
use super::job::Job;
use super::order_line::{
    OrderLine, delivery_words, ends_words, order_lines, price_each, price_words, sum_known,
    suppliers,
};
use super::sheet::{Block, Sheet};
use super::table::{Cell, Column, Kind, Table};

/// The buy list of the week.
pub(super) fn buy_list(job: Job<'_>) -> Sheet {
    let lines = order_lines(job);
    let mut blocks = Vec::new();
    if lines.is_empty() {
        blocks.push(Block::Note("Nothing to buy.".to_owned()));
    }
    for supplier in suppliers(&lines) {
        blocks.push(supplier_block(job, &lines, &supplier));
    }
    blocks.push(Block::Pairs(totals(job, &lines)));
    if unpriced(&lines) {
        blocks.push(Block::Alert(MISSING.to_owned()));
    }
    blocks.extend(super::money_adds_up::money_adds_up(job));
    Sheet {
        stem: "buy_list".to_owned(),
        title: "BUY LIST".to_owned(),
        heading: job.heading(),
        blocks,
        records: Some(records(job, &lines)),
    }
}

fn supplier_block(job: Job<'_>, lines: &[OrderLine<'_>], supplier: &str) -> Block {
    let figures = Figures::of(job.week);
    let of = |spare: bool| {
        let mine = lines
            .iter()
            .filter(move |l| l.spare == spare && l.of.supplier == supplier);
        mine.map(|l| order_line(job, l)).collect::<Vec<_>>()
    };
    let mut blocks = Vec::new();
    let (plan, spare) = (of(false), of(true));
    if !plan.is_empty() {
        blocks.push(Block::Points(plan));
    }
    let spares = !spare.is_empty();
    if spares {
        blocks.push(Block::Note("Spares on top, not in the plan:".to_owned()));
        blocks.push(Block::Points(spare));
    }
    blocks.push(Block::Note(format!("{}.", ends_words(job))));
    blocks.extend(delivery_words(job).map(|d| Block::Note(format!("Delivery: {d}"))));
    let fees = job.plan.fees.iter().filter(|f| f.supplier == supplier);
    for fee in fees {
        let money = figures.spoken_money(Some(fee.money));
        blocks.push(Block::Note(format!(
            "{}: {money}",
            super::table::clean(&fee.name)
        )));
    }
    let mine: Vec<&OrderLine<'_>> = lines.iter().filter(|l| l.of.supplier == supplier).collect();
    if free_by_amount(job, supplier, &mine) {
        let nothing = figures.spoken_money(Some(Money::ZERO));
        blocks.push(Block::Note(format!("Freight, free by amount: {nothing}")));
    }
    blocks.push(Block::Note(freight_words(job, supplier, &mine, "their")));
    let money = supplier_money(job, lines, supplier);
    let name = if supplier.is_empty() {
        "SUPPLIER NOT NAMED".to_owned()
    } else {
        format!("FROM {}", super::table::clean(supplier))
    };
    let spares = if spares { "spares in it " } else { "" };
    Block::Group {
        title: name,
        aside: format!(
            "{spares}{}   {}",
            figures.spoken_money(money),
            job.heading().strip()
        ),
        blocks,
    }
}

/// What a supplier's order comes to: lines, spares, tax and fees; `None` where a price is missing.
pub(super) fn supplier_money(
    job: Job<'_>,
    lines: &[OrderLine<'_>],
    supplier: &str,
) -> Option<Money> {
    let mine = lines.iter().filter(|l| l.of.supplier == supplier);
    let fees = job.plan.fees.iter().filter(|f| f.supplier == supplier);
    let fees = fees.map(|f| Some(f.money));
    sum_known(mine.flat_map(|l| [l.money, l.tax]).chain(fees))
}

/// `31 joints of 21'-0" pipe, 2-3/8 SS40, OD 2.375 in x wall 0.154 in, ASTM F1083, galvanized …`.
fn order_line(job: Job<'_>, line: &OrderLine<'_>) -> String {
    let figures = Figures::of(job.week);
    let quote = line.of;
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
    match price_words(job, line) {
        None => words.push_str("; price not given"),
        Some(price) => {
            let money = figures.spoken_money(line.money);
            words.push_str(&format!("; {price} = {money}"));
        }
    }
    if let Some(tax) = line.tax.filter(|t| *t > Money::ZERO) {
        words.push_str(&format!(", tax {}", figures.spoken_money(Some(tax))));
    }
    if let Some(last) = line.expired {
        words.push_str(&format!("; THE PRICE RAN OUT ON {last}"));
    }
    if let Some(day) = line.needed {
        words.push_str(&format!("; here by {day}"));
    }
    if !line.marks.is_empty() {
        words.push_str(&format!("; for {}", line.marks.join(", ")));
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

/// The orders together, as labels and figures.
pub(super) fn totals(job: Job<'_>, lines: &[OrderLine<'_>]) -> Vec<(String, String)> {
    let figures = Figures::of(job.week);
    let fees = job.plan.fees.iter().map(|f| Some(f.money));
    let money = |lines: &mut dyn Iterator<Item = &OrderLine<'_>>, ordered: bool| {
        let fees = fees.clone().filter(|_| ordered);
        sum_known(lines.flat_map(|l| [l.money, l.tax]).chain(fees))
    };
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
    ];
    let whole: u32 = job.plan.uncut.iter().map(|u| u.joints).sum();
    if whole > 0 {
        pairs.push(Block::pair(
            "Of them left whole",
            format!("{}, to the rack", counted(whole, "joint", "joints")),
        ));
    }
    let of_plan = money(&mut plan(), true);
    let all = if spare().next().is_some() {
        let joints: u32 = spare().map(|l| l.joints).sum();
        let of_spares = money(&mut spare(), false);
        let spares = figures.spoken_money(of_spares);
        let spares = format!("{}, {spares}", counted(joints, "joint", "joints"));
        pairs.push(Block::pair(
            "Money without spares",
            figures.spoken_money(of_plan),
        ));
        pairs.push(Block::pair("Spares on top", spares));
        sum_known([of_plan, of_spares].into_iter())
    } else {
        of_plan
    };
    pairs.push(Block::pair(
        "Money of all orders",
        figures.spoken_money(all),
    ));
    pairs.push(Block::pair(
        "Taken off the rack",
        counted(rack, "piece", "pieces"),
    ));
    pairs
}

/// What is said where a price is missing.
pub(super) const MISSING: &str =
    "A price is missing: that pipe was planned by joints, not by money.";

/// Whether a price is missing.
pub(super) fn unpriced(lines: &[OrderLine<'_>]) -> bool {
    lines.iter().any(|l| l.of.price.is_none())
}

/// Columns of the records, and which of them is the money.
const COLUMNS: usize = 21;
const MONEY: usize = 14;

fn day(day: Option<jiff::civil::Date>) -> Cell {
    day.map_or(Cell::Missing, |d| Cell::text(d.to_string()))
}

fn records(job: Job<'_>, lines: &[OrderLine<'_>]) -> Table {
    let figures = Figures::of(job.week);
    let rows = lines.iter().map(|line| {
        let quote = line.of;
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
            Cell::text(quote.quoted_words()),
            figures.price(price_each(line)),
            figures.money(line.money),
            figures.money(line.tax),
            day(line.needed),
            Cell::text(line.marks.join(", ")),
            day(line.expired),
            Cell::text(ends_words(job)),
            delivery_words(job).map_or(Cell::Missing, Cell::text),
        ]
    });
    let fees = job.plan.fees.iter().map(|fee| {
        let mut row = vec![Cell::text("fee"), Cell::text(&fee.supplier)];
        row.push(Cell::text(&fee.name));
        row.resize(COLUMNS, Cell::Missing);
        row[MONEY] = figures.money(Some(fee.money));
        row
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
            figures.money_column("tax", "tax"),
            Column::new("needed", Kind::Mark),
            Column::new("cut for", Kind::Words),
            Column::new("price ran out", Kind::Mark),
            Column::new("lengths and ends", Kind::Words),
            Column::new("delivery", Kind::Words),
        ],
        rows: rows.chain(fees).collect(),
    }
}
