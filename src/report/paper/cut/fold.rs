//! Folding: neighbouring joints that are cut alike share one block.

use crate::plan::PlannedJoint;

/// Most joints in one block: as many tick boxes as a line holds.
const MOST: usize = 3;

/// Whether two joints are cut alike: same pipe, kind of stock, trims, and the same parts at the
/// same marks in the same order.
pub fn alike(a: &PlannedJoint, b: &PlannedJoint) -> bool {
    use crate::plan::JointSource::{Bought, Rack};
    let source = match (a.source, b.source) {
        (Bought(x), Bought(y)) | (Rack(x, _), Rack(y, _)) => x == y,
        _ => false,
    };
    source
        && a.pipe == b.pipe
        && (a.length, a.near, a.far, a.hold) == (b.length, b.near, b.far, b.hold)
        && a.pieces.len() == b.pieces.len()
        && a.pieces.iter().zip(&b.pieces).all(|(p, q)| {
            (p.part, p.piece, p.saw, p.start, p.end) == (q.part, q.piece, q.saw, q.start, q.end)
        })
}

/// Joints in cutting order → runs of one to three alike, as many as `holds` allows of each joint. A
/// joint after which a gate is complete may stand anywhere in a run: the block names every such gate.
pub fn fold<'a>(
    joints: &[&'a PlannedJoint],
    holds: impl Fn(&PlannedJoint, usize) -> bool,
) -> Vec<Vec<&'a PlannedJoint>> {
    let mut runs: Vec<Vec<&PlannedJoint>> = Vec::new();
    for &joint in joints {
        let joins = |run: &Vec<&PlannedJoint>| {
            let more = run.len() + 1;
            more <= MOST
                && run.first().is_some_and(|f| alike(f, joint))
                && run.iter().chain([&joint]).all(|j| holds(j, more))
        };
        match runs.last_mut() {
            Some(run) if joins(run) => run.push(joint),
            _ => runs.push(vec![joint]),
        }
    }
    runs
}
