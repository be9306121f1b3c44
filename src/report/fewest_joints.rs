//! The certified bound of a pipe without prices, in whole joints.

use crate::order::PipeId;
use crate::part::TakeOff;
use crate::plan::{PipeOutcome, Plan};
use crate::stock::UNPRICED_SPLICE;

/// Fewest joints that any plan must buy of an unpriced pipe.
///
/// There a plan's cost is at most `joints × dearest joint + splices × UNPRICED_SPLICE`, and at least
/// the bound; joints are whole, so the quotient is rounded up.
pub(super) fn fewest_joints(plan: &Plan, take_off: &TakeOff, pipe: &PipeOutcome) -> u32 {
    let pool = plan.pools.iter().find(|p| p.pipe == pipe.pipe);
    let costs = pool.into_iter().flat_map(|p| &p.stocks);
    let dearest = costs.filter_map(|s| s.cost.millicents()).max().unwrap_or(0);
    if dearest <= 0 {
        return 0;
    }
    let splices = most_splices(plan, take_off, pipe.pipe).saturating_mul(UNPRICED_SPLICE);
    let rest = pipe.bound.saturating_sub(splices).max(0);
    let joints = rest / dearest + i64::from(rest % dearest > 0);
    u32::try_from(joints).unwrap_or(u32::MAX)
}

/// Most splices that the caps let any plan make in this pipe.
fn most_splices(plan: &Plan, take_off: &TakeOff, pipe: PipeId) -> i64 {
    let mut sum = 0i64;
    for set in &plan.splice_sets {
        let of_pipe = |part: usize| take_off.parts.get(part).is_some_and(|p| p.pipe == pipe);
        let mine = set.lines.iter().filter(|l| of_pipe(l.part));
        let each: i64 = mine.map(|l| i64::from(l.most)).sum();
        sum = sum.saturating_add(each.saturating_mul(i64::from(set.count())));
    }
    sum
}
