//! Several weeks under the same variants: wins, losses, median and worst, so that one good week makes no
//! rule; and all weeks added up.

use super::{Comparison, Figures, Row};
use crate::measure::Length;
use crate::plan::Waste;

/// One variant over all weeks, against each week's reference row.
#[derive(Clone, Debug, PartialEq)]
pub struct Tally {
    /// Name of the row.
    pub name: String,
    /// Weeks that have the row and a price for it and for the reference.
    pub weeks: u32,
    /// Weeks in which it is cheaper than the reference by a cent or more.
    pub wins: u32,
    /// Weeks in which it is dearer by a cent or more.
    pub losses: u32,
    /// Weeks that cannot be made so.
    pub cannot: u32,
    /// Middle difference to the reference, 1/1000 cent (of two middles the dearer: a figure of some week); `None`:
    /// no week.
    pub median: Option<i64>,
    /// Greatest difference to the reference, 1/1000 cent: the worst week.
    pub worst: Option<i64>,
    /// Least difference: the best week.
    pub best: Option<i64>,
    /// All weeks added up; `None` where one of them has no such row or cannot be made so.
    pub total: Option<Total>,
}

/// One variant's weeks added up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Total {
    /// Landed money, 1/1000 cent; `None` where a price is missing in one of them.
    pub money: Option<i64>,
    /// Joints bought.
    pub joints: u32,
    /// Pieces taken off the rack.
    pub from_rack: u32,
    /// Pipe taken, and what became of it.
    pub waste: Waste,
}

impl Total {
    fn of(weeks: &[&Figures]) -> Total {
        let waste = |of: fn(&Waste) -> Length| weeks.iter().map(|w| of(&w.waste)).sum();
        Total {
            money: weeks.iter().map(|w| w.total()).sum(),
            joints: weeks.iter().map(|w| w.joints_bought()).sum(),
            from_rack: weeks.iter().map(|w| w.from_rack).sum(),
            waste: Waste {
                taken: waste(|w| w.taken),
                in_parts: waste(|w| w.in_parts),
                all_in: waste(|w| w.all_in),
                lost: waste(|w| w.lost),
                kept: waste(|w| w.kept),
            },
        }
    }
}

/// A cent in 1/1000 cent.
const CENT: i64 = 1_000;

/// What the rows of several weeks are added up by: the choice where they are one, else their name.
fn key(row: &Row) -> &str {
    row.choice.as_deref().unwrap_or(&row.name)
}

/// The variants over these weeks, in the order they first occur.
pub fn tally(weeks: &[Comparison]) -> Vec<Tally> {
    let mut keys: Vec<&str> = Vec::new();
    for row in weeks.iter().flat_map(|w| &w.rows) {
        if !keys.contains(&key(row)) {
            keys.push(key(row));
        }
    }
    keys.into_iter().map(|key| one(key, weeks)).collect()
}

/// As a week calls it; as *else as it stands* where one week's pipes are not all sold so.
fn name(rows: &[(&Comparison, &Row)]) -> String {
    let partly = rows.iter().find(|(_, row)| !row.notes.is_empty());
    match (partly, rows.first()) {
        (Some((_, row)), _) | (None, Some((_, row))) => row.name.clone(),
        (None, None) => String::new(),
    }
}

fn one(wanted: &str, weeks: &[Comparison]) -> Tally {
    let found = weeks.iter().filter_map(|week| {
        let row = week.rows.iter().find(|row| key(row) == wanted)?;
        Some((week, row))
    });
    let rows: Vec<(&Comparison, &Row)> = found.collect();
    let mut over: Vec<i64> = Vec::new();
    let mut cannot = 0;
    for (week, row) in &rows {
        match (row.total(), week.reference().total()) {
            (Some(own), Some(reference)) => over.push(own - reference),
            _ => cannot += u32::from(row.figures().is_none()),
        }
    }
    over.sort_unstable();
    let made: Vec<&Figures> = rows.iter().filter_map(|(_, row)| row.figures()).collect();
    let count = |picked: &dyn Fn(i64) -> bool| {
        u32::try_from(over.iter().filter(|d| picked(**d)).count()).unwrap_or(u32::MAX)
    };
    Tally {
        name: name(&rows),
        weeks: count(&|_| true),
        wins: count(&|d| d <= -CENT),
        losses: count(&|d| d >= CENT),
        cannot,
        median: over.get(over.len() / 2).copied(),
        worst: over.last().copied(),
        best: over.first().copied(),
        total: (made.len() == weeks.len()).then(|| Total::of(&made)),
    }
}
