//! A joint that would serve a gate, were it here in time: when it comes, and what mends it.

use jiff::civil::Date;

use super::{in_time, on_sale, usable_of_new};
use crate::measure::Length;
use crate::order::{PipeId, Week};

/// The first joint that would do but comes after its gate's day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Late {
    /// The day the gate's pipe must be here.
    pub wanted: Date,
    /// The day the joint comes.
    day: Date,
    supplier: String,
}

/// The first late joint of a pipe whose usable length `fits`; `None` when there is none, or the gate has
/// no due date.
pub(crate) fn late(
    week: &Week,
    pipe: PipeId,
    gate: Option<usize>,
    fits: impl Fn(Length) -> bool,
) -> Option<Late> {
    let wanted = week.wanted(gate?)?;
    let (day, quote) = on_sale(week, pipe)
        .map(|(_, q)| q)
        .filter(|q| !in_time(week, q, gate))
        .filter(|q| fits(usable_of_new(&week.shop.saw, q.planning)))
        .filter_map(|q| Some((week.arrives(q)?, q)))
        .min_by_key(|(day, q)| (*day, q.supplier.clone()))?;
    Some(Late {
        wanted,
        day,
        supplier: quote.supplier.clone(),
    })
}

impl Late {
    /// "comes on 2026-04-01 from North".
    pub fn comes(&self) -> String {
        let from = match self.supplier.as_str() {
            "" => String::new(),
            supplier => format!(" from {supplier}"),
        };
        format!("comes on {}{from}", self.day)
    }

    /// "a due date 20 days later, a quicker supplier, or the pipe on the rack".
    pub fn mend(&self) -> String {
        let days = match self.wanted.until(self.day).map_or(0, |s| s.get_days()) {
            1 => "1 day".to_owned(),
            days => format!("{days} days"),
        };
        format!("a due date {days} later, a quicker supplier, or the pipe on the rack")
    }
}
