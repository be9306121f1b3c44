//! Per pipe: status, money and waste, each by its definition.

use super::buy::taken;
use super::lay::cost_of;
use super::{JointSource, PipeOutcome, PlannedJoint, Uncut, Waste};
use crate::measure::Length;
use crate::nest::PoolAnswer;
use crate::stock::{PoolSource, StockOrigin};

/// Waste of these joints. All-in = taken − in parts; what is neither in parts nor a kept drop is
/// lost for good: kerf, trims and scrap drops.
pub(crate) fn waste(joints: &[PlannedJoint]) -> Waste {
    let taken = taken(joints);
    let in_parts: Length = joints.iter().flat_map(|j| &j.pieces).map(|p| p.saw).sum();
    let kept: Length = joints.iter().filter(|j| j.kept).map(|j| j.floor).sum();
    Waste {
        taken,
        in_parts,
        all_in: taken - in_parts,
        lost: taken - in_parts - kept,
        kept,
    }
}

/// Outcomes in pool order.
pub(crate) fn outcomes(
    pools: &[PoolSource],
    answers: &[PoolAnswer],
    joints: &[PlannedJoint],
    uncut: &[Uncut],
) -> Vec<PipeOutcome> {
    pools
        .iter()
        .zip(answers)
        .map(|(pool, answer)| {
            let mine: Vec<PlannedJoint> = joints
                .iter()
                .filter(|j| j.pipe == pool.pipe)
                .cloned()
                .collect();
            let bought = mine
                .iter()
                .filter(|j| matches!(j.source, JointSource::Bought(_)))
                .count();
            let mine_too = |u: &&Uncut| {
                let origin = StockOrigin::Quote(u.quote);
                pool.stocks.iter().any(|s| s.origin == origin)
            };
            let whole = uncut.iter().filter(mine_too).map(|u| u.joints).sum();
            PipeOutcome {
                pipe: pool.pipe,
                status: answer.status,
                stop: answer.stop,
                cost: answer.cost,
                bound: answer.bound,
                pipe_money: pipe_money(pool, answer),
                priced: pool.priced,
                bought: u32::try_from(bought)
                    .unwrap_or(u32::MAX)
                    .saturating_add(whole),
                from_rack: u32::try_from(mine.len() - bought).unwrap_or(u32::MAX),
                waste: waste(&mine),
            }
        })
        .collect()
}

/// Joints bought and rack pieces at credit, before credits of drops.
fn pipe_money(pool: &PoolSource, answer: &PoolAnswer) -> i64 {
    answer
        .patterns
        .iter()
        .map(|p| cost_of(&pool.stocks[p.stock]).saturating_mul(i64::from(p.times)))
        .fold(0, i64::saturating_add)
}
