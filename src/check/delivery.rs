//! Days of delivery against due dates: no piece comes of a joint that is not here yet; and the classes by
//! which the nest problem keeps that.

use std::collections::BTreeSet;

use jiff::civil::Date;

use super::case::{Case, joint_name};
use super::docket::Docket;
use super::rule::Rule;
use super::tariff::on_sale;
use crate::order::{PipeId, Quote, Week};
use crate::plan::JointSource;

/// Judges every joint's day against the gates its pieces go to.
pub(super) fn judge(case: &Case<'_>, docket: &mut Docket) {
    for joint in &case.plan.joints {
        let here = match joint.source {
            JointSource::Bought(quote) => day(case.week, &case.week.quotes[quote]),
            JointSource::Rack(row, _) => case.week.rack[row].arrives,
        };
        let Some(here) = here else {
            continue;
        };
        for piece in &joint.pieces {
            let gate = case.take_off.parts[piece.part].gate;
            let late = gate
                .and_then(|g| needed(case.week, g))
                .filter(|needed| here > *needed);
            if let Some(needed) = late {
                docket.say(
                    Rule::JointLate,
                    &joint_name(joint),
                    format!("{} needs it by {needed}, it comes on {here}", piece.mark),
                );
            }
        }
    }
}

/// Order date and calendar days; `None`: at hand, or nothing is known.
pub(super) fn day(week: &Week, quote: &Quote) -> Option<Date> {
    let days = quote.terms.lead_days?;
    let mut day = week.shop.buying.order_date?;
    if days == 0 {
        return None;
    }
    for _ in 0..days {
        day = day.tomorrow().ok()?;
    }
    Some(day)
}

/// Due date less the shop's own days.
pub(super) fn needed(week: &Week, gate: usize) -> Option<Date> {
    let mut day = week.gates[gate].due?;
    for _ in 0..week.shop.buying.shop_days {
        day = day.yesterday().ok()?;
    }
    Some(day)
}

/// Delivery days of a pipe that some gate of the week cannot wait for.
fn late_days(week: &Week, pipe: PipeId) -> BTreeSet<Date> {
    let gates = 0..week.gates.len();
    let needed: Vec<Date> = gates
        .filter(|g| week.gates[*g].count > 0)
        .filter_map(|g| needed(week, g))
        .collect();
    let lying = week.rack.iter().filter(|r| r.pipe == pipe && r.count > 0);
    on_sale(week, pipe)
        .filter_map(|(_, q)| day(week, q))
        .chain(lying.filter_map(|r| r.arrives))
        .filter(|day| needed.iter().any(|needed| day > needed))
        .collect()
}

/// How many of the late days a gate can still wait for; what has no date waits for all.
pub(super) fn class(week: &Week, pipe: PipeId, gate: Option<usize>) -> u8 {
    let needed = gate.and_then(|g| needed(week, g));
    let waits = |day: &&Date| needed.is_none_or(|needed| **day <= needed);
    let days = late_days(week, pipe);
    u8::try_from(days.iter().filter(waits).count()).unwrap_or(u8::MAX)
}

/// The classes that can wait for what comes on a day (`None`: it is here), as bits.
pub(super) fn serves(week: &Week, pipe: PipeId, here: Option<Date>) -> u32 {
    let days = late_days(week, pipe);
    let Some(here) = here.filter(|d| days.contains(d)) else {
        return u32::MAX;
    };
    let waited: u32 = (0..32u32)
        .zip(&days)
        .filter(|(_, day)| **day <= here)
        .map(|(bit, _)| 1 << bit)
        .sum();
    !waited
}
