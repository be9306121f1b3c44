//! A nest answer in words.

use std::collections::BTreeMap;
use std::fmt::Write;

use crate::check::certificate::{Checked, Verified};
use crate::nest::{Answer, Cut, Pool, PoolAnswer, Problem, Status, Whole};

/// Patterns, splices, cost, bound and status of every pool, and of the whole.
pub(super) fn answer_text(problem: &Problem, answer: &Answer) -> String {
    let mut out = String::new();
    for (pool, answer) in problem.pools.iter().zip(&answer.pools) {
        pool_text(&mut out, pool, answer);
    }
    if let Some(whole) = &answer.whole {
        let _ = writeln!(out, "charges");
        for (charge, money) in problem.charges.iter().zip(&whole.charges) {
            let _ = writeln!(out, "  {}: {money}", charge.name);
        }
        let _ = writeln!(
            out,
            "{}",
            verdict(WHOLE, whole.status, whole.cost, whole.bound)
        );
    }
    out
}

const WHOLE: &str = "all pools with charges";

fn verdict(name: &str, status: Status, cost: i64, bound: i64) -> String {
    let gap = cost.saturating_sub(bound);
    match status {
        Status::Proved => format!("{name}: {cost}, proved"),
        Status::ProvedBySearch => format!("{name}: {cost}, proved by search (bound {bound})"),
        Status::Within => format!("{name}: {cost}, within {gap} (bound {bound})"),
        Status::Short => format!("{name}: short"),
        Status::Stopped => format!("{name}: stopped before any bound"),
    }
}

fn pool_text(out: &mut String, pool: &Pool, answer: &PoolAnswer) {
    let line = verdict(&pool.name, answer.status, answer.cost, answer.bound);
    let _ = writeln!(out, "{line}");
    for pattern in &answer.patterns {
        let name = pool
            .stocks
            .get(pattern.stock)
            .map_or("?", |s| s.name.as_str());
        let mut cuts: BTreeMap<(std::cmp::Reverse<i64>, &str), u32> = BTreeMap::new();
        for cut in &pattern.cuts {
            let (length, kind) = match *cut {
                Cut::Item(i) => (pool.items.get(i).map_or(0, |i| i.length), ""),
                Cut::Piece { length, .. } => (length, "*"),
            };
            *cuts.entry((std::cmp::Reverse(length), kind)).or_default() += 1;
        }
        let cuts: Vec<String> = cuts
            .into_iter()
            .map(|((length, kind), n)| format!("{n} x {}{kind}", length.0))
            .collect();
        let cuts = if cuts.is_empty() {
            "left uncut".to_owned()
        } else {
            cuts.join(", ")
        };
        let _ = writeln!(out, "  {} of {name}: {cuts}", pattern.times);
    }
    for made in &answer.configurations {
        let name = pool.groups.get(made.group).map_or("?", |g| g.name.as_str());
        let line = |pieces: &Vec<i64>| {
            let pieces: Vec<String> = pieces.iter().map(i64::to_string).collect();
            pieces.join(" + ")
        };
        let lines: Vec<String> = made.lines.iter().map(line).collect();
        let _ = writeln!(out, "  {} of {name} as {}", made.times, lines.join(" and "));
    }
    for (item, n) in &answer.short {
        let length = pool.items.get(*item).map_or(0, |i| i.length);
        let _ = writeln!(out, "  missing: {n} x {length}");
    }
    for (group, n) in &answer.short_groups {
        let name = pool.groups.get(*group).map_or("?", |g| g.name.as_str());
        let _ = writeln!(out, "  missing: {n} of {name}");
    }
}

/// What the verifier found, a line per claim.
pub(super) fn verified_text(
    problem: &Problem,
    answers: &[PoolAnswer],
    whole: Option<&Whole>,
    found: &Checked,
) -> String {
    let line = |name: &str, status: Status, claimed: i64, own: &Option<Verified>| match own {
        Some(own) => format!(
            "{}; claimed bound {claimed}, found {}\n",
            verdict(name, status, own.cost, claimed),
            own.bound
        ),
        None => format!("{name}: claims no bound\n"),
    };
    let mut out = String::from("verified\n");
    for ((pool, answer), own) in problem.pools.iter().zip(answers).zip(&found.pools) {
        out.push_str(&line(&pool.name, answer.status, answer.bound, own));
    }
    if let Some(whole) = whole {
        out.push_str(&line(WHOLE, whole.status, whole.bound, &found.whole));
    }
    out
}
