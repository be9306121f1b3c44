//! Which joints are here in time for which gates: classes of items for the nest room.

use jiff::civil::Date;
use serde::Serialize;

use super::usable::on_sale;
use crate::order::{PipeId, Quote, Week};

/// The delivery days of one pipe that are too late for some gate of the week, ascending.
///
/// The class of a gate is how many of them are not too late for it; a joint of the i-th day (from 0)
/// serves the classes over i. With no such day everything is class 0 and serves all.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(transparent)]
pub struct DeliveryDays(Vec<Date>);

impl DeliveryDays {
    /// The days of a pipe's quotes; at most 31 by the reading of stock.csv.
    pub fn of(week: &Week, pipe: PipeId) -> DeliveryDays {
        let gates = (0..week.gates.len()).filter(|g| week.gates[*g].count > 0);
        let Some(soonest) = gates.filter_map(|g| week.wanted(g)).min() else {
            return DeliveryDays::default();
        };
        let lying = week.rack.iter().filter(|r| r.pipe == pipe && r.count > 0);
        let mut days: Vec<Date> = on_sale(week, pipe)
            .filter_map(|(_, q)| week.arrives(q))
            .chain(lying.filter_map(|r| r.arrives))
            .filter(|day| *day > soonest)
            .collect();
        days.sort_unstable();
        days.dedup();
        DeliveryDays(days)
    }

    /// Every joint is here in time for every gate.
    pub fn none(&self) -> bool {
        self.0.is_empty()
    }

    /// Class of what a gate (none: an extra part, which has no date) wants.
    pub fn class(&self, week: &Week, gate: Option<usize>) -> u8 {
        let in_time = match gate.and_then(|g| week.wanted(g)) {
            None => self.0.len(),
            Some(wanted) => self.0.partition_point(|day| *day <= wanted),
        };
        u8::try_from(in_time).unwrap_or(31).min(31)
    }

    /// Classes that joints which come on `day` (`None`: they are here) may serve, one bit each.
    pub fn serves(&self, day: Option<Date>) -> u32 {
        let at = day.and_then(|day| self.0.iter().position(|d| *d == day));
        match at.and_then(|at| u32::try_from(at + 1).ok()) {
            None => u32::MAX,
            Some(over) => u32::MAX.checked_shl(over).unwrap_or(0),
        }
    }
}

/// Whether a quote's joints are here in time for a gate (none: always).
pub fn in_time(week: &Week, quote: &Quote, gate: Option<usize>) -> bool {
    here_in_time(week, week.arrives(quote), gate)
}

/// Whether what comes on `day` (`None`: it is here) is in time for a gate (none: always).
pub(crate) fn here_in_time(week: &Week, day: Option<Date>, gate: Option<usize>) -> bool {
    let wanted = gate.and_then(|g| week.wanted(g));
    match (day, wanted) {
        (Some(day), Some(wanted)) => day <= wanted,
        _ => true,
    }
}
