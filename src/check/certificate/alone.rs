//! A weaker bound for groups with more ways of choosing slots than can be gone through: each line by itself,
//! without the rule of three splices and without what ties it to the other line. Leaving rules out can only make
//! a line cheaper, so the sum over the lines bounds the group from below, however many splices there are.
//!
//! For each number of splices the least cost is carried from splice to splice as levels: spans of positions
//! (whole marks of metal in front) of one cost. A piece may be read as "at most so long" for each worth it can
//! have, since a shorter one is never worth more. Of the levels that reach a slot the cheapest is kept at each
//! position.

use super::chain::Chain;
use super::worth::Worth;
use crate::nest::{Group, Line};

/// Ways of choosing slots that are gone through: of one line, of both lines together.
const MOST_CHOICES: (u128, u128) = (10_000, 25_000_000);

/// Whether the group is bounded line by line (`splice_bound.py` counts the same).
pub(super) fn is_loose(group: &Group) -> bool {
    let each: Vec<u128> = group.lines.iter().map(choices).collect();
    let both = each.iter().fold(1u128, |all, own| all.saturating_mul(*own));
    both > MOST_CHOICES.1 || each.iter().any(|own| *own > MOST_CHOICES.0)
}

/// Σ over the allowed numbers of splices of the ways to choose so many slots.
fn choices(line: &Line) -> u128 {
    let slots = line.slots.len() as u128;
    let mut of = 1u128;
    let mut sum = 0u128;
    for m in 0..=u128::from(line.most_splices) {
        if m > slots {
            break;
        }
        // One way to choose none.
        of = of.saturating_mul(slots + 1 - m).checked_div(m).unwrap_or(1);
        if u128::from(line.least_splices) <= m {
            sum = sum.saturating_add(of);
        }
    }
    sum
}

/// Positions up to which metal in front of a splice costs this much.
#[derive(Clone, Copy)]
struct Level {
    lo: i64,
    hi: i64,
    zone: Option<u32>,
    cost: i128,
}

/// Least splices + charges × scale + worth of pieces of one line; `None`: it has no way.
pub(super) fn least(
    line: &Line,
    mark: i64,
    longest: i64,
    worth: &Worth,
    (scale, splice): (i128, i128),
) -> Option<i128> {
    let with = |m: u32| {
        if m == 0 {
            return (line.whole <= longest).then(|| worth.of(line.whole));
        }
        let chain = Chain::new(line, m, mark, longest)?;
        Some(carried(&chain, worth, scale)? + splice * i128::from(m))
    };
    (line.least_splices..=line.most_splices)
        .filter_map(with)
        .min()
}

/// (longest piece in marks, worth) by rising worth.
fn lengths(chain: &Chain<'_>, worth: &Worth) -> Vec<(i64, i128)> {
    let mut out = Vec::new();
    let mut from = chain.least;
    while from <= chain.longest {
        let next = worth.next_rise(from * chain.mark);
        let rise = next.map_or(i64::MAX, |r| -(-r).div_euclid(chain.mark));
        out.push(((rise - 1).min(chain.longest), worth.of(from * chain.mark)));
        from = rise;
    }
    out
}

fn carried(chain: &Chain<'_>, worth: &Worth, scale: i128) -> Option<i128> {
    let lengths = lengths(chain, worth);
    let mut levels = vec![Level {
        lo: 0,
        hi: 0,
        zone: None,
        cost: 0,
    }];
    for j in 1..=chain.m {
        let mut next = Vec::new();
        let left = chain.m + 1 - j;
        for (index, slot) in chain.line.slots.iter().enumerate() {
            let (lo, hi) = chain.range(j, index);
            let lo = lo.max(chain.metal - left * chain.longest);
            let hi = hi.min(chain.metal - left * chain.least);
            if lo > hi {
                continue;
            }
            let reached = arrivals(&levels, (lo, hi), Some(slot.zone), chain, &lengths);
            for (from, to, cost) in cheapest(reached, (lo, hi)) {
                next.push(Level {
                    lo: from,
                    hi: to,
                    zone: Some(slot.zone),
                    cost: cost + i128::from(slot.charge) * scale,
                });
            }
        }
        levels = next;
    }
    let end = (chain.metal, chain.metal);
    let last = levels.iter().filter_map(|level| {
        let reached = arrivals(std::slice::from_ref(level), end, None, chain, &lengths);
        reached.into_iter().map(|(_, _, cost)| cost).min()
    });
    last.min()
}

/// Spans of a slot that these levels reach, with the cost of each.
fn arrivals(
    levels: &[Level],
    (lo, hi): (i64, i64),
    zone: Option<u32>,
    chain: &Chain<'_>,
    lengths: &[(i64, i128)],
) -> Vec<(i64, i64, i128)> {
    let mut out = Vec::new();
    for level in levels {
        // The start and the end of a line are in no zone.
        let barred = zone.is_some() && level.zone == zone;
        if barred || level.lo + chain.least > hi || level.hi + chain.longest < lo {
            continue;
        }
        let first = lengths.partition_point(|l| level.hi + l.0 < lo);
        for (longest, worth) in &lengths[first..] {
            let span = (
                (level.lo + chain.least).max(lo),
                (level.hi + longest).min(hi),
            );
            out.push((span.0, span.1, level.cost + worth));
            if level.hi + longest >= hi {
                break;
            }
        }
    }
    out
}

/// The cheapest of overlapping spans at each position.
fn cheapest(mut spans: Vec<(i64, i64, i128)>, (lo, hi): (i64, i64)) -> Vec<(i64, i64, i128)> {
    spans.sort_unstable_by_key(|s| s.2);
    let mut open = vec![(lo, hi)];
    let mut out = Vec::new();
    for (from, to, cost) in spans {
        let mut left = Vec::new();
        for (a, b) in open {
            let (first, last) = (a.max(from), b.min(to));
            if first > last {
                left.push((a, b));
                continue;
            }
            out.push((first, last, cost));
            left.extend(
                [(a, first - 1), (last + 1, b)]
                    .into_iter()
                    .filter(|g| g.0 <= g.1),
            );
        }
        open = left;
        if open.is_empty() {
            break;
        }
    }
    out
}
