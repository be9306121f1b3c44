//! A nest answer in words.

use std::collections::BTreeMap;
use std::fmt::Write;

use crate::check::certificate::{Checked, Verified};
use crate::check::document::PlanFile;
use crate::nest::{
    Aim, Answer, Cut, Pool, PoolAnswer, Problem, Status, StopReason, Weighing, Whole,
};
use crate::report::{endings, why_ended};
use crate::text::shown;

use super::coin::{Coin, unpriced_legend};
use super::nest_missing::missing;

/// Patterns, splices, cost, bound and status of every pool, and of the whole.
pub(super) fn answer_text(
    problem: &Problem,
    answer: &Answer,
    weighing: Option<Weighing>,
) -> String {
    let mut out = String::new();
    for (pool, answer) in problem.pools.iter().zip(&answer.pools) {
        let figures = Figures::of(problem, weighing, std::slice::from_ref(pool));
        let line = figures.verdict(&shown(&pool.name), answer.status, answer.cost, answer.bound);
        let _ = writeln!(out, "{line}{}", ended(answer.status, answer.stop));
        pool_text(&mut out, pool, answer);
    }
    if let Some(whole) = &answer.whole {
        let _ = writeln!(out, "charges");
        for (charge, money) in problem.charges.iter().zip(&whole.charges) {
            let _ = writeln!(out, "  {}: {money}", shown(&charge.name));
        }
        let figures = Figures::of(problem, weighing, &problem.pools);
        let line = figures.verdict(WHOLE, whole.status, whole.cost, whole.bound);
        let _ = writeln!(out, "{line}{}", ended(whole.status, whole.stop));
    }
    legend(&mut out, answer);
    if none_found(answer) {
        out.push_str(MIGHT_HELP);
    }
    out
}

fn none_found(answer: &Answer) -> bool {
    let pools = answer.pools.iter().map(|p| p.status);
    let mut all = pools.chain(answer.whole.iter().map(|w| w.status));
    all.any(|s| s == Status::NoneFound)
}

/// What is left to try where no plan was found and none is ruled out.
const MIGHT_HELP: &str = "none found: a plan may still be there. What helps: --work 10 or more time, more or longer \
                          stock,\nwider slots, one splice more or less, counts of joints less narrow\n";

/// Why an open search ended, behind its verdict.
fn ended(status: Status, why: StopReason) -> String {
    match status {
        // Of a pool under charges the whole decides: its own search may be closed and its money not least.
        Status::Within | Status::NoneFound if why != StopReason::Closed => {
            format!(", {}", why_ended(why))
        }
        _ => String::new(),
    }
}

/// What the star and the words for open searches mean, of those that stand above.
fn legend(out: &mut String, answer: &Answer) {
    let mut cuts = answer
        .pools
        .iter()
        .flat_map(|p| &p.patterns)
        .flat_map(|p| &p.cuts);
    if cuts.any(|c| matches!(c, Cut::Piece { .. })) {
        out.push_str("*: a piece of a spliced line\n");
    }
    let pools = answer.pools.iter().map(|p| (p.status, p.stop));
    let whole = answer.whole.iter().map(|w| (w.status, w.stop));
    let said: String = pools
        .chain(whole)
        .map(|(status, why)| ended(status, why))
        .collect();
    for line in endings(&said) {
        let _ = writeln!(out, "{line}");
    }
}

const WHOLE: &str = "all pools with charges";

/// How costs and bounds are printed: money, or what the aim counts and then money.
struct Figures<'a> {
    aim: Aim,
    coin: Coin<'a>,
    weighing: Option<Weighing>,
    /// All items and lines together: what is taken beyond it is waste.
    wanted: i128,
}

impl<'a> Figures<'a> {
    fn of(problem: &Problem, weighing: Option<Weighing>, pools: &[Pool]) -> Figures<'a> {
        let items = pools.iter().flat_map(|p| &p.items);
        let items = items.map(|i| i128::from(i.count) * i128::from(i.length));
        let groups = pools.iter().flat_map(|p| &p.groups);
        let lines = groups.flat_map(|g| {
            g.lines
                .iter()
                .map(|l| i128::from(g.count) * i128::from(l.length))
        });
        Figures {
            aim: problem.aim,
            coin: Coin::Plain,
            weighing,
            wanted: items.chain(lines).sum(),
        }
    }

    fn verdict(&self, name: &str, status: Status, cost: i64, bound: i64) -> String {
        let Some(by) = self.weighing else {
            return verdict(name, status, cost, bound, self.coin);
        };
        let (count, least) = (cost.div_euclid(by.weight), bound.div_euclid(by.weight));
        let (money, lowest) = (cost.rem_euclid(by.weight), bound.rem_euclid(by.weight));
        let what = self.count(count, by.unit);
        match status {
            Status::Proved => format!("{name}: {what}, money {money}, proved"),
            Status::ProvedBySearch => format!(
                "{name}: {what}, money {money}, proved by search (bound {}, money {lowest})",
                self.beyond(least, by.unit)
            ),
            Status::Within if count == least => format!(
                "{name}: {what}, proved; money {money}, within {} (bound {lowest})",
                money - lowest
            ),
            Status::Within => {
                let (made, least) = (self.beyond(count, by.unit), self.beyond(least, by.unit));
                format!(
                    "{name}: {what}, within {} (bound {least}); money {money}",
                    made - least
                )
            }
            Status::Short | Status::NoneFound => verdict(name, status, cost, bound, self.coin),
        }
    }

    /// What the aim counts: joints, splices, or the length taken beyond what is wanted.
    fn beyond(&self, n: i64, unit: i64) -> i128 {
        let all = i128::from(n) * i128::from(unit);
        match self.aim {
            Aim::Waste => (all - self.wanted).max(0),
            Aim::Joints | Aim::Splices | Aim::Money => all,
        }
    }

    /// The same, in words.
    fn count(&self, n: i64, unit: i64) -> String {
        let beyond = self.beyond(n, unit);
        let n = i128::from(n) * i128::from(unit);
        let noun = match self.aim {
            Aim::Waste => return format!("waste {beyond} of {n} taken"),
            Aim::Splices => "splice",
            Aim::Joints | Aim::Money => "joint",
        };
        format!("{n} {noun}{}", if n == 1 { "" } else { "s" })
    }
}

fn verdict(name: &str, status: Status, cost: i64, bound: i64, coin: Coin<'_>) -> String {
    let gap = coin.print(cost.saturating_sub(bound));
    let (cost, bound) = (coin.print(cost), coin.print(bound));
    match status {
        Status::Proved => format!("{name}: {cost}, proved"),
        Status::ProvedBySearch => format!("{name}: {cost}, proved by search (bound {bound})"),
        Status::Within => format!("{name}: {cost}, within {gap} (bound {bound})"),
        Status::Short => format!("{name}: short, no plan can be"),
        Status::NoneFound => format!("{name}: none found, and none is ruled out"),
    }
}

fn pool_text(out: &mut String, pool: &Pool, answer: &PoolAnswer) {
    for pattern in &answer.patterns {
        let name = pool
            .stocks
            .get(pattern.stock)
            .map_or("?".to_owned(), |s| shown(&s.name));
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
        let name = pool.groups.get(made.group);
        let name = name.map_or("?".to_owned(), |g| shown(&g.name));
        let line = |pieces: &Vec<i64>| {
            let pieces: Vec<String> = pieces.iter().map(i64::to_string).collect();
            pieces.join(" + ")
        };
        let lines: Vec<String> = made.lines.iter().map(line).collect();
        let _ = writeln!(out, "  {} of {name} as {}", made.times, lines.join(" and "));
    }
    for line in missing(pool, answer) {
        let _ = writeln!(out, "{line}");
    }
}

/// What the verifier found, a line per claim; of a plan's file only the cutting problem is judged, and its
/// money has the plan's currency.
pub(super) fn verified_text(
    plan: Option<&PlanFile>,
    problem: &Problem,
    answers: &[PoolAnswer],
    whole: Option<&Whole>,
    found: &Checked,
) -> String {
    let by = found.weighing;
    let priced = plan.map(PlanFile::priced).unwrap_or_default();
    let currency = plan.map(|p| shown(&p.currency)).unwrap_or_default();
    let coin = |priced: bool| match plan {
        Some(_) if priced => Coin::Currency(&currency),
        _ => Coin::Plain,
    };
    let mut out = String::from(match plan {
        Some(_) => {
            "verified: this plan's cutting problem, joints, costs and bounds; the file's printed figures \
             are not judged\n"
        }
        None => "verified; numbers are in the units of the problem\n",
    });
    let pools = problem.pools.iter().zip(answers).zip(&found.pools);
    for (i, ((pool, answer), own)) in pools.enumerate() {
        let figures = Figures {
            coin: coin(priced.get(i) == Some(&true)),
            ..Figures::of(problem, by, std::slice::from_ref(pool))
        };
        let claim = (answer.status, answer.bound);
        out.push_str(&verified_line(
            &figures,
            &shown(&pool.name),
            claim,
            own.as_ref(),
        ));
    }
    let unpriced = priced.contains(&false);
    if let Some(whole) = whole {
        let figures = Figures {
            coin: coin(!unpriced),
            ..Figures::of(problem, by, &problem.pools)
        };
        let claim = (whole.status, whole.bound);
        out.push_str(&verified_line(&figures, WHOLE, claim, found.whole.as_ref()));
    }
    if unpriced {
        out.push_str(&unpriced_legend(whole.is_some()));
    }
    out
}

fn verified_line(
    figures: &Figures<'_>,
    name: &str,
    (status, claimed): (Status, i64),
    own: Option<&Verified>,
) -> String {
    let Some(own) = own else {
        return format!("{name}: claims no bound\n");
    };
    format!(
        "{}; claimed bound {}, found {}{}\n",
        figures.verdict(name, status, own.cost, claimed),
        figures.coin.print(claimed),
        figures.coin.print(own.bound),
        if status == Status::ProvedBySearch {
            "; that a search ended is longpoint's word, not verified here"
        } else {
            ""
        }
    )
}
