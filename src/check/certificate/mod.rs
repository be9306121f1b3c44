//! Verifies a nest answer and its certificate by other code than the search's: sizes, patterns,
//! counts, configurations, cost, and the lower bound of DESIGN §9 in exact integers over the tree of splits.

mod aim;
mod alone;
mod bound;
mod chain;
mod configuration;
#[cfg(test)]
mod counting;
mod cover;
mod curve;
mod intervals;
mod knapsack;
mod legal;
mod possible;
mod size;
mod tie;
mod tree;
mod whole;
mod worth;

pub(super) use possible::possible;

use bound::NoBound;

use super::Violation;
use super::docket::Docket;
use crate::check::Rule;
use crate::nest::{
    Aim, Branch, Charge, ChargeKind, Pool, PoolAnswer, Problem, Status, StockOf, Weighing, Whole,
};

/// What a verified answer comes to, in the problem's money.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Verified {
    /// Cost of the answer.
    pub cost: i64,
    /// The lower bound that its duals give (not less than the one claimed).
    pub bound: i64,
}

/// What a verified answer comes to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Checked {
    /// Each pool by itself.
    pub pools: Vec<Option<Verified>>,
    /// All pools with all charges, in a problem that has any.
    pub whole: Option<Verified>,
    /// How costs and bounds are to be read when the aim is not money.
    pub weighing: Option<Weighing>,
}

/// Verifies the answer of every pool, and of the whole where there are charges; a pool whose answer claims
/// no bound (there is no plan) gives `None`. Where the aim is not money, cost and bound are the weighed ones.
///
/// # Errors
/// Every rule that is broken, by name (`certificate-…`).
pub fn verify(
    problem: &Problem,
    answer: &[PoolAnswer],
    whole: Option<&Whole>,
) -> Result<Checked, Vec<Violation>> {
    let mut docket = Docket::default();
    docket.demand(
        problem.pools.len() == answer.len(),
        Rule::CertificatePools,
        "answer",
        || format!("{} answers for {} pools", answer.len(), problem.pools.len()),
    );
    let mut names: Vec<&str> = problem.pools.iter().map(|p| p.name.as_str()).collect();
    names.sort_unstable();
    names.dedup();
    docket.same(
        names.len(),
        problem.pools.len(),
        Rule::CertificatePools,
        "names",
    );
    let named = named(problem, &mut docket);
    let mut aimed = None;
    if problem.aim != Aim::Money {
        let pools = problem.pools.iter();
        pools.for_each(|pool| size::judge(pool, &mut docket));
        let sound = docket.is_clean();
        aimed = sound.then(|| aim::weighed(problem, &mut docket)).flatten();
        if aimed.is_none() {
            return Err(docket.into_violations());
        }
    }
    let weighing = aimed.as_ref().map(|(weighing, _)| *weighing);
    let problem = aimed.as_ref().map_or(problem, |(_, weighed)| weighed);
    let pools: Vec<Option<Verified>> = problem
        .pools
        .iter()
        .zip(answer)
        .enumerate()
        .map(|(p, (pool, answer))| one(pool, answer, &uncut(problem, p), &mut docket))
        .collect();
    docket.demand(
        problem.charges.is_empty() == whole.is_none(),
        Rule::CertificateCharges,
        "answer",
        || "a problem with charges, and no other, has an answer for the whole".to_owned(),
    );
    let together = match whole {
        Some(whole) if named && docket.is_clean() => all(problem, answer, whole, &mut docket),
        _ => None,
    };
    if docket.is_clean() {
        Ok(Checked {
            pools,
            whole: together,
            weighing,
        })
    } else {
        Err(docket.into_violations())
    }
}

/// Charges name stocks that exist, ascending, with sound numbers.
fn named(problem: &Problem, docket: &mut Docket) -> bool {
    let mut sound = true;
    for charge in &problem.charges {
        let exists = |at: &StockOf| {
            let pool = problem.pools.get(at.pool);
            pool.and_then(|p| p.stocks.get(at.stock)).is_some_and(|s| {
                let priced = !charge.kind.counts_prices() || s.price() >= 1;
                priced && (0..=1 << 40).contains(&s.price())
            })
        };
        let numbers = match charge.kind {
            ChargeKind::Fixed { amount, free_over } => [amount, free_over.unwrap_or(1), 0],
            ChargeKind::Lift {
                lift,
                fee,
                part_fee,
            } => [i64::from(lift) - 1, fee, part_fee],
            ChargeKind::Minimum { least } => [least, 0, 0],
            ChargeKind::Range { .. } => [0; 3],
        };
        let holds = charge.over.windows(2).all(|w| w[0] < w[1])
            && charge.over.iter().all(exists)
            && numbers.iter().all(|n| (0..=1 << 40).contains(n));
        docket.demand(holds, Rule::CertificateCharges, &charge.name, || {
            "its stocks or its numbers make no sense".to_owned()
        });
        sound &= holds;
    }
    sound
}

/// Which stocks of a pool may be bought and left uncut.
fn uncut(problem: &Problem, pool: usize) -> Vec<bool> {
    let stocks = problem.pools[pool].stocks.len();
    let may = |stock| {
        let over = |c: &&Charge| c.over.contains(&StockOf { pool, stock });
        let mut charges = problem.charges.iter().filter(over);
        charges.any(|c| whole::may_stay_uncut(&c.kind))
    };
    (0..stocks).map(may).collect()
}

/// The whole: its cost by the judge's own sum, its bound by its own tree.
fn all(
    problem: &Problem,
    answers: &[PoolAnswer],
    whole: &Whole,
    docket: &mut Docket,
) -> Option<Verified> {
    const NAME: &str = "all pools with charges";
    if !whole.status.has_plan() {
        return None;
    }
    let mut cost: i128 = answers.iter().map(|a| i128::from(a.cost)).sum();
    let count = |at: &StockOf| -> u64 {
        let patterns = answers[at.pool]
            .patterns
            .iter()
            .filter(|p| p.stock == at.stock);
        patterns.map(|p| u64::from(p.times)).sum()
    };
    let mut charges = Vec::new();
    for charge in &problem.charges {
        let (mut n, mut m) = (0u64, 0i128);
        for at in &charge.over {
            n += count(at);
            let price = problem.pools[at.pool].stocks[at.stock].price();
            m += i128::from(count(at)) * i128::from(price);
        }
        let money = curve::paid(
            &charge.kind,
            if charge.kind.counts_prices() {
                m
            } else {
                n.into()
            },
        );
        docket.demand(
            money.is_some(),
            Rule::CertificateRange,
            &charge.name,
            || format!("{n} joints, which its range forbids"),
        );
        cost += money.unwrap_or(0);
        charges.push(money.unwrap_or(0));
    }
    let said: Vec<i128> = whole.charges.iter().map(|c| i128::from(*c)).collect();
    docket.same(said, charges, Rule::CertificateCharges, NAME);
    docket.same(i128::from(whole.cost), cost, Rule::CertificateCost, NAME);
    let proved = whole.status == Status::Proved;
    docket.demand(
        whole.bound <= whole.cost && (!proved || whole.bound == whole.cost),
        Rule::CertificateStatus,
        NAME,
        || format!("a bound of {} and a cost of {}", whole.bound, whole.cost),
    );
    let bound = claimed(NAME, whole.bound, whole::least(problem, whole), docket)?;
    Some(Verified {
        cost: whole.cost,
        bound: i64::try_from(bound).unwrap_or(i64::MAX),
    })
}

fn one(pool: &Pool, answer: &PoolAnswer, uncut: &[bool], docket: &mut Docket) -> Option<Verified> {
    let mut sizes = Docket::default();
    size::judge(pool, &mut sizes);
    for node in &answer.proof {
        if let Branch::Leaf(leaf) = node {
            size::judge_leaf(pool, leaf, &mut sizes);
        }
    }
    if !sizes.is_clean() {
        docket.extend(sizes.into_violations());
        return None;
    }
    let cost = cover::judge(pool, answer, uncut, docket);
    let name = pool.name.as_str();
    docket.same(i128::from(answer.cost), cost, Rule::CertificateCost, name);
    let short = !answer.short.is_empty() || !answer.short_groups.is_empty();
    docket.same(
        !answer.status.has_plan(),
        short,
        Rule::CertificateShort,
        name,
    );
    let proved = answer.status == Status::Proved;
    docket.demand(
        !proved || answer.bound == answer.cost,
        Rule::CertificateStatus,
        name,
        || {
            format!(
                "proved with a bound of {} and a cost of {}",
                answer.bound, answer.cost
            )
        },
    );
    if short {
        return None;
    }
    docket.demand(
        answer.bound <= answer.cost,
        Rule::CertificateStatus,
        name,
        || format!("a bound of {} over a cost of {}", answer.bound, answer.cost),
    );
    Some(Verified {
        cost: i64::try_from(cost).ok()?,
        bound: i64::try_from(bounded(pool, answer, docket)?).ok()?,
    })
}

/// The bound that the duals give, held against the one claimed.
fn bounded(pool: &Pool, answer: &PoolAnswer, docket: &mut Docket) -> Option<i128> {
    claimed(
        &pool.name,
        answer.bound,
        tree::least(pool, &answer.proof),
        docket,
    )
}

/// A bound found, held against the one claimed.
fn claimed(
    name: &str,
    bound: i64,
    found: Result<Option<i128>, NoBound>,
    docket: &mut Docket,
) -> Option<i128> {
    let (rule, name, what) = match found {
        Ok(Some(own)) if i128::from(bound) <= own => return Some(own),
        Ok(own) => (
            Rule::CertificateBound,
            name.to_owned(),
            match own {
                Some(own) => format!("{bound} is claimed, the duals give {own}"),
                None => "no leaf of the tree holds any answer".to_owned(),
            },
        ),
        Err(NoBound(what)) => (Rule::CertificateTree, name.to_owned(), what),
    };
    docket.say(rule, &name, what);
    None
}
