//! The tree of splits: every answer lies in one leaf, so the least of the leaves' bounds holds for all.

use super::bound::{NoBound, bound};
use super::intervals::Intervals;
use crate::nest::{Branch, Counted, Pool};

/// The least bound over the leaves; `None` when no answer lies in any.
///
/// # Errors
/// The list of nodes is no tree, or a leaf gives no bound.
pub(super) fn least(pool: &Pool, nodes: &[Branch]) -> Result<Option<i128>, NoBound> {
    let mut met = vec![false; nodes.len()];
    let mut open = vec![(0usize, Intervals::default())];
    let mut least: Option<i128> = None;
    while let Some((at, intervals)) = open.pop() {
        match nodes.get(at) {
            None => return Err(NoBound(format!("node {at} does not exist"))),
            Some(_) if met[at] => return Err(NoBound(format!("node {at} is met twice"))),
            Some(Branch::Leaf(leaf)) => {
                if let Some(own) = bound(pool, leaf, &intervals)? {
                    least = Some(least.map_or(own, |l| l.min(own)));
                }
            }
            Some(Branch::Split {
                counted,
                most,
                under,
                over,
            }) => {
                known(pool, counted)?;
                let [few, many] = intervals.split(counted, *most);
                open.extend([(*under, few), (*over, many)]);
            }
        }
        met[at] = true;
    }
    if met.contains(&false) {
        return Err(NoBound("a node belongs to no split".to_owned()));
    }
    Ok(least)
}

/// A counted set names things that exist, ascending.
fn known(pool: &Pool, counted: &Counted) -> Result<(), NoBound> {
    let (set, n) = match counted {
        Counted::Joints(set) => (set, pool.stocks.len()),
        Counted::Splices(set) => (set, pool.groups.len()),
    };
    let ascending = set.windows(2).all(|w| w[0] < w[1]);
    if ascending && set.last().is_some_and(|l| *l < n) {
        Ok(())
    } else {
        Err(NoBound(format!("{counted:?} is no set of {n}")))
    }
}
