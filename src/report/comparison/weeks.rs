//! Several weeks' comparison: one row a variant, over all weeks.

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
use super::sheet::over;
use super::{DOCUMENT, FORMAT, figures};

const NOTE: &str = "Over: a variant's landed money less that of the reference row of the same week. Won: cheaper \
                    by a cent or more; lost: dearer. Median: the middle week, of two the dearer; worst: the dearest. \
                    One good week makes no rule. Every figure is of a plan that the checker passed. Gap: no plan \
                    of that row can be cheaper by more.";

#[derive(Serialize)]
struct Whole<'a> {
    format: &'static str,
    version: u32,
    currency: &'a str,
    date: Option<&'a str>,
    files: &'a [String],
    weeks: Vec<&'a str>,
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
    };
    let whole = Whole {
        format: FORMAT,
        version: 1,
        currency: &first.week.shop.money.currency,
        date,
        files: &listed,
        weeks: names.iter().map(String::as_str).collect(),
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
    let table = table(first, &tally(weeks));
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
        ]
        .into_iter()
        .chain(weeks.iter().zip(names).map(|(week, name)| Block::Group {
            title: clean(name),
            aside: String::new(),
            blocks: vec![Block::Table(super::sheet::money(week))],
        }))
        .collect(),
        records: Some(table),
    })
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
