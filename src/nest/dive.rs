//! Diving: round the program's answer down, fix what is whole, fix the largest fraction up, price again
//! on what is left, until everything is chosen; then assemble a legal answer.

use super::answer::{Configuration, PoolAnswer};
use super::assemble::{Choice, assemble};
use super::converge::{Budget, Effort, converge};
use super::master::{Master, Sort};
use super::tie::is_taken;

/// Which fraction is fixed next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Dive {
    /// At this many first choices the second best is taken instead (limited discrepancy).
    pub skip_at: Option<u32>,
    /// Splicings before patterns.
    pub splicings_first: bool,
    /// Rounds of pricing after each fixing.
    pub rounds: u32,
}

/// Fixings in a dive: more than any sane dive needs.
const MOST_STEPS: u32 = 5_000;

/// Dives from a solved master program; the best answer met on the way. Columns made on the way go to `met`.
pub(super) fn dive(
    root: &Master<'_>,
    how: Dive,
    (spare, met): (&[Configuration], &mut Vec<Sort>),
    budget: &mut Budget<'_>,
) -> Option<PoolAnswer> {
    let mut master = root.clone();
    let best = descend(&mut master, how, spare, budget);
    met.extend(master.sorts.split_off(root.sorts.len()));
    best
}

fn descend(
    master: &mut Master<'_>,
    how: Dive,
    spare: &[Configuration],
    budget: &mut Budget<'_>,
) -> Option<PoolAnswer> {
    budget.spend(master.size());
    let mut choice = Choice::default();
    let mut best: Option<PoolAnswer> = None;
    for depth in 0..MOST_STEPS {
        let fixed = fix(master, &mut choice, how, depth);
        if depth == 0 || !fixed {
            let answer = assemble(master.pool, &master.rows, &choice, spare);
            if let Some(answer) = answer
                && best
                    .as_ref()
                    .is_none_or(|b| is_taken(master.pool, &answer, b))
            {
                best = Some(answer);
            }
        }
        if !fixed || budget.over() {
            return best;
        }
        let effort = Effort {
            rounds: how.rounds,
            refinements: 0,
            compact: false,
            enough: i64::MIN,
        };
        converge(master, effort, budget);
    }
    best
}

/// Fixes every whole part, or the one largest fraction when there is none; false when nothing is left.
fn fix(master: &mut Master<'_>, choice: &mut Choice, how: Dive, depth: u32) -> bool {
    let mut whole: Vec<(usize, u32)> = Vec::new();
    let mut parts: Vec<(bool, f64, usize)> = Vec::new();
    for (column, value) in master.lp.basics() {
        let splicing = match &master.sorts[column] {
            Sort::Aid => continue,
            Sort::Pattern(..) => false,
            Sort::Splicing(..) => true,
        };
        let down = (value + 1e-6).floor();
        if down >= 1.0 {
            whole.push((column, down as u32));
        }
        let part = value - down;
        if part > 1e-6 {
            parts.push((splicing && how.splicings_first, part, column));
        }
    }
    parts.sort_by(|a, b| b.0.cmp(&a.0).then(b.1.total_cmp(&a.1)).then(a.2.cmp(&b.2)));
    if whole.is_empty() {
        let second = how.skip_at == Some(depth) && parts.len() > 1;
        match parts.get(usize::from(second)) {
            Some(&(_, _, column)) => whole.push((column, 1)),
            None => return false,
        }
    }
    whole.sort_unstable();
    for (column, times) in whole {
        take(master, choice, column, times);
    }
    true
}

/// Takes a column's pieces off the right sides and puts it into the choice.
fn take(master: &mut Master<'_>, choice: &mut Choice, column: usize, times: u32) {
    let (each, sort) = (f64::from(times), master.sorts[column].clone());
    let less = |master: &mut Master<'_>, row: usize, by: f64| {
        let right = master.lp.right(row) - by;
        master.lp.set_right(row, right);
    };
    match sort {
        Sort::Aid => {}
        Sort::Pattern(stock, cuts) => {
            for &(row, count) in &cuts {
                let lp = master.rows[row].lp;
                less(master, lp, f64::from(count) * each);
            }
            let (stocks, joints) = (master.counts.stock[stock], master.counts.joints);
            for row in [stocks.0, stocks.1, joints.0, joints.1] {
                less(master, row, each);
            }
            choice.patterns.push((stock, cuts, times));
        }
        Sort::Splicing(group, lines) => {
            let class = master.pool.groups[group].class;
            for &piece in lines.iter().flatten() {
                if let Some(row) = master.row_above(class, piece) {
                    let lp = master.rows[row].lp;
                    less(master, lp, -each);
                }
            }
            let splices: u32 = lines.iter().map(|l| l.len() as u32 - 1).sum();
            for row in [master.counts.splices.0, master.counts.splices.1] {
                less(master, row, each * f64::from(splices));
            }
            let row = master.groups[group];
            less(master, row, each);
            choice.splicings.push((group, lines, times));
        }
    }
}
