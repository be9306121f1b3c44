//! Where splices may stand, made narrower: which line to part, and the pool with a line's slots within a span.

use std::cmp::Ordering;

use super::lattice::{Span, centre, pieces_sum};
use super::master::{Master, Sort};
use super::problem::{Line, Pool, Slot};

/// A line: its group, and which of the group's lines it is.
pub(super) type At = (usize, usize);

/// The line whose splice the program spreads most, and the spans it is parted in: before and after the
/// middle, or near where it stands and on both sides when nothing is spread.
pub(super) fn widest(pool: &Pool, master: &Master<'_>) -> Option<(At, Vec<Span>)> {
    let mut best: Option<(i64, bool, (usize, usize), i64)> = None;
    for (g, group) in pool.groups.iter().enumerate() {
        for (l, line) in group.lines.iter().enumerate() {
            let stands = stands(pool, master, (g, l), line);
            if (line.least_splices, line.most_splices) != (1, 1) || stands.is_empty() {
                continue;
            }
            let sum: f64 = stands.iter().map(|s| s.1).sum();
            let mean = stands.iter().map(|s| s.0 * s.1).sum::<f64>() / sum;
            let spread = stands.iter().map(|s| (s.0 - mean).abs() * s.1).sum::<f64>() / sum;
            let spread = spread as i64;
            let extent: i64 = line.slots.iter().map(|s| s.hi - s.lo + 1).sum();
            let key = if spread > pool.mark {
                (true, spread)
            } else {
                (false, extent)
            };
            if (key.0 || extent > 2 * pool.mark) && best.is_none_or(|b| key > (b.1, b.0)) {
                best = Some((key.1, key.0, (g, l), mean.floor() as i64));
            }
        }
    }
    let (width, spread, at, mean) = best?;
    let line = &pool.groups[at.0].lines[at.1];
    let near = (width / 16).max(pool.mark);
    let ends = if spread {
        vec![mean]
    } else {
        vec![mean - near, mean + near]
    };
    Some((at, spans(line, pool.mark, &ends)))
}

/// Spans that end at these centres and hold every place of a line's one splice once. Where its centres lie
/// half way between whole numbers, one span begins where the one before ends.
pub(super) fn spans(line: &Line, mark: i64, ends: &[i64]) -> Vec<Span> {
    let rest = line.length - pieces_sum(line, mark, 1);
    let mut found = Vec::new();
    let mut from = i64::MIN;
    for &end in ends {
        found.push((from, end));
        from = end + 1 - rest.rem_euclid(2);
    }
    found.push((from, i64::MAX));
    found
}

/// Centres of a line's splice in the program, with how much of each.
fn stands(pool: &Pool, master: &Master<'_>, (g, l): At, line: &Line) -> Vec<(f64, f64)> {
    let mut found = Vec::new();
    for (column, value) in master.lp.basics() {
        if let Sort::Splicing(group, lines) = &master.sorts[column]
            && *group == g
            && value > 1e-6
            && let Some([first, _]) = lines.get(l).map(Vec::as_slice)
        {
            found.push((centre(line, pool.mark, 2, 1, 1, *first) as f64 / 2.0, value));
        }
    }
    found
}

/// The pool with a line's slots within a span. Of equal groups the first lines' splices stand in order, so
/// those before are not past the span and those after not before it. `None`: nowhere to stand.
pub(super) fn narrowed(pool: &Pool, of: &[usize], (group, line): At, span: Span) -> Option<Pool> {
    let mut narrow = pool.clone();
    for (g, other) in narrow.groups.iter_mut().enumerate() {
        let within = match g.cmp(&group) {
            Ordering::Equal => span,
            _ if line > 0 || of[g] != of[group] => continue,
            Ordering::Less => (i64::MIN, span.1),
            Ordering::Greater => (span.0, i64::MAX),
        };
        let slots = &mut other.lines[line].slots;
        *slots = slots
            .iter()
            .map(|s| Slot {
                lo: s.lo.max(within.0),
                hi: s.hi.min(within.1),
                ..*s
            })
            .filter(|s| s.lo <= s.hi)
            .collect();
        if slots.is_empty() {
            return None;
        }
    }
    Some(narrow)
}
