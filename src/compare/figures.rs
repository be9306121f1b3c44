//! `Figures`: what one checked plan comes to, for comparing.

use std::collections::BTreeMap;

use super::joint_words;
use crate::check::CheckedPlan;
use crate::measure::Length;
use crate::nest::Status;
use crate::plan::{Gap, Ledger, Plan, Waste};

/// The parts of a plan's landed money, 1/1000 cent; they add up to the plan's total exactly.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct MoneySplit {
    /// Joints bought, at their own price before tax.
    pub pipe: i64,
    /// Freight.
    pub freight: i64,
    /// Tax, lift fees and what a minimum order adds.
    pub fees: i64,
    /// Splices with their class charges.
    pub splices: i64,
    /// Rack pieces cut, at their credit.
    pub rack: i64,
    /// Credit of the drops kept and of joints left whole, as a positive number.
    pub kept: i64,
}

impl MoneySplit {
    /// What the plan costs.
    pub fn total(&self) -> i64 {
        self.pipe + self.freight + self.fees + self.splices + self.rack - self.kept
    }
}

/// What one checked plan comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Figures {
    /// Plan number of the changed week.
    pub plan: String,
    /// Joints bought by nominal length, ascending.
    pub joints: Vec<(Length, u32)>,
    /// Pieces taken off the rack.
    pub from_rack: u32,
    /// Nominal length bought.
    pub bought: Length,
    /// Weight bought, lb or kg.
    pub weight: f64,
    /// Money; `None` when a price is missing.
    pub money: Option<MoneySplit>,
    /// Certified bound on the total, 1/1000 cent.
    pub bound: i64,
    /// How much cheaper some plan might yet be; `None` when a price is missing.
    pub gap: Option<Gap>,
    /// Order lines at a price that ran out before the order date.
    pub expired: u32,
    /// In words: such prices, joints bought that have none, and whose plan was taken.
    pub remarks: Vec<String>,
    /// Splices.
    pub splices: u32,
    /// Waste of the week.
    pub waste: Waste,
    /// Pipes whose money is proved, and all pipes.
    pub proved: (usize, usize),
    /// Charges couple the pipes: only the whole is proved or not.
    pub together: bool,
    /// A search was cut short by hand or by a time limit: the row may vary.
    pub stopped: bool,
    /// Estimated minutes on the floor: joints, cuts, copes, splices together.
    pub minutes: f64,
    /// Gates planned.
    pub gates: u32,
}

impl Figures {
    /// Of a checked plan.
    pub fn of(checked: &CheckedPlan) -> Figures {
        let (week, plan) = (checked.week(), checked.plan());
        let mut joints: BTreeMap<Length, u32> = BTreeMap::new();
        for line in &plan.buy {
            *joints.entry(week.quotes[line.quote].nominal).or_default() += line.joints;
        }
        // Where charges couple the pipes, only the whole is proved or not.
        let whole = plan.nest.whole.as_ref().map(|w| w.status);
        let proved =
            |s: Status| matches!(whole.unwrap_or(s), Status::Proved | Status::ProvedBySearch);
        let minutes = &plan.minutes;
        Figures {
            plan: plan.number.clone(),
            joints: joints.into_iter().collect(),
            from_rack: plan.pipes.iter().map(|p| p.from_rack).sum(),
            bought: plan.buy.iter().map(|b| b.nominal).sum(),
            weight: plan.buy.iter().map(|b| b.weight).sum(),
            money: plan.ledger.as_ref().and_then(split),
            bound: bound(plan),
            gap: plan.ledger.as_ref().map(|_| plan.gap()),
            expired: count(
                plan.buy
                    .iter()
                    .filter(|b| week.expired(&week.quotes[b.quote]))
                    .count(),
            ),
            remarks: prices_to_ask(checked)
                .into_iter()
                .chain(plan.nest.taken_from.as_deref().map(taken_from))
                .collect(),
            splices: count(plan.spliced.iter().map(|l| l.splices.len()).sum()),
            waste: plan.waste,
            proved: (
                plan.pipes.iter().filter(|p| proved(p.status)).count(),
                plan.pipes.len(),
            ),
            together: whole.is_some(),
            stopped: plan
                .pipes
                .iter()
                .any(|p| p.stop == crate::nest::StopReason::Interrupted),
            minutes: minutes.joints + minutes.cuts + minutes.copes + minutes.splices,
            gates: count(plan.done.len()),
        }
    }

    /// Joints bought.
    pub fn joints_bought(&self) -> u32 {
        self.joints.iter().map(|(_, n)| *n).sum()
    }

    /// Landed money, 1/1000 cent.
    pub fn total(&self) -> Option<i64> {
        self.money.map(|m| m.total())
    }
}

fn count(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

/// Certified bound on a plan's money, 1/1000 cent: of the whole where charges couple its pipes.
pub(super) fn bound(plan: &Plan) -> i64 {
    match &plan.nest.whole {
        Some(whole) => whole.bound,
        None => plan.pipes.iter().map(|p| p.bound).sum(),
    }
}

/// The ledger's lines, each in whole cents.
fn split(ledger: &Ledger) -> Option<MoneySplit> {
    Some(MoneySplit {
        pipe: ledger.pipe.millicents()?,
        freight: ledger.freight.millicents()?,
        fees: (ledger.tax + ledger.lifts + ledger.minimum).millicents()?,
        splices: (ledger.splices + ledger.classes).millicents()?,
        rack: ledger.rack.millicents()?,
        kept: ledger.kept.millicents()?,
    })
}

/// Prices that a plan buys at but that ran out, as the buy list marks them; and every joint on sale without one,
/// bought or not, of the pipes whose money it takes away.
fn prices_to_ask(checked: &CheckedPlan) -> Vec<String> {
    let (week, plan) = (checked.week(), checked.plan());
    let bought = |quote: usize| plan.buy.iter().any(|b| b.quote == quote);
    let unknown = |pipe| plan.pipes.iter().any(|p| p.pipe == pipe && !p.priced);
    let quotes = week.quotes.iter().enumerate();
    let asked = quotes.filter_map(|(index, quote)| {
        let words = match (quote.price, quote.terms.valid_until) {
            (None, _) if unknown(quote.pipe) => {
                "has no price, so no money is known of its pipe".to_owned()
            }
            (Some(_), Some(last)) if bought(index) && week.expired(quote) => {
                format!("its price ran out on {last}")
            }
            _ => return None,
        };
        let from = match quote.supplier.as_str() {
            "" => String::new(),
            name => format!(" from {name}"),
        };
        let (pipe, length) = (
            &week.pipe(quote.pipe).name,
            joint_words(quote.nominal, week.shop.units),
        );
        Some(format!("{pipe}, {length}{from}: {words}"))
    });
    asked.collect()
}

fn taken_from(name: &str) -> String {
    format!("cut as found for \"{name}\", which is cheaper than its own search came to")
}
