//! Row refinement leaves many rows that no longer matter: the program rebuilt on those that do.

use std::collections::BTreeSet;

use super::master::{Master, Sort};
use super::pricing::Duals;
use super::rules::configuration_cost;

/// Columns dearer than this (in units of the dearest joint) are left behind.
const NEAR: f64 = 0.02;

/// The program on the rows in use: items, rows whose dual rises, rows of columns in the basis. The duals
/// given are carried over; none of their rises is lost.
pub(super) fn compact<'a>(old: &Master<'a>, best: Option<&Duals>) -> (Master<'a>, Option<Duals>) {
    let mut keep: BTreeSet<usize> = BTreeSet::new();
    for (r, row) in old.rows.iter().enumerate() {
        if row.item.is_some() {
            keep.insert(r);
        }
    }
    for (column, value) in old.lp.basics().filter(|(_, value)| *value > 1e-9) {
        match &old.sorts[column] {
            Sort::Pattern(_, cuts) if value > 1e-9 => keep.extend(cuts.iter().map(|c| c.0)),
            Sort::Splicing(group, lines) => {
                let class = old.pool.groups[*group].class;
                keep.extend(
                    lines
                        .iter()
                        .flatten()
                        .filter_map(|&p| old.row_above(class, p)),
                );
            }
            _ => {}
        }
    }
    let present = Duals::of(old);
    let slight = present.slight(old);
    for list in old.linked.values() {
        for duals in [Some(&present), best].into_iter().flatten() {
            let mut before = 0;
            for &r in list {
                let dual = duals.rows.get(r).copied().unwrap_or(0);
                if dual > before {
                    if dual - before > slight || best.is_some_and(|b| b == duals) {
                        keep.insert(r);
                    }
                    before = dual;
                }
            }
        }
    }
    let mut new = Master::new(old.pool);
    let mut place: Vec<Option<usize>> = vec![None; old.rows.len()];
    for &r in &keep {
        let row = old.rows[r];
        place[r] = match row.item {
            Some(item) => new.rows.iter().position(|n| n.item == Some(item)),
            None => Some(new.piece_row(row.class, row.length)),
        };
    }
    carry(old, &mut new, &place);
    let best = best.map(|b| {
        let mut moved = b.clone();
        moved.rows = vec![0; new.rows.len()];
        for (r, to) in place.iter().enumerate() {
            if let (Some(to), Some(&dual)) = (to, b.rows.get(r)) {
                moved.rows[*to] = dual;
            }
        }
        moved
    });
    (new, best)
}

/// Copies the columns in the basis and the cheap ones that live on kept rows.
fn carry(old: &Master<'_>, new: &mut Master<'_>, place: &[Option<usize>]) {
    let basic: BTreeSet<usize> = old.lp.basics().map(|(c, _)| c).collect();
    for (column, sort) in old.sorts.iter().enumerate() {
        match sort {
            Sort::Aid => {}
            Sort::Pattern(stock, cuts) => {
                let near = || old.pattern_reduced(*stock, cuts) < NEAR;
                let moved: Option<Vec<(usize, u32)>> =
                    cuts.iter().map(|&(r, n)| Some((place[r]?, n))).collect();
                if let Some(moved) = moved
                    && (basic.contains(&column) || near())
                {
                    new.add_pattern(*stock, moved);
                }
            }
            Sort::Splicing(group, lines) => {
                let pool = old.pool;
                if let Ok(money) = configuration_cost(&pool.groups[*group], pool.mark, lines)
                    && (basic.contains(&column)
                        || old.splicing_reduced(*group, lines, money) < NEAR)
                {
                    new.add_splicing(*group, lines.clone(), money);
                }
            }
        }
    }
}
