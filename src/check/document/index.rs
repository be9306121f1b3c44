//! First of all: every index points at something; after this rule the other rules may index freely.

use std::collections::BTreeSet;

use super::papers::Papers;
use crate::check::Rule;
use crate::check::docket::Docket;

/// Judges the indices, and that pools, answers and outcomes are of the same pipes.
pub(super) fn judge(papers: &Papers<'_>, docket: &mut Docket) {
    let plan = papers.plan;
    let (pipes, gates, parts) = (plan.pipes.len(), plan.gates.len(), plan.parts.len());
    let mut known = |index: usize, len: usize, what: &str| {
        docket.demand(index < len, Rule::FileIndex, what, || {
            format!("number {index} of {len}")
        });
    };
    for part in &plan.parts {
        known(part.pipe, pipes, "the pipe of a part");
        known(part.gate.unwrap_or(0), gates.max(1), "the gate of a part");
    }
    for joint in &plan.joints {
        known(joint.pipe, pipes, "the pipe of a joint");
        for piece in &joint.pieces {
            known(piece.part, parts, "the part of a piece");
        }
    }
    let options = plan.kits.iter().flat_map(|k| &k.options);
    let lines = plan.spliced.iter();
    for line in lines.chain(options.clone().flat_map(|o| &o.lines)) {
        known(line.part, parts, "the part of a spliced line");
    }
    for piece in options.flat_map(|o| &o.cuts).flat_map(|c| &c.pieces) {
        known(piece.part, parts, "the part of a kit's piece");
    }
    plan.kits.iter().for_each(|k| known(k.gate, gates, "a kit"));
    for done in &plan.done {
        known(done.gate, gates, "a gate that is complete");
    }
    for gate in plan.gate_costs.iter().filter_map(|c| c.gate) {
        known(gate, gates, "a gate's costs");
    }
    let bought = plan.buy.iter().map(|b| b.pipe);
    let all = bought.chain(plan.spares.iter().map(|s| s.pipe));
    for pipe in all.chain(plan.kept.iter().map(|k| k.pipe)) {
        known(pipe, pipes, "a pipe");
    }
    outcomes(papers, docket);
}

fn outcomes(papers: &Papers<'_>, docket: &mut Docket) {
    let plan = papers.plan;
    let (pools, answers) = (papers.problem.pools.len(), papers.answers.len());
    docket.same(
        (plan.outcomes.len(), answers),
        (pools, pools),
        Rule::FileIndex,
        "outcomes",
    );
    let mut seen = BTreeSet::new();
    for (outcome, pool) in plan.outcomes.iter().zip(&papers.problem.pools) {
        // A pool is named as its pipe is, with the grade where there is one.
        let named = plan.pipes.get(outcome.pipe).is_some_and(|p| {
            let grade = pool.name.strip_prefix(p.title.as_str());
            grade.is_some_and(|g| g.trim_start() == p.grade)
        });
        let own = named && seen.insert(outcome.pipe);
        docket.demand(own, Rule::FileIndex, &pool.name, || {
            format!("its outcome is of pipe {}", outcome.pipe)
        });
    }
    for joint in &plan.joints {
        docket.demand(
            seen.contains(&joint.pipe),
            Rule::FileIndex,
            &format!("joint {}", joint.number),
            || "its pipe has no outcome".to_owned(),
        );
    }
}
