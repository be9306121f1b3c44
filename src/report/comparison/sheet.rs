//! The comparison's sheet: money, where it goes, joints, waste; one flat record a row.

use crate::compare::{Comparison, Figures as Made, Row, joint_words};
use crate::measure::{Length, Money, cents_that_add};
use crate::order::Impossible;
use crate::plan::{Gap, Waste};

use super::super::sheet::{Block, Heading, Sheet};
use super::super::table::{Cell, Column, Kind, Table};
use super::figures;
use super::turn_words::turns;
use super::words::status;
use crate::compare::Outcome;

/// How each waste is defined, printed under every table that shows it.
const WASTE: &str = "Waste in % of the pipe taken: all-in = (taken - in gates) / taken; lost = (kerf + \
                     trim + scrap drops) / taken; kept = drops kept, as they lie / taken. Minutes are \
                     estimates by the shop's figures.";
const MONEY: &str = "Money is landed: joints with freight and fees, splices, rack pieces at their credit, less \
                     the credit of drops kept. Every row is a plan of its own that the checker passed. Gap: \
                     no plan of that row can be cheaper by more. Alone: every pipe of that length or from that \
                     supplier; else as it stands: a pipe not sold so is bought as in that row. What is kept \
                     counts by all that is on sale, whatever a row buys.";

/// The sheet.
pub(super) fn sheet(comparison: &Comparison, heading: Heading) -> Sheet {
    let mut blocks = vec![
        Block::Table(money(comparison)),
        Block::Note(MONEY.to_owned()),
        Block::Table(split(comparison)),
        Block::Table(joints(comparison)),
        Block::Table(waste(comparison)),
        Block::Note(WASTE.to_owned()),
    ];
    let turns = turns(comparison);
    if !turns.is_empty() {
        blocks.push(Block::Group {
            title: "WHAT WOULD CHANGE WHICH IS CHEAPER".to_owned(),
            aside: heading.strip(),
            blocks: vec![Block::Points(turns)],
        });
    }
    let notes = notes(comparison);
    if !notes.is_empty() {
        blocks.push(Block::Group {
            title: "NOTES TO THE ROWS".to_owned(),
            aside: heading.strip(),
            blocks: vec![Block::Points(notes)],
        });
    }
    Sheet {
        stem: "comparison".to_owned(),
        title: "COMPARISON".to_owned(),
        heading,
        blocks,
        records: Some(records(comparison)),
    }
}

fn notes(comparison: &Comparison) -> Vec<String> {
    let mut out = Vec::new();
    for row in &comparison.rows {
        out.extend(notes_of(row).iter().map(|n| format!("{}: {n}.", row.name)));
        if let Outcome::Cannot(why) = &row.outcome {
            let reasons = by_reason(why).into_iter();
            out.extend(reasons.map(|(parts, item)| {
                let (parts, (reason, change)) = (parts.join(", "), (&item.reason, &item.change));
                let name = &row.name;
                format!("{name}: {parts} cannot be made: {reason}. To make it possible: {change}.")
            }));
        }
    }
    out
}

/// What must be said of a row: of its change, of the prices it buys at, and of where its plan is from.
pub(super) fn notes_of(row: &Row) -> Vec<&str> {
    let remarks = row.figures().map(|m| m.remarks.as_slice());
    let all = row.notes.iter().chain(remarks.unwrap_or_default());
    all.map(String::as_str).collect()
}

/// Parts that one reason stops, together, in the order of the reasons.
fn by_reason(why: &[Impossible]) -> Vec<(Vec<&str>, &Impossible)> {
    let mut out: Vec<(Vec<&str>, &Impossible)> = Vec::new();
    for item in why {
        let part = item.part.as_deref().unwrap_or(&item.mark);
        let same = |(_, i): &&mut (Vec<&str>, &Impossible)| {
            (&i.reason, &i.change) == (&item.reason, &item.change)
        };
        match out.iter_mut().find(same) {
            Some((parts, _)) => parts.push(part),
            None => out.push((vec![part], item)),
        }
    }
    out
}

/// A table with a row for each variant.
fn table(
    comparison: &Comparison,
    columns: Vec<Column>,
    cells: impl Fn(&Row, Option<&Made>) -> Vec<Cell>,
) -> Table {
    let mut all = vec![Column::new("the same week", Kind::Words)];
    all.extend(columns);
    let rows = comparison.rows.iter().map(|row| {
        let mut out = vec![Cell::text(&row.name)];
        out.extend(cells(row, row.figures()));
        out
    });
    Table {
        columns: all,
        rows: rows.collect(),
    }
}

/// Each row's money, what it is over the reference, its gap, its status.
pub(super) fn money(comparison: &Comparison) -> Table {
    let reference = comparison.reference();
    let dearer = format!("over \"{}\"", reference.name);
    table(
        comparison,
        vec![
            Column::new("money", Kind::Figure),
            Column::named(&dearer, "dearer", Kind::Figure),
            Column::new("gap", Kind::Figure),
            Column::new("status of money", Kind::Words),
        ],
        |row, made| {
            vec![
                cash(comparison, row.total()),
                cash(comparison, over(row, reference)),
                gap(comparison, made),
                Cell::text(status(row)),
            ]
        },
    )
}

/// How much dearer a row is than the reference, 1/1000 cent.
pub(super) fn over(row: &Row, reference: &Row) -> Option<i64> {
    if std::ptr::eq(row, reference) {
        return None;
    }
    Some(row.total()? - reference.total()?)
}

fn gap(comparison: &Comparison, made: Option<&Made>) -> Cell {
    let gap = made.and_then(|m| m.gap);
    figures(comparison).money(gap.map(Gap::money))
}

fn cash(comparison: &Comparison, millicents: Option<i64>) -> Cell {
    figures(comparison).money(millicents.map(Money::from_millicents))
}

/// The parts of a row's money in cents that add up to its cents: pipe, freight, fees, splices, rack, and
/// kept drops as a negative number.
pub(super) fn parts(made: &Made) -> Option<[i64; 6]> {
    let m = made.money?;
    let parts = [m.pipe, m.freight, m.fees, m.splices, m.rack, -m.kept];
    cents_that_add(&parts).try_into().ok()
}

const PARTS: [(&str, &str); 6] = [
    ("pipe", "pipe"),
    ("freight", "freight"),
    ("tax, fees", "tax_and_fees"),
    ("splices", "splice_labour"),
    ("off the rack", "rack"),
    ("drops kept", "kept_credit"),
];

fn split(comparison: &Comparison) -> Table {
    let columns = PARTS.map(|(head, name)| Column::named(head, name, Kind::Figure));
    let mut columns = columns.to_vec();
    columns.push(Column::new("money", Kind::Figure));
    table(comparison, columns, |row, made| {
        let mut cells = split_cells(comparison, made);
        cells.push(cash(comparison, row.total()));
        cells
    })
}

fn split_cells(comparison: &Comparison, made: Option<&Made>) -> Vec<Cell> {
    match made.and_then(parts) {
        Some(cents) => cents
            .iter()
            .map(|c| cash(comparison, Some(c * 1_000)))
            .collect(),
        None => vec![Cell::Missing; PARTS.len()],
    }
}

fn joints(comparison: &Comparison) -> Table {
    let figures = figures(comparison);
    let columns = vec![
        Column::new("joints bought", Kind::Words),
        Column::named("off rack", "from_rack", Kind::Number),
        Column::new("splices", Kind::Number),
        Column::named(feet_word(comparison), "feet", Kind::Number),
        figures.weight_column(figures.weight_unit(), "weight"),
        Column::new("minutes", Kind::Number),
    ];
    table(comparison, columns, |_, made| match made {
        Some(m) => vec![
            Cell::text(by_length(comparison, m)),
            Cell::count(m.from_rack),
            Cell::count(m.splices),
            feet(comparison, m.bought),
            Cell::number(m.weight, 0),
            Cell::number(m.minutes, 0),
        ],
        None => vec![Cell::Missing; 6],
    })
}

pub(super) fn feet_word(comparison: &Comparison) -> &'static str {
    match comparison.week.shop.units {
        crate::measure::Units::Inch => "feet",
        crate::measure::Units::Metric => "metres",
    }
}

pub(super) fn feet(comparison: &Comparison, length: Length) -> Cell {
    match comparison.week.shop.units {
        crate::measure::Units::Inch => Cell::number(length.inches() / 12.0, 1),
        crate::measure::Units::Metric => Cell::number(length.millimetres() / 1000.0, 1),
    }
}

/// `43 x 21 ft, 4 x 40 ft`.
fn by_length(comparison: &Comparison, made: &Made) -> String {
    let units = comparison.week.shop.units;
    let joints = made.joints.iter();
    let words: Vec<String> = joints
        .map(|(l, n)| format!("{n} x {}", joint_words(*l, units)))
        .collect();
    words.join(", ")
}

/// The three wastes, all-in, lost, kept, in percent of what was taken.
pub(super) fn percents(w: &Waste) -> Option<[f64; 3]> {
    (w.taken > Length::ZERO)
        .then(|| [w.all_in, w.lost, w.kept].map(|l| 100.0 * l.geometric() / w.taken.geometric()))
}

fn waste(comparison: &Comparison) -> Table {
    let columns = vec![
        Column::named("taken", "taken", Kind::Number),
        Column::named("all-in %", "all_in_percent", Kind::Number),
        Column::named("lost %", "lost_percent", Kind::Number),
        Column::named("kept %", "kept_percent", Kind::Number),
    ];
    table(comparison, columns, |_, made| waste_cells(comparison, made))
}

fn waste_cells(comparison: &Comparison, made: Option<&Made>) -> Vec<Cell> {
    let Some(made) = made else {
        return vec![Cell::Missing; 4];
    };
    let mut cells = vec![feet(comparison, made.waste.taken)];
    match percents(&made.waste) {
        Some(shares) => cells.extend(shares.map(|p| Cell::number(p, 2))),
        None => cells.extend([Cell::Missing, Cell::Missing, Cell::Missing]),
    }
    cells
}

/// Everything of a row side by side, joints of each length in a column of their own.
fn records(comparison: &Comparison) -> Table {
    let figures = figures(comparison);
    let units = comparison.week.shop.units;
    let reference = comparison.reference();
    let lengths = lengths(comparison);
    let mut columns = vec![
        Column::new("money", Kind::Figure),
        Column::new("dearer", Kind::Figure),
        Column::new("gap", Kind::Figure),
    ];
    columns.extend(PARTS.map(|(head, name)| Column::named(head, name, Kind::Figure)));
    columns.extend(lengths.iter().map(|l| {
        let words = joint_words(*l, units);
        let name: String = words
            .chars()
            .map(|c| if c.is_ascii_alphanumeric() { c } else { '_' })
            .collect();
        Column::named(
            &format!("joints of {words}"),
            &format!("joints_{name}"),
            Kind::Number,
        )
    }));
    columns.extend([
        Column::named("off rack", "from_rack", Kind::Number),
        Column::new("splices", Kind::Number),
        Column::named(feet_word(comparison), feet_word(comparison), Kind::Number),
        figures.weight_column("weight", "weight"),
        Column::new("minutes", Kind::Number),
        Column::named("taken", "taken", Kind::Number),
        Column::named("all-in %", "all_in_percent", Kind::Number),
        Column::named("lost %", "lost_percent", Kind::Number),
        Column::named("kept %", "kept_percent", Kind::Number),
        Column::named("pipes proved", "pipes_proved", Kind::Number),
        Column::new("status", Kind::Words),
    ]);
    table(comparison, columns, |row, made| {
        let mut cells = vec![
            cash(comparison, row.total()),
            cash(comparison, over(row, reference)),
            gap(comparison, made),
        ];
        cells.extend(split_cells(comparison, made));
        cells.extend(lengths.iter().map(|l| {
            made.map_or(Cell::Missing, |m| {
                let mine = m.joints.iter().find(|(nominal, _)| nominal == l);
                Cell::count(mine.map_or(0, |(_, n)| *n))
            })
        }));
        match made {
            Some(m) => cells.extend([
                Cell::count(m.from_rack),
                Cell::count(m.splices),
                feet(comparison, m.bought),
                Cell::number(m.weight, 1),
                Cell::number(m.minutes, 1),
            ]),
            None => cells.extend(vec![Cell::Missing; 5]),
        }
        cells.extend(waste_cells(comparison, made));
        cells.push(made.map_or(Cell::Missing, |m| Cell::count(m.proved.0)));
        cells.push(Cell::text(status(row)));
        cells
    })
}

/// Nominal lengths bought in any row, ascending.
fn lengths(comparison: &Comparison) -> Vec<Length> {
    let made = comparison.rows.iter().filter_map(Row::figures);
    let mut all: Vec<Length> = made
        .flat_map(|m| m.joints.iter().map(|(l, _)| *l))
        .collect();
    all.sort();
    all.dedup();
    all
}
