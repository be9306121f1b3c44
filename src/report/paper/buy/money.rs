//! The week's money: the orders together, how the plan adds up, and each gate's share.

use crate::report::buy_list::{self, MISSING};
use crate::report::gate_costs;
use crate::report::money_adds_up::money_lines;
use crate::report::order_line::order_lines;
use crate::report::paper::desk::Desk;
use crate::report::paper::table::Table;
use crate::report::wrap::soften;

/// Title of the plan's ledger.
pub const LEDGER_TITLE: &str = "How the plan's money adds up";
/// Title of the gates' costs.
pub const GATES_TITLE: &str = "What each gate costs";

/// Title of what the gates' costs add up to.
pub const SUMS_TITLE: &str = "What they add up to";

fn soft(lines: Vec<(String, String)>) -> Vec<(String, String)> {
    let soft = |(label, value): (String, String)| (soften(&label), soften(&value));
    lines.into_iter().map(soft).collect()
}

/// Joints, weight and money of all orders.
pub fn totals(desk: &Desk) -> Vec<(String, String)> {
    soft(buy_list::totals(desk.job(), &order_lines(desk.job())))
}

/// What is said where a price is missing.
pub fn warning(desk: &Desk) -> Option<&'static str> {
    buy_list::unpriced(&order_lines(desk.job())).then_some(MISSING)
}

/// Every line of the plan's money; none where a price is missing.
pub fn ledger(desk: &Desk) -> Option<Vec<(String, String)>> {
    let ledger = desk.plan.ledger?;
    Some(soft(money_lines(desk.job(), &ledger)))
}

/// The landed money of each gate; none where a price is missing.
pub fn gate_costs(desk: &Desk) -> Option<Table> {
    if desk.plan.gate_costs.is_empty() {
        return None;
    }
    let shares = [1.2, 0.7, 1.2, 1.2, 1.4, 1.3, 1.2, 1.4];
    let mut table = Table::of(&gate_costs::table(desk.job()), &shares, 11.0, desk.room);
    if let Some(money) = table.columns.get_mut(5) {
        money.bold = true;
    }
    Some(table)
}

/// What the columns of the gates' costs add up to.
pub fn gate_sums(desk: &Desk) -> Vec<(String, String)> {
    soft(gate_costs::sums(desk.job()))
}

/// How the money is shared over the gates.
pub fn shared() -> &'static str {
    gate_costs::SHARED
}
