//! Folding: neighbouring joints that are cut alike share one block.

use crate::plan::PlannedJoint;

/// Most joints in one block: as many tick boxes as a line holds.
const MOST: usize = 3;
/// Three joints take two lines a piece: of more pieces than this only two fold, and past
/// [`LONGEST`] none, so that a block stays on one page.
const SHORT: usize = 8;
/// See [`SHORT`].
const LONGEST: usize = 16;

/// How many joints like this one share a block.
fn most(joint: &PlannedJoint) -> usize {
    match joint.pieces.len() {
        0..=SHORT => MOST,
        n if n <= LONGEST => 2,
        _ => 1,
    }
}

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

/// Joints in cutting order → runs of one to three alike. A joint after which a gate is complete may
/// stand anywhere in a run: the block names every such gate.
pub fn fold<'a>(joints: &[&'a PlannedJoint]) -> Vec<Vec<&'a PlannedJoint>> {
    let mut runs: Vec<Vec<&PlannedJoint>> = Vec::new();
    for &joint in joints {
        match runs.last_mut() {
            Some(run)
                if run.len() < most(joint) && run.first().is_some_and(|f| alike(f, joint)) =>
            {
                run.push(joint);
            }
            _ => runs.push(vec![joint]),
        }
    }
    runs
}
