//! What a plan already found would cost in the same week at other prices.
//!
//! Nothing is planned anew: the same joints are cut in the same way, only paid differently. The least over
//! all plans found is an upper envelope of the least cost at every price; it is exact where the
//! planner would choose one of them.

use crate::check::CheckedPlan;
use crate::measure::{Length, Money};
use crate::order::Week;
use crate::plan::{JointSource, Uncut, fees};
use crate::splice::WindowClass;
use crate::stock::{PoolSource, StockOrigin, credit, pools};

/// A week at one price, ready to price plans.
pub(super) struct Prices<'a> {
    week: &'a Week,
    pools: Vec<PoolSource>,
}

impl<'a> Prices<'a> {
    /// Prices of a week; `plan` is any plan of it at other prices (for the pipes it needs). `None` when a
    /// price cannot be right (a joint worth more left whole).
    pub fn of(week: &'a Week, plan: &CheckedPlan) -> Option<Prices<'a>> {
        let pools = pools(week, plan.take_off()).ok()?;
        pools
            .iter()
            .all(|p| p.priced)
            .then_some(Prices { week, pools })
    }

    /// Money of a plan at these prices, 1/1000 cent; `None` when it takes stock that is not there.
    pub fn cost(&self, checked: &CheckedPlan) -> Option<i64> {
        let plan = checked.plan();
        let mut total = 0i64;
        for joint in &plan.joints {
            let origin = match joint.source {
                JointSource::Bought(quote) => StockOrigin::Quote(quote),
                JointSource::Rack(piece, _) => StockOrigin::Rack(piece),
            };
            let pool = self.pools.iter().find(|p| p.pipe == joint.pipe)?;
            let stock = pool.stocks.iter().find(|s| s.origin == origin)?;
            total += stock.cost.millicents()?;
            let kept = if joint.kept { joint.drop } else { Length::ZERO };
            total -= credit(self.week, pool, kept).millicents()?;
        }
        let rules = &self.week.shop.splice;
        for splice in plan.spliced.iter().flat_map(|l| &l.splices) {
            total += rules.cost.millicents()?;
            let charge = match splice.class {
                WindowClass::Charged => rules.class_charge,
                WindowClass::Plain | WindowClass::ByOrder => Money::ZERO,
            };
            total += charge.millicents()?;
        }
        for whole in &plan.uncut {
            total += self.left_whole(whole)?;
        }
        let fees = fees(self.week, &self.pools, &plan.joints, &plan.uncut);
        Some(total + fees.iter().map(|f| f.millicents).sum::<i64>())
    }

    /// Joints bought and left whole, less their credit.
    fn left_whole(&self, uncut: &Uncut) -> Option<i64> {
        let origin = StockOrigin::Quote(uncut.quote);
        let find = |p: &'_ PoolSource| {
            let stock = p.stocks.iter().find(|s| s.origin == origin)?;
            let credit = credit(self.week, p, stock.usable).millicents()?;
            Some(stock.cost.millicents()? - credit)
        };
        let each = self.pools.iter().find_map(find)?;
        Some(each * i64::from(uncut.joints))
    }
}
