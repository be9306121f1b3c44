//! Verifies a nest answer and its certificate by other code than the search's: sizes, patterns,
//! counts, configurations, cost, and the lower bound of DESIGN §9 in exact integers over the tree of splits.

mod bound;
mod chain;
mod configuration;
#[cfg(test)]
mod counting;
mod cover;
mod intervals;
mod knapsack;
mod legal;
mod size;
mod tie;
mod tree;
mod worth;

pub(super) use configuration::possible;

use bound::NoBound;

use super::Violation;
use super::docket::Docket;
use crate::nest::{Aim, Branch, Pool, PoolAnswer, Problem, Status};

/// What a verified answer comes to, in the problem's money.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Verified {
    /// Cost of the answer.
    pub cost: i64,
    /// The lower bound that its duals give (not less than the one claimed).
    pub bound: i64,
}

/// Verifies the answer of every pool; a pool whose answer claims no bound (short, stopped) gives
/// `None`.
///
/// # Errors
/// Every rule that is broken, by name (`certificate-…`).
pub fn verify(
    problem: &Problem,
    answer: &[PoolAnswer],
) -> Result<Vec<Option<Verified>>, Vec<Violation>> {
    let mut docket = Docket::default();
    docket.demand(
        problem.pools.len() == answer.len(),
        "certificate-pools",
        "answer",
        || format!("{} answers for {} pools", answer.len(), problem.pools.len()),
    );
    docket.demand(
        problem.aim == Aim::Money,
        "certificate-aim",
        "problem",
        || format!("the certificate speaks of money, not of {:?}", problem.aim),
    );
    let mut names: Vec<&str> = problem.pools.iter().map(|p| p.name.as_str()).collect();
    names.sort_unstable();
    names.dedup();
    docket.same(
        names.len(),
        problem.pools.len(),
        "certificate-pools",
        "names",
    );
    let verified = problem
        .pools
        .iter()
        .zip(answer)
        .map(|(pool, answer)| one(pool, answer, &mut docket))
        .collect();
    if docket.is_clean() {
        Ok(verified)
    } else {
        Err(docket.into_violations())
    }
}

fn one(pool: &Pool, answer: &PoolAnswer, docket: &mut Docket) -> Option<Verified> {
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
    let cost = cover::judge(pool, answer, docket);
    let name = pool.name.as_str();
    docket.same(i128::from(answer.cost), cost, "certificate-cost", name);
    let short = !answer.short.is_empty() || !answer.short_groups.is_empty();
    docket.same(
        answer.status == Status::Short,
        short,
        "certificate-short",
        name,
    );
    let proved = answer.status == Status::Proved;
    docket.demand(
        !proved || answer.bound == answer.cost,
        "certificate-status",
        name,
        || {
            format!(
                "proved with a bound of {} and a cost of {}",
                answer.bound, answer.cost
            )
        },
    );
    if short || answer.status == Status::Stopped {
        return None;
    }
    docket.demand(
        answer.bound <= answer.cost,
        "certificate-status",
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
    let (rule, name, what) = match tree::least(pool, &answer.proof) {
        Ok(Some(own)) if i128::from(answer.bound) <= own => return Some(own),
        Ok(own) => (
            "certificate-bound",
            pool.name.clone(),
            match own {
                Some(own) => format!("{} is claimed, the duals give {own}", answer.bound),
                None => "no leaf of the tree holds any answer".to_owned(),
            },
        ),
        Err(NoBound::TooLarge(group)) => (
            "certificate-too-large",
            group,
            "too many ways to splice it: the bound cannot be verified".to_owned(),
        ),
        Err(NoBound::Tree(what)) => ("certificate-tree", pool.name.clone(), what),
    };
    docket.say(rule, &name, what);
    None
}
