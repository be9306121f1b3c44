//! Write the nest answers anew from the joints and lines as they finally are, so that what the plan
//! carries is what will be cut. Costs, bounds and duals stand: sliding changed no money.

use std::collections::BTreeMap;

use super::owner::Made;
use super::problem::Work;
use super::still::Settled;
use super::uncut::as_patterns;
use super::{JointSource, PieceCut, PlannedJoint, Uncut};
use crate::nest::{Configuration, Cut, Pattern, PoolAnswer};
use crate::splice::SpliceSet;
use crate::stock::{PoolSource, StockOrigin};

/// Patterns and configurations of every pool, in a fixed order.
pub(crate) fn rewrite(
    work: &Work,
    pools: &[PoolSource],
    joints: &[PlannedJoint],
    sets: &[SpliceSet],
    made: &[Made],
    uncut: &[Uncut],
    answers: &mut [PoolAnswer],
) {
    for (pool, answer) in answers.iter_mut().enumerate() {
        let whole = as_patterns(&pools[pool], uncut);
        answer.patterns = patterns(work, pools, joints, sets, pool);
        answer.patterns.extend(whole);
        answer.patterns.sort_by_key(|p| p.stock);
        answer.configurations = configurations(work, sets, made, pool);
    }
}

fn patterns(
    work: &Work,
    pools: &[PoolSource],
    joints: &[PlannedJoint],
    sets: &[SpliceSet],
    pool: usize,
) -> Vec<Pattern> {
    let source = &pools[pool];
    let mut counts: BTreeMap<(usize, Vec<(i64, Cut)>), u32> = BTreeMap::new();
    for joint in joints.iter().filter(|j| j.pipe == source.pipe) {
        let origin = match joint.source {
            JointSource::Bought(q) => StockOrigin::Quote(q),
            JointSource::Rack(r, _) => StockOrigin::Rack(r),
        };
        let Some(stock) = source.stocks.iter().position(|s| s.origin == origin) else {
            continue;
        };
        let mut cuts: Vec<(i64, Cut)> = joint
            .pieces
            .iter()
            .map(|p| (-p.saw.ticks(), cut_of(work, sets, pool, p)))
            .collect();
        cuts.sort_unstable();
        *counts.entry((stock, cuts)).or_insert(0) += 1;
    }
    counts
        .into_iter()
        .map(|((stock, cuts), times)| Pattern {
            stock,
            times,
            cuts: cuts.into_iter().map(|(_, cut)| cut).collect(),
        })
        .collect()
}

fn cut_of(work: &Work, sets: &[SpliceSet], pool: usize, piece: &PieceCut) -> Cut {
    let mut settled = work.settled[pool].iter();
    let same = |s: &Settled| s.part == piece.part && s.copy == piece.copy && s.piece == piece.piece;
    if let Some((item, _)) = settled.find(|(_, s)| same(s)) {
        return Cut::Item(*item);
    }
    let of_part = |set: &usize| sets[*set].lines.iter().any(|l| l.part == piece.part);
    let mut groups = work.groups[pool].iter();
    let group = groups.position(|from| from.iter().any(of_part));
    let item = work.items[pool]
        .iter()
        .position(|parts| parts.contains(&piece.part));
    item.map_or(
        Cut::Piece {
            length: piece.saw.ticks(),
            class: group.map_or(0, |g| work.problem.pools[pool].groups[g].class),
        },
        Cut::Item,
    )
}

fn configurations(
    work: &Work,
    sets: &[SpliceSet],
    made: &[Made],
    pool: usize,
) -> Vec<Configuration> {
    let mut counts = Ways::new();
    for (group, from) in work.groups[pool].iter().enumerate() {
        for set in from.iter().copied() {
            for copy in sets[set].copies.iter().copied() {
                let mut lines: Vec<&Made> = made
                    .iter()
                    .filter(|m| m.set == set && m.copy == copy)
                    .collect();
                lines.sort_by_key(|m| m.line);
                if !lines.is_empty() {
                    let lines = lines.iter().map(|m| m.pieces.clone()).collect();
                    *counts.entry((group, lines)).or_insert(0) += 1;
                }
            }
        }
    }
    as_configurations(counts)
}

/// Ways of splicing by group, each with how often it is made.
pub(super) type Ways = BTreeMap<(usize, Vec<Vec<i64>>), u32>;

/// The same as the nest room has them.
pub(super) fn as_configurations(ways: Ways) -> Vec<Configuration> {
    let configuration = |((group, lines), times)| Configuration {
        group,
        times,
        lines,
    };
    ways.into_iter().map(configuration).collect()
}
