//! Whole numbers: an integer program whose columns are all known, by branch and bound.
//!
//! Depth first from one tableau. The variable to branch on is the one whose cheaper side costs most by a
//! one-step look ahead; the cheaper side goes first. Nodes, not seconds, end the search.

use super::converge::Budget;
use super::tableau::{End, OUT, Tableau};

/// A program: rows with bounds on their sums, columns with cost, most and entries.
#[derive(Clone, Debug, Default)]
pub(super) struct Program {
    /// Least and greatest sum of each row.
    pub rows: Vec<(f64, f64)>,
    /// Rows whose sum must be whole (branched on as columns are).
    pub whole_rows: Vec<usize>,
    /// Money, most, entries; those marked false may be broken numbers.
    pub columns: Vec<Column>,
}

/// A column of a program.
#[derive(Clone, Debug)]
pub(super) struct Column {
    /// Money, ≥ 0.
    pub money: i64,
    /// Most of it.
    pub most: f64,
    /// (row, number).
    pub entries: Vec<(u32, f64)>,
    /// Whole numbers only.
    pub whole: bool,
}

/// What the search came to.
#[derive(Clone, Debug)]
pub(super) struct Found {
    /// Cheapest whole solution under the cutoff: money and how many of each column.
    pub best: Option<(i64, Vec<u32>)>,
    /// Nothing cheaper than it (or than the cutoff) exists.
    pub closed: bool,
    /// Nodes looked at.
    pub nodes: u64,
}

/// Pivots in one node.
const PIVOTS: u32 = 2_000;

struct Split {
    variable: usize,
    before: (f64, f64),
    other: Option<(f64, f64)>,
}

/// The cheapest whole solution under `cutoff` money; all money is a multiple of `step`.
pub(super) fn cheapest_whole(
    program: &Program,
    cutoff: i64,
    step: i64,
    most_nodes: u64,
    budget: &mut Budget<'_>,
) -> Found {
    let dearest = program.columns.iter().map(|c| c.money).max();
    let unit = dearest.unwrap_or(1).max(1) as f64;
    let columns: Vec<_> = program
        .columns
        .iter()
        .map(|c| (c.money as f64 / unit, c.most, c.entries.clone()))
        .collect();
    let mut whole: Vec<bool> = program.columns.iter().map(|c| c.whole).collect();
    whole.resize(columns.len() + program.rows.len(), false);
    for &r in &program.whole_rows {
        whole[columns.len() + r] = true;
    }
    let mut search = Search {
        program,
        whole,
        step,
        unit,
        limit: 0.0,
        most_nodes,
        found: Found {
            best: None,
            closed: false,
            nodes: 0,
        },
        budget,
    };
    search.limit = search.under(cutoff);
    search.found.closed = search.explore(Tableau::new(&program.rows, &columns));
    search.found
}

struct Search<'s, 'b> {
    program: &'s Program,
    whole: Vec<bool>,
    step: i64,
    unit: f64,
    /// Costs over this are no better than the best.
    limit: f64,
    most_nodes: u64,
    found: Found,
    budget: &'s mut Budget<'b>,
}

impl Search<'_, '_> {
    /// Anything dearer is not a step under `cutoff` (half a step for the floats).
    fn under(&self, cutoff: i64) -> f64 {
        (cutoff as f64 - self.step as f64 * 0.5) / self.unit
    }

    /// Everything within the tableau's bounds; false when nodes or steps ran out.
    fn explore(&mut self, mut tableau: Tableau) -> bool {
        let mut path: Vec<Split> = Vec::new();
        loop {
            self.found.nodes += 1;
            let before = tableau.work;
            let end = tableau.solve(self.limit, PIVOTS);
            let over = self.budget.spend(tableau.work - before);
            if end == End::Lost || over || self.found.nodes > self.most_nodes {
                return false;
            }
            if end == End::Least {
                let room = self.limit - tableau.cost();
                if tableau.far(room) * 3 > tableau.columns() {
                    // Below here the dear columns stay out: go on without them.
                    let smaller = tableau.within(room);
                    if !self.explore(smaller) {
                        return false;
                    }
                } else if let Some(split) = self.split(&mut tableau) {
                    path.push(split);
                    continue;
                } else {
                    self.note(&tableau);
                }
            }
            // Back to the last split with its other side untried.
            loop {
                let Some(last) = path.last_mut() else {
                    return true;
                };
                if let Some(bounds) = last.other.take() {
                    tableau.set_bounds(last.variable, bounds);
                    break;
                }
                tableau.set_bounds(last.variable, last.before);
                path.pop();
            }
        }
    }

    /// A whole solution.
    fn note(&mut self, tableau: &Tableau) {
        let mut counts = vec![0; self.program.columns.len()];
        for (column, value) in tableau.values() {
            counts[column] = (value + 0.5).floor().max(0.0) as u32;
        }
        let columns = self.program.columns.iter().zip(&counts);
        let money: i64 = columns
            .filter(|(c, _)| c.whole)
            .map(|(c, n)| c.money * i64::from(*n))
            .sum();
        self.limit = self.limit.min(self.under(money));
        if self.found.best.as_ref().is_none_or(|b| money < b.0) {
            self.found.best = Some((money, counts));
        }
    }

    /// Splits at the broken variable that promises most, counts of rows first, and goes down its
    /// cheaper side.
    fn split(&self, tableau: &mut Tableau) -> Option<Split> {
        let room = self.limit - tableau.cost();
        let columns = self.program.columns.len();
        let mut best: Option<(bool, f64, f64, usize, f64, bool)> = None;
        let broken: Vec<(usize, usize, f64, bool)> = tableau
            .basics()
            .enumerate()
            .map(|(row, (v, value))| (row, v, value, tableau.name(v, columns)))
            .filter(|&(_, _, value, name)| {
                self.whole[name] && (value - value.round()).abs() > OUT * 10.0
            })
            .map(|(row, v, value, name)| (row, v, value, name >= columns))
            .collect();
        tableau.work += (broken.len() * tableau.columns() * 2) as u64;
        for (row, v, value, count) in broken {
            let part = value - value.floor();
            let (down, up) = tableau.penalties(row, (part, 1.0 - part));
            let (down, up) = (down.min(room * 4.0), up.min(room * 4.0));
            let score = (down + 1e-4 * room) * (up + 1e-4 * room);
            let closer = (part - 0.5).abs();
            let better = best.is_none_or(|b| {
                let same = count == b.0;
                (count && !b.0)
                    || (same && score > b.1 * (1.0 + 1e-9))
                    || (same && score >= b.1 && closer < b.2)
            });
            if better {
                best = Some((count, score, closer, v, value, up <= down));
            }
        }
        let (_, _, _, v, value, up_first) = best?;
        let before = tableau.bounds(v);
        let (down, up) = ((before.0, value.floor()), (value.ceil(), before.1));
        let (first, second) = if up_first { (up, down) } else { (down, up) };
        tableau.set_bounds(v, first);
        Some(Split {
            variable: v,
            before,
            other: Some(second),
        })
    }
}
