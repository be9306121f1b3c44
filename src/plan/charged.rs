//! What hangs on more than one joint, paid for the joints of a plan: freight, lifts, minimum orders.

use super::problem::{kind, units};
use super::{JointSource, PlannedJoint};
use crate::order::Week;
use crate::stock::{PoolSource, StockOrigin, Term, terms};

/// Each term with its money for these joints, 1/1000 cent; `None` when a count is broken.
pub(crate) fn charged(
    week: &Week,
    pools: &[PoolSource],
    joints: &[PlannedJoint],
) -> Option<Vec<(Term, i64)>> {
    let stocks = || pools.iter().flat_map(|p| &p.stocks);
    // What one joint of a quote counts towards free freight or a minimum: its price before tax.
    let price = |quote: usize| {
        let stock = stocks().find(|s| s.origin == StockOrigin::Quote(quote));
        stock.map_or(0, |s| units(s.price.unwrap_or(s.cost)))
    };
    let money = |term: Term| {
        let (mut n, mut m) = (0u64, 0i128);
        for joint in joints {
            if let JointSource::Bought(quote) = joint.source
                && term.quotes.contains(&quote)
            {
                n += 1;
                m += i128::from(price(quote));
            }
        }
        let money = kind(term.kind).of(n, m)?;
        Some((term, i64::try_from(money).ok()?))
    };
    terms(week, pools).into_iter().map(money).collect()
}
