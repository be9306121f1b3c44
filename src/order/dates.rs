//! Dates that decide which quotes can serve which gates.
//!
//! A joint is here on order date + lead days (calendar days). A gate's pipe must be here on its due
//! date less the shop's own days. Without an order date nothing is judged.

use jiff::ToSpan;
use jiff::civil::Date;

use super::{Quote, Supplier, Week};

impl Week {
    /// The terms of a supplier by name; `None` where suppliers.csv has none.
    pub fn supplier(&self, name: &str) -> Option<&Supplier> {
        self.suppliers.iter().find(|s| s.name == name)
    }

    /// The day a quote's joints are here; `None` when nothing is known or it is at hand.
    pub fn arrives(&self, quote: &Quote) -> Option<Date> {
        let ordered = self.shop.buying.order_date?;
        let days = quote.terms.lead_days.filter(|days| *days > 0)?;
        Some(ordered.saturating_add(i64::from(days).days()))
    }

    /// The day a gate's pipe must be here; `None` without a due date.
    pub fn wanted(&self, gate: usize) -> Option<Date> {
        let due = self.gates.get(gate)?.due?;
        Some(due.saturating_sub(i64::from(self.shop.buying.shop_days).days()))
    }

    /// The quote's price ran out before the order date.
    pub fn expired(&self, quote: &Quote) -> bool {
        let day = self.shop.buying.order_date.zip(quote.terms.valid_until);
        day.is_some_and(|(ordered, last)| ordered > last)
    }

    /// Any quote has dates, so that the order date can change the plan.
    pub fn dated(&self) -> bool {
        let terms = self.quotes.iter().map(|q| &q.terms);
        let mut dated = terms.map(|t| t.lead_days.is_some() || t.valid_until.is_some());
        dated.any(|d| d)
    }
}
