//! The joints of a plan.json are the patterns of the answer, and its money the answer's, else the proof is a
//! proof of something else.

use std::collections::BTreeMap;

use super::form::Joint;
use super::papers::{HALF_CENT, Papers, money, within};
use crate::check::Rule;
use crate::check::docket::Docket;
use crate::nest::{Cut, Pool, Status};

/// How often a joint of a length and a usable length is cut into these pieces, by pipe.
type Joints = BTreeMap<(usize, i64, i64, Vec<i64>), i64>;

/// Judges joints, joints left whole, money and status of every pool.
pub(super) fn judge(papers: &Papers<'_>, docket: &mut Docket) {
    joints(papers, docket);
    for (outcome, (pool, answer)) in papers
        .plan
        .outcomes
        .iter()
        .zip(papers.problem.pools.iter().zip(papers.answers))
    {
        let name = pool.name.as_str();
        let said = (outcome.cost_millicents, outcome.bound_millicents);
        let own = (answer.cost, answer.bound);
        docket.same(said, own, Rule::CertificatePlan, name);
        let said = (outcome.status, outcome.stop);
        docket.same(said, (answer.status, answer.stop), Rule::FileStatus, name);
        let short = answer.status == Status::Short;
        docket.demand(
            !short || !papers.plan.left_out.is_empty(),
            Rule::FileStatus,
            name,
            || "pieces are missing and nothing is left out by name".to_owned(),
        );
        let stocks = answer.patterns.iter().map(|p| {
            let cost = pool.stocks.get(p.stock).map_or(0, |s| s.cost);
            i128::from(cost) * i128::from(p.times)
        });
        let taken = i128::from(outcome.pipe_money_millicents);
        docket.same(taken, stocks.sum(), Rule::FileOutcomeMoney, name);
        for (printed, exact) in [(outcome.cost, answer.cost), (outcome.bound, answer.bound)] {
            let exact = outcome.priced.then(|| money(exact.into()));
            let agrees = match (printed, exact) {
                (Some(printed), Some(exact)) => within(printed, exact, HALF_CENT),
                (printed, exact) => printed.is_none() && exact.is_none(),
            };
            docket.demand(agrees, Rule::FileOutcomeMoney, name, || {
                format!("{printed:?} is printed, {exact:?} found")
            });
        }
    }
}

fn joints(papers: &Papers<'_>, docket: &mut Docket) {
    let mut joints = Joints::new();
    let mut add = |of: (usize, i64, i64), mut pieces: Vec<i64>, times: i64| {
        pieces.sort_unstable();
        *joints.entry((of.0, of.1, of.2, pieces)).or_default() += times;
    };
    for joint in &papers.plan.joints {
        let lengths = joint.pieces.iter().map(|p| p.saw_length.ticks).collect();
        add((joint.pipe, joint.length.ticks, usable(joint)), lengths, 1);
    }
    let mut whole: BTreeMap<usize, i64> = BTreeMap::new();
    for uncut in &papers.plan.uncut {
        if let Some(pipe) = papers.pipe_of_quote(uncut.quote) {
            *whole.entry(pipe).or_default() += i64::from(uncut.joints);
        }
    }
    for (outcome, (pool, answer)) in papers
        .plan
        .outcomes
        .iter()
        .zip(papers.problem.pools.iter().zip(papers.answers))
    {
        for pattern in &answer.patterns {
            let Some(stock) = pool.stocks.get(pattern.stock) else {
                continue;
            };
            let times = -i64::from(pattern.times);
            if pattern.cuts.is_empty() {
                *whole.entry(outcome.pipe).or_default() += times;
                continue;
            }
            let lengths = pattern.cuts.iter().map(|cut| length(pool, cut)).collect();
            add((outcome.pipe, stock.length, stock.usable), lengths, times);
        }
    }
    for ((pipe, length, _, pieces), n) in joints.iter().filter(|(_, n)| **n != 0) {
        let what = format!(
            "{n} more in the plan than in the answer: pipe {pipe}, joint of {length}, cut into {pieces:?}"
        );
        docket.say(Rule::CertificatePlan, "joints", what);
    }
    for (pipe, n) in whole.iter().filter(|(_, n)| **n != 0) {
        let what = format!("{n} more left whole in the plan than in the answer: pipe {pipe}");
        docket.say(Rule::CertificatePlan, "joints", what);
    }
}

/// Length less trims and hold-back.
fn usable(joint: &Joint) -> i64 {
    joint.length.ticks - joint.near_trim.ticks - joint.far_trim.ticks - joint.hold_back.ticks
}

fn length(pool: &Pool, cut: &Cut) -> i64 {
    match *cut {
        Cut::Item(item) => pool.items.get(item).map_or(0, |i| i.length),
        Cut::Piece { length, .. } => length,
    }
}
