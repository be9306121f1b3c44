//! The joints handed out and not cut yet, as an answer to the rest's problem: carrying on by the sheets at hand.

use std::collections::BTreeMap;

use super::problem::Work;
use super::rewrite::{Ways, as_configurations};
use super::still::line_of_set;
use crate::nest::{Configuration, Cut, Pattern, PoolOffer};
use crate::order::PieceId;
use crate::part::TakeOff;
use crate::splice::SpliceSet;
use crate::stock::{PoolSource, StockOrigin};

/// A joint as it was handed out, as far as it is not cut.
#[derive(Clone, Debug, PartialEq)]
pub struct TailJoint {
    /// What it is cut from.
    pub origin: StockOrigin,
    /// Pieces still to be cut, each with its saw length.
    pub pieces: Vec<(PieceId, crate::measure::Length)>,
}

/// A stock, and what is cut from it, longest first.
type Taken = (usize, Vec<(i64, Cut)>);
/// (set, copy, line) → pieces by number.
type Lines = BTreeMap<(usize, u32, usize), BTreeMap<u32, i64>>;

/// The tail in the terms of this problem; `None`: it is of other work or other stock by now.
pub(crate) fn tail(
    take_off: &TakeOff,
    work: &Work,
    pools: &[PoolSource],
    sets: &[SpliceSet],
    joints: &[TailJoint],
) -> Option<Vec<PoolOffer>> {
    let parts = take_off.parts.iter().enumerate().filter(|(_, p)| p.ours);
    let parts: BTreeMap<&str, usize> = parts.map(|(i, p)| (p.mark.as_str(), i)).collect();
    let mut patterns: Vec<BTreeMap<Taken, u32>> = vec![BTreeMap::new(); pools.len()];
    let mut lines = Lines::new();
    for joint in joints {
        let of = |source: &PoolSource| source.stocks.iter().position(|s| s.origin == joint.origin);
        let mut found = pools.iter().enumerate();
        let (pool, stock) = found.find_map(|(at, source)| Some((at, of(source)?)))?;
        let mut cuts = Vec::new();
        for (id, length) in &joint.pieces {
            let part = *parts.get(id.mark.as_str())?;
            let cut =
                match line_of_set(sets, part).filter(|(s, _)| sets[*s].copies.contains(&id.copy)) {
                    Some((set, line)) => {
                        let pieces = lines.entry((set, id.copy, line)).or_default();
                        pieces.insert(id.piece.unwrap_or(1), length.ticks());
                        let group = group_of(work, pool, set)?;
                        Cut::Piece {
                            length: length.ticks(),
                            class: work.problem.pools[pool].groups[group].class,
                        }
                    }
                    None => Cut::Item(item_of(work, pool, (part, id), length.ticks())?),
                };
            cuts.push((-length.ticks(), cut));
        }
        cuts.sort_unstable();
        *patterns[pool].entry((stock, cuts)).or_default() += 1;
    }
    let offers = patterns.into_iter().enumerate().map(|(pool, patterns)| {
        let pattern = |((stock, cuts), times): (Taken, u32)| Pattern {
            stock,
            times,
            cuts: cuts.into_iter().map(|(_, cut)| cut).collect(),
        };
        let patterns = patterns.into_iter().map(pattern).collect();
        Some((patterns, configurations(work, sets, pool, &lines)?))
    });
    offers.collect()
}

/// The group that stands for a set.
fn group_of(work: &Work, pool: usize, set: usize) -> Option<usize> {
    let mut groups = work.groups[pool].iter();
    groups.position(|from| from.contains(&set))
}

/// The item of a piece that is cut whole, or of a line that stays.
fn item_of(work: &Work, pool: usize, (part, id): (usize, &PieceId), length: i64) -> Option<usize> {
    let items = &work.problem.pools[pool].items;
    let mut settled = work.settled[pool].iter();
    let same =
        |s: &&super::still::Settled| s.part == part && s.copy == id.copy && s.piece == id.piece;
    let own = settled.find(|(_, s)| same(&s)).map(|(item, _)| *item);
    let plain = || {
        work.items[pool]
            .iter()
            .position(|from| from.contains(&part))
    };
    own.or_else(plain).filter(|at| items[*at].length == length)
}

/// Lines of every open copy, as the tail makes them; `None`: one of them is not whole in it.
fn configurations(
    work: &Work,
    sets: &[SpliceSet],
    pool: usize,
    lines: &Lines,
) -> Option<Vec<Configuration>> {
    let mut counts = Ways::new();
    for (group, from) in work.groups[pool].iter().enumerate() {
        for set in from.iter().copied() {
            for copy in sets[set].copies.iter().copied() {
                let each = (0..sets[set].lines.len()).map(|line| {
                    let pieces = lines.get(&(set, copy, line))?;
                    Some(pieces.values().copied().collect::<Vec<i64>>())
                });
                let made = each.collect::<Option<Vec<Vec<i64>>>>()?;
                *counts.entry((group, made)).or_default() += 1;
            }
        }
    }
    Some(as_configurations(counts))
}
