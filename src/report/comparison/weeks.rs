//! Several weeks' comparison: one row a variant, over all weeks, and all weeks added up.

use serde::Serialize;

use crate::compare::{Comparison, Tally, tally};
use crate::measure::Money;
use crate::plan::Gap;
use crate::report::table::clean;

use super::super::document::quantity::{millicents, money};
use super::super::print_text::print_text;
use super::super::sheet::{Block, Heading, Sheet};
use super::super::table::{Cell, Column, Kind, Table};
use super::super::workbook::one_table;
use super::super::{ResultFile, ResultsFault, bytes, print};
use super::sheet::{feet, feet_word, over, percents};
use super::{DOCUMENT, FORMAT, figures};

const NOTE: &str = "Over: a variant's landed money less that of the reference row of the same week. Won: cheaper \
                    by a cent or more; lost: dearer. Median: the middle week, of two the dearer; worst: the dearest. \
                    One good week makes no rule. Every figure is of a plan that the checker passed. Gap: no plan \
                    of that row can be cheaper by more.";

const TOTAL: &str = "A variant is added up where every week can be made so. Rows of one length add up whether all \
                     pipes of a week are sold in it or not; a pipe not sold so is bought as it stands. Waste in % of \
                     the pipe taken in all weeks: all-in = (taken - in gates) / taken; lost = (kerf + trim + scrap \
                     drops) / taken; kept = drops kept, as they lie / taken.";

#[derive(Serialize)]
struct Whole<'a> {
    format: &'static str,
    version: u32,
    currency: &'a str,
    date: Option<&'a str>,
    files: &'a [String],
    weeks: Vec<&'a str>,
    /// The order date of each week.
    dates: Vec<Option<String>>,
    reference: &'a str,
    tally: Vec<Entry>,
    rows: Vec<WeekRow<'a>>,
}

/// One row of one week.
#[derive(Serialize)]
struct WeekRow<'a> {
    week: &'a str,
    name: &'a str,
    money: Option<f64>,
    over: Option<f64>,
    gap: Option<f64>,
}

#[derive(Serialize)]
struct Entry {
    name: String,
    weeks: u32,
    wins: u32,
    losses: u32,
    cannot: u32,
    median: Option<f64>,
    best: Option<f64>,
    worst: Option<f64>,
    total: Option<TotalEntry>,
}

/// A variant's weeks added up; lengths in ticks.
#[derive(Serialize)]
struct TotalEntry {
    money: Option<f64>,
    joints: u32,
    from_rack: u32,
    taken: i64,
    all_in: i64,
    lost: i64,
    kept: i64,
}

/// Several weeks as text, for the screen. `names` name the weeks, in order.
pub fn weeks_text(weeks: &[Comparison], names: &[String], date: Option<&str>) -> String {
    sheet(weeks, names, date).map_or(String::new(), |s| print_text(&s))
}

/// Several weeks' folder: sheet as text, CSV and workbook, and the document.
///
/// # Errors
/// When a figure cannot be written as JSON or in a workbook, which no checked plan holds.
pub fn weeks_results(
    weeks: &[Comparison],
    names: &[String],
    date: Option<&str>,
) -> Result<Vec<ResultFile>, ResultsFault> {
    let mut files = Vec::new();
    let (Some(first), Some(sheet)) = (weeks.first(), sheet(weeks, names, date)) else {
        return Ok(files);
    };
    files.extend(print(std::slice::from_ref(&sheet)).into_iter().map(bytes));
    let units = first.week.shop.units;
    files.push(("weeks.xlsx".to_owned(), one_table(&sheet, "Weeks", units)?));
    let mut listed: Vec<String> = files.iter().map(|(name, _)| name.clone()).collect();
    listed.push(DOCUMENT.to_owned());
    let amount = |m: Option<i64>| m.and_then(|m| millicents(m, true));
    let entry = |t: Tally| Entry {
        name: t.name,
        weeks: t.weeks,
        wins: t.wins,
        losses: t.losses,
        cannot: t.cannot,
        median: amount(t.median),
        best: amount(t.best),
        worst: amount(t.worst),
        total: t.total.map(|all| TotalEntry {
            money: amount(all.money),
            joints: all.joints,
            from_rack: all.from_rack,
            taken: all.waste.taken.ticks(),
            all_in: all.waste.all_in.ticks(),
            lost: all.waste.lost.ticks(),
            kept: all.waste.kept.ticks(),
        }),
    };
    let whole = Whole {
        format: FORMAT,
        version: 1,
        currency: &first.week.shop.money.currency,
        date,
        files: &listed,
        weeks: names.iter().map(String::as_str).collect(),
        dates: weeks.iter().map(ordered).collect(),
        reference: &first.reference().name,
        tally: tally(weeks).into_iter().map(entry).collect(),
        rows: weeks
            .iter()
            .zip(names)
            .flat_map(|(week, name)| week.rows.iter().map(move |row| (week, name, row)))
            .map(|(week, name, row)| WeekRow {
                week: name,
                name: &row.name,
                money: amount(row.total()),
                over: amount(over(row, week.reference())),
                gap: money(row.figures().and_then(|m| m.gap).map(Gap::money)),
            })
            .collect(),
    };
    let text = serde_json::to_string_pretty(&whole)? + "\n";
    files.push(bytes((DOCUMENT.to_owned(), text)));
    Ok(files)
}

fn sheet(weeks: &[Comparison], names: &[String], date: Option<&str>) -> Option<Sheet> {
    let first = weeks.first()?;
    let tallies = tally(weeks);
    let table = table(first, &tallies);
    let totals = totals(first, &tallies);
    let reference = format!(
        "Weeks: {}. Reference row: {}.",
        clean(&names.join(", ")),
        first.reference().name
    );
    Some(Sheet {
        stem: "weeks".to_owned(),
        title: format!("{} WEEKS COMPARED", weeks.len()),
        heading: Heading {
            shop: clean(&first.week.shop.name),
            date: date.map(clean).unwrap_or_default(),
            ..Heading::default()
        },
        blocks: vec![
            Block::Note(reference),
            Block::Table(table.clone()),
            Block::Note(NOTE.to_owned()),
            Block::Group {
                title: format!("TOTAL OF THE {} WEEKS", weeks.len()),
                aside: String::new(),
                blocks: vec![Block::Table(totals.clone()), Block::Note(TOTAL.to_owned())],
            },
        ]
        .into_iter()
        .chain(weeks.iter().zip(names).map(|(week, name)| {
            Block::Group {
                title: clean(name),
                aside: String::new(),
                blocks: ordered(week)
                    .map(|day| Block::Note(format!("Ordered {day}.")))
                    .into_iter()
                    .chain([Block::Table(super::sheet::money(week))])
                    .collect(),
            }
        }))
        .collect(),
        records: Some(beside(table, totals)),
    })
}

/// The order date of a week.
fn ordered(week: &Comparison) -> Option<String> {
    let day = week.week.shop.buying.order_date;
    day.map(|day| day.to_string())
}

/// Two tables of the same rows in one.
fn beside(mut left: Table, right: Table) -> Table {
    left.columns.extend(right.columns.into_iter().skip(1));
    for (row, more) in left.rows.iter_mut().zip(right.rows) {
        row.extend(more.into_iter().skip(1));
    }
    left
}

/// Each variant's weeks added up.
fn totals(first: &Comparison, tallies: &[Tally]) -> Table {
    let figures = figures(first);
    let cash = |m: Option<i64>| figures.money(m.map(Money::from_millicents));
    let reference = tallies.iter().find(|t| t.name == first.reference().name);
    let reference = reference.and_then(|t| t.total?.money);
    let row = |t: &Tally| {
        let mut cells = vec![Cell::text(&t.name)];
        let Some(all) = &t.total else {
            cells.extend(vec![Cell::Missing; 8]);
            return cells;
        };
        let over = all
            .money
            .zip(reference)
            .map(|(own, reference)| own - reference);
        cells.extend([
            cash(all.money),
            cash(over),
            Cell::count(all.joints),
            Cell::count(all.from_rack),
            feet(first, all.waste.taken),
        ]);
        cells.extend(match percents(&all.waste) {
            Some(shares) => shares.map(|p| Cell::number(p, 2)),
            None => [Cell::Missing, Cell::Missing, Cell::Missing],
        });
        cells
    };
    Table {
        columns: vec![
            Column::new("all weeks together", Kind::Words),
            Column::named("money", "total_money", Kind::Figure),
            Column::named("over", "total_over", Kind::Figure),
            Column::named("joints", "total_joints", Kind::Number),
            Column::named("off rack", "total_from_rack", Kind::Number),
            Column::named(feet_word(first), "total_taken", Kind::Number),
            Column::named("all-in %", "total_all_in_percent", Kind::Number),
            Column::named("lost %", "total_lost_percent", Kind::Number),
            Column::named("kept %", "total_kept_percent", Kind::Number),
        ],
        rows: tallies.iter().map(row).collect(),
    }
}

fn table(first: &Comparison, tallies: &[Tally]) -> Table {
    let figures = figures(first);
    let cash = |m: Option<i64>| figures.money(m.map(Money::from_millicents));
    let row = |t: &Tally| {
        vec![
            Cell::text(&t.name),
            Cell::count(t.weeks),
            Cell::count(t.wins),
            Cell::count(t.losses),
            Cell::count(t.cannot),
            cash(t.median),
            cash(t.best),
            cash(t.worst),
        ]
    };
    Table {
        columns: vec![
            Column::new("the same weeks", Kind::Words),
            Column::new("weeks", Kind::Number),
            Column::new("won", Kind::Number),
            Column::new("lost", Kind::Number),
            Column::named("cannot be made", "cannot", Kind::Number),
            Column::named("median over", "median", Kind::Figure),
            Column::new("best", Kind::Figure),
            Column::new("worst", Kind::Figure),
        ],
        rows: tallies.iter().map(row).collect(),
    }
}
