//! A plan.json around a certificate: its joints and its money must be those of the nest answer, else the proof
//! is a proof of something else.

use std::collections::BTreeMap;

use serde::Deserialize;

use crate::check::Rule;
use crate::check::Violation;
use crate::check::docket::Docket;
use crate::nest::{Cut, PoolAnswer, Problem};

const RULE: Rule = Rule::CertificatePlan;

/// What of a plan.json a certificate can be held against.
#[derive(Debug, Deserialize)]
pub struct PlanFile {
    /// What its money is in.
    pub currency: String,
    joints: Vec<Joint>,
    outcomes: Vec<Outcome>,
}

#[derive(Debug, Deserialize)]
struct Joint {
    pipe: usize,
    length: Ticks,
    pieces: Vec<Piece>,
}

#[derive(Debug, Deserialize)]
struct Piece {
    saw_length: Ticks,
}

#[derive(Clone, Copy, Debug, Deserialize)]
struct Ticks {
    ticks: i64,
}

#[derive(Debug, Deserialize)]
struct Outcome {
    pipe: usize,
    cost_millicents: i64,
    bound_millicents: i64,
    priced: bool,
}

impl PlanFile {
    /// Which pools have money, in their order; the others count joints, splices and feet.
    pub fn priced(&self) -> Vec<bool> {
        self.outcomes.iter().map(|o| o.priced).collect()
    }
}

/// How often a joint of a length is cut into these pieces, by pipe.
type Joints = BTreeMap<(usize, i64, Vec<i64>), i64>;

/// Judges a plan.json against the verified answer in it.
///
/// # Errors
/// Money or joints that are not the answer's.
pub fn judge_plan(
    plan: &PlanFile,
    problem: &Problem,
    answers: &[PoolAnswer],
) -> Result<(), Vec<Violation>> {
    let mut docket = Docket::default();
    docket.same(plan.outcomes.len(), answers.len(), RULE, "outcomes");
    let mut joints = Joints::new();
    for joint in &plan.joints {
        let lengths = joint.pieces.iter().map(|p| p.saw_length.ticks);
        count(&mut joints, (joint.pipe, joint.length.ticks), lengths, 1);
    }
    for ((outcome, pool), answer) in plan.outcomes.iter().zip(&problem.pools).zip(answers) {
        let said = (outcome.cost_millicents, outcome.bound_millicents);
        docket.same(said, (answer.cost, answer.bound), RULE, &pool.name);
        for pattern in answer.patterns.iter().filter(|p| !p.cuts.is_empty()) {
            let Some(stock) = pool.stocks.get(pattern.stock) else {
                continue;
            };
            let lengths = pattern.cuts.iter().map(|cut| match *cut {
                Cut::Item(item) => pool.items.get(item).map_or(0, |i| i.length),
                Cut::Piece { length, .. } => length,
            });
            let of = (outcome.pipe, stock.length);
            count(&mut joints, of, lengths, -i64::from(pattern.times));
        }
    }
    for ((pipe, length, pieces), n) in joints.iter().filter(|(_, n)| **n != 0) {
        docket.say(RULE, "joints", format!(
            "{} more in the plan than in the answer: pipe {pipe}, joint of {length}, cut into {pieces:?}", n
        ));
    }
    if docket.is_clean() {
        Ok(())
    } else {
        Err(docket.into_violations())
    }
}

fn count(
    joints: &mut Joints,
    (pipe, length): (usize, i64),
    pieces: impl Iterator<Item = i64>,
    times: i64,
) {
    let mut pieces: Vec<i64> = pieces.collect();
    pieces.sort_unstable();
    *joints.entry((pipe, length, pieces)).or_default() += times;
}
