//! Several weeks under the same variants: wins, losses, median and worst, so that one good week makes no
//! rule.

use super::Comparison;

/// One variant over all weeks, against each week's reference row.
#[derive(Clone, Debug, PartialEq, Eq)]
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
}

/// A cent in 1/1000 cent.
const CENT: i64 = 1_000;

/// The variants over these weeks, in the order they first occur.
pub fn tally(weeks: &[Comparison]) -> Vec<Tally> {
    let mut names: Vec<&str> = Vec::new();
    for row in weeks.iter().flat_map(|w| &w.rows) {
        if !names.contains(&row.name.as_str()) {
            names.push(&row.name);
        }
    }
    names.into_iter().map(|name| one(name, weeks)).collect()
}

fn one(name: &str, weeks: &[Comparison]) -> Tally {
    let mut over: Vec<i64> = Vec::new();
    let mut cannot = 0;
    for week in weeks {
        let Some(row) = week.rows.iter().find(|r| r.name == name) else {
            continue;
        };
        match (row.total(), week.reference().total()) {
            (Some(own), Some(reference)) => over.push(own - reference),
            _ => cannot += u32::from(row.figures().is_none()),
        }
    }
    over.sort_unstable();
    let count = |picked: &dyn Fn(i64) -> bool| {
        u32::try_from(over.iter().filter(|d| picked(**d)).count()).unwrap_or(u32::MAX)
    };
    Tally {
        name: name.to_owned(),
        weeks: count(&|_| true),
        wins: count(&|d| d <= -CENT),
        losses: count(&|d| d >= CENT),
        cannot,
        median: over.get(over.len() / 2).copied(),
        worst: over.last().copied(),
        best: over.first().copied(),
    }
}
