//! Where in the tree: an interval for every charge's number and for the joints of every stock.

use super::super::charge::{Charge, ChargeKind, StockOf};
use super::super::problem::Problem;
use super::reach::most_joints;

/// Intervals, all closed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Place {
    /// Joints of each stock: `[pool][stock]`.
    pub joints: Vec<Vec<(i64, i64)>>,
    /// Each charge's number.
    pub spans: Vec<(i64, i64)>,
}

/// What one joint of a stock adds to a charge's number.
pub(super) fn weight(problem: &Problem, charge: &Charge, at: StockOf) -> i64 {
    if charge.kind.counts_prices() {
        problem.pools[at.pool].stocks[at.stock].price()
    } else {
        1
    }
}

/// A charge's number when so many joints are taken.
pub(super) fn number(problem: &Problem, charge: &Charge, taken: &[Vec<i64>]) -> i64 {
    let each = charge.over.iter().map(|&at| {
        let one = weight(problem, charge, at);
        one.saturating_mul(taken[at.pool][at.stock])
    });
    each.fold(0, i64::saturating_add)
}

impl Place {
    /// Everything that may be.
    pub fn whole(problem: &Problem) -> Place {
        let most = most_joints(problem);
        let joints = most
            .into_iter()
            .map(|p| p.into_iter().map(|m| (0, m)).collect());
        Place {
            joints: joints.collect(),
            spans: vec![(0, i64::MAX); problem.charges.len()],
        }
    }

    /// Charges bound joints, then joints bound charges, once each; `None` when an interval is empty.
    pub fn tighten(mut self, problem: &Problem) -> Option<Place> {
        for (charge, span) in problem.charges.iter().zip(&mut self.spans) {
            if let ChargeKind::Range { least, most } = charge.kind {
                span.1 = most.map_or(span.1, |m| span.1.min(i64::from(m)));
                if span.1 < i64::from(least) {
                    span.1 = 0;
                }
            }
            for &at in &charge.over {
                let joints = &mut self.joints[at.pool][at.stock];
                joints.1 = joints.1.min(span.1 / weight(problem, charge, at));
            }
        }
        for (charge, span) in problem.charges.iter().zip(&mut self.spans) {
            let end = |pick: &dyn Fn(&(i64, i64)) -> i64| {
                let taken = |p: &Vec<(i64, i64)>| p.iter().map(pick).collect();
                number(
                    problem,
                    charge,
                    &self.joints.iter().map(taken).collect::<Vec<_>>(),
                )
            };
            *span = (span.0.max(end(&|j| j.0)), span.1.min(end(&|j| j.1)));
        }
        let mut all = self.joints.iter().flatten().chain(&self.spans);
        all.all(|(lo, hi)| lo <= hi).then_some(self)
    }
}
