//! What the stock to be had does not reach for, named by gate or extra part.

use super::owner::owners;
use super::problem::Work;
use crate::nest::{ChargeKind, PoolAnswer, Status, Whole};
use crate::order::{Impossible, Week};
use crate::part::{Part, TakeOff};
use crate::splice::SpliceSet;
use crate::stock::{in_time, late, on_sale};

/// One entry per gate or extra part with a missing piece, in due order; empty when nothing is
/// missing. Pools that each have a plan may have none together: counts of joints bind them.
pub(crate) fn short(
    week: &Week,
    take_off: &TakeOff,
    work: &Work,
    sets: &[SpliceSet],
    (answers, whole): (&[PoolAnswer], Option<&Whole>),
) -> Vec<Impossible> {
    let mut missing: Vec<Missing> = Vec::new();
    for (pool, answer) in answers.iter().enumerate() {
        if answer.status.has_plan() {
            continue;
        }
        let from = missing.len();
        let name = &work.problem.pools[pool].name;
        for (item, count) in &answer.short {
            let settled = work.settled[pool].iter().filter(|(at, _)| at == item);
            let parts = work.items[pool][*item].iter().copied();
            for part in parts.chain(settled.map(|(_, s)| s.part)) {
                missing.push(Missing::of(week, take_off, part, *count, name));
            }
        }
        for (group, count) in &answer.short_groups {
            for set in &work.groups[pool][*group] {
                for line in &sets[*set].lines {
                    missing.push(Missing::of(week, take_off, line.part, *count, name));
                }
            }
        }
        if answer.short.is_empty() && answer.short_groups.is_empty() {
            missing.extend(nameless(week, take_off, work, sets, pool));
        }
        if answer.status == Status::NoneFound {
            missing[from..].iter_mut().for_each(Missing::not_ruled_out);
        }
    }
    let none = |w: &Whole| !w.status.has_plan();
    if missing.is_empty() && whole.is_some_and(none) {
        for pool in counted(work) {
            missing.extend(nameless(week, take_off, work, sets, pool));
        }
    }
    in_due_order(week, missing)
}

/// Pools with stocks whose counts are bound, each once.
fn counted(work: &Work) -> Vec<usize> {
    let charges = work.problem.charges.iter();
    let ranges = charges.filter(|c| matches!(c.kind, ChargeKind::Range { .. }));
    dedup(ranges.flat_map(|c| &c.over).map(|at| at.pool).collect())
}

struct Missing {
    gate: Option<usize>,
    extra: Option<usize>,
    said: Impossible,
}

impl Missing {
    /// No way was found, which is less than that there is none.
    fn not_ruled_out(&mut self) {
        self.said.reason += "; no way of cutting it was found, and none is ruled out";
        self.said.change += ", or --work 10 to search further";
    }

    fn of(week: &Week, take_off: &TakeOff, part: usize, count: u32, pool: &str) -> Missing {
        let p = &take_off.parts[part];
        let (ran_out, change) = ran_out(week, p, pool);
        let mark = match (p.gate, p.extra) {
            (Some(g), _) => week.gates[g].mark.clone(),
            (None, Some(e)) => week.extras[e].mark.clone(),
            (None, None) => p.mark.clone(),
        };
        Missing {
            gate: p.gate,
            extra: p.extra,
            said: Impossible {
                gate: p.gate,
                extra: p.extra,
                mark,
                part: Some(p.mark.clone()),
                reason: format!(
                    "{ran_out}: {count} of length {} (this part and its equals) cannot be cut",
                    p.saw.print(week.shop.units)
                ),
                change,
            },
        }
    }
}

/// What ran out, and what mends it.
fn ran_out(week: &Week, part: &Part, pool: &str) -> (String, String) {
    // Where nothing is on sale (or nothing may be bought) the rack alone was asked.
    let mut new = on_sale(week, part.pipe);
    let timely = new.any(|(_, q)| in_time(week, q, part.gate));
    match (timely, late(week, part.pipe, part.gate, |_| true)) {
        (true, None) => (
            format!("the joints of {pool} that can be had run out"),
            "more joints to be had of this pipe".to_owned(),
        ),
        (true, Some(late)) => (
            format!(
                "the joints of {pool} that can be here by {} run out; more {}",
                late.wanted,
                late.comes()
            ),
            late.mend(),
        ),
        (false, Some(late)) => (
            format!(
                "no new joint of {pool} is here by {} (the first {}) and the rack runs out",
                late.wanted,
                late.comes()
            ),
            late.mend(),
        ),
        (false, None) => (
            format!("no new joint of {pool} is to be had and the rack runs out"),
            "a row of stock.csv for this pipe, or more of it on the rack".to_owned(),
        ),
    }
}

/// When the answer names nothing, everything of the pool is in question.
fn nameless(
    week: &Week,
    take_off: &TakeOff,
    work: &Work,
    sets: &[SpliceSet],
    pool: usize,
) -> Vec<Missing> {
    let name = &work.problem.pools[pool].name;
    let settled = work.settled[pool].iter().map(|(_, s)| s.part);
    let items = work.items[pool].iter().flatten().copied();
    let items = items.chain(settled);
    let lines = work.groups[pool]
        .iter()
        .flatten()
        .flat_map(|s| sets[*s].lines.iter().map(|l| l.part));
    items
        .chain(lines)
        .map(|part| Missing::of(week, take_off, part, 1, name))
        .collect()
}

/// One entry per owner, in due order.
fn in_due_order(week: &Week, missing: Vec<Missing>) -> Vec<Impossible> {
    let gates: Vec<usize> = missing.iter().filter_map(|m| m.gate).collect();
    let extras: Vec<usize> = missing.iter().filter_map(|m| m.extra).collect();
    let rank = owners(week, &dedup(gates), &dedup(extras));
    let mut out: Vec<Impossible> = Vec::new();
    for owner in rank.iter().filter(|o| o.copy <= 1) {
        let first = missing
            .iter()
            .find(|m| m.gate == owner.gate && m.extra == owner.extra);
        out.extend(first.map(|m| m.said.clone()));
    }
    out
}

fn dedup(mut list: Vec<usize>) -> Vec<usize> {
    list.sort_unstable();
    list.dedup();
    list
}
