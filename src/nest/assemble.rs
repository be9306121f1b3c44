//! From chosen patterns and configurations to a whole answer: every item exactly its count.
//!
//! A pattern may hold more than is needed, or a longer piece than the need: the longest needs take the
//! shortest piece that serves them, what is over stays in the drop, and what is still missing goes in
//! longest first, best fit. So anything, even a half-rounded program, becomes a legal answer.

use std::collections::BTreeMap;

use super::answer::{Configuration, PoolAnswer, Status};
use super::best_fit::{Joint, Need, best_fit};
use super::longest_first::{answer_of, needs, orders};
use super::master::Row;
use super::problem::Pool;
use super::tie::is_taken;

/// Rows with how many pieces of each.
pub(super) type Counted = Vec<(usize, u32)>;

/// Chosen columns with their times.
#[derive(Clone, Debug, Default)]
pub(super) struct Choice {
    /// (stock, (row, count), times).
    pub patterns: Vec<(usize, Counted, u32)>,
    /// (group, lines, times).
    pub splicings: Vec<(usize, Vec<Vec<i64>>, u32)>,
}

/// The best answer this choice leads to; groups not chosen often enough take `spare` configurations.
pub(super) fn assemble(
    pool: &Pool,
    rows: &[Row],
    choice: &Choice,
    spare: &[Configuration],
) -> Option<PoolAnswer> {
    let configurations = configurations(pool, choice, spare)?;
    let mut needs = needs(pool, &configurations);
    let joints = fill(pool, rows, choice, &mut needs);
    let mut best: Option<PoolAnswer> = None;
    for order in orders(pool) {
        let packed = best_fit(pool, joints.clone(), &needs, &order);
        let answer = answer_of(pool, packed, &configurations);
        let cheaper = best.as_ref().is_none_or(|b| is_taken(pool, &answer, b));
        if answer.status != Status::Short && cheaper {
            best = Some(answer);
        }
        if needs.iter().all(|n| n.count == 0) {
            break;
        }
    }
    best
}

/// Exactly the count of each group, equal ones together, in a fixed order.
fn configurations(
    pool: &Pool,
    choice: &Choice,
    spare: &[Configuration],
) -> Option<Vec<Configuration>> {
    let mut left: Vec<u32> = pool.groups.iter().map(|g| g.count).collect();
    let mut made: BTreeMap<(usize, &Vec<Vec<i64>>), u32> = BTreeMap::new();
    let chosen = choice
        .splicings
        .iter()
        .map(|(g, lines, times)| (*g, lines, *times));
    let spare = spare.iter().map(|c| (c.group, &c.lines, u32::MAX));
    for (group, lines, times) in chosen.chain(spare) {
        let times = times.min(left[group]);
        if times > 0 {
            left[group] -= times;
            *made.entry((group, lines)).or_insert(0) += times;
        }
    }
    let whole = left.iter().all(|l| *l == 0);
    let list = made
        .into_iter()
        .map(|((group, lines), times)| Configuration {
            group,
            times,
            lines: lines.clone(),
        });
    whole.then(|| list.collect())
}

/// Joints of the chosen patterns holding only what is needed; the needs served are taken off.
fn fill(pool: &Pool, rows: &[Row], choice: &Choice, needs: &mut [Need]) -> Vec<Joint> {
    let mut joints: Vec<Joint> = Vec::new();
    let mut places: BTreeMap<(u8, i64), Vec<usize>> = BTreeMap::new();
    let mut left: Vec<Option<u32>> = pool.stocks.iter().map(|s| s.limit).collect();
    for (stock, cuts, times) in &choice.patterns {
        for _ in 0..*times {
            match &mut left[*stock] {
                Some(0) => break,
                Some(left) => *left -= 1,
                None => {}
            }
            for &(row, count) in cuts {
                let key = (rows[row].class, rows[row].length);
                let list = places.entry(key).or_default();
                list.extend((0..count).map(|_| joints.len()));
            }
            joints.push(Joint::new(pool, *stock));
        }
    }
    for list in places.values_mut() {
        list.reverse();
    }
    let mut order: Vec<usize> = (0..needs.len()).collect();
    order.sort_by_key(|&n| (std::cmp::Reverse(needs[n].length), needs[n].cut));
    for n in order {
        let Need {
            cut, length, class, ..
        } = needs[n];
        while needs[n].count > 0 {
            let serve = places
                .range_mut((class, length)..=(class, i64::MAX))
                .find(|p| !p.1.is_empty());
            let Some(joint) = serve.and_then(|(_, list)| list.pop()) else {
                break;
            };
            joints[joint].put(length + pool.kerf, class, cut);
            needs[n].count -= 1;
        }
    }
    joints.retain(|j| !j.cuts.is_empty());
    joints
}
