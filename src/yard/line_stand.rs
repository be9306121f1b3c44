//! `LineStand`: one line of what a week buys: to order, on order, here.

use std::collections::BTreeMap;

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use crate::measure::{Length, Money};
use crate::order::PipeKey;

/// A line.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LineStand {
    /// Supplier.
    pub supplier: String,
    /// Pipe.
    pub pipe: PipeKey,
    /// Length billed.
    pub nominal: Length,
    /// Length counted on.
    pub planning: Length,
    /// Joints that the plan wants.
    pub wanted: u32,
    /// Money of the line as planned.
    pub planned_money: Option<Money>,
    /// Spares on top.
    pub spare: bool,
    /// Joints ordered.
    pub ordered: u32,
    /// Joints that came and were not sent back at the gate.
    pub came: u32,
    /// Joints that will not come.
    pub dropped: u32,
    /// Day promised.
    pub promised: Option<Date>,
    /// Day they must be here.
    pub needed: Option<Date>,
    /// Whole joints that lie, by usable length.
    #[serde(with = "super::pairs")]
    pub lying: BTreeMap<Length, u32>,
    /// Lying joints that any week may take.
    pub freed: u32,
}

impl LineStand {
    /// Joints on order.
    pub fn on_order(&self) -> u32 {
        self.ordered.saturating_sub(self.came + self.dropped)
    }

    /// Joints that still must be ordered. What will not come is no order any more.
    pub fn to_order(&self) -> u32 {
        self.wanted
            .saturating_sub(self.ordered.saturating_sub(self.dropped))
    }

    /// Joints that lie.
    pub fn lie(&self) -> u32 {
        self.lying.values().copied().fold(0, u32::saturating_add)
    }

    /// Joints that may still come: ordered, or, where nothing was told of an order, wanted.
    pub fn may_come(&self) -> u32 {
        self.on_order() + self.to_order()
    }

    pub(super) fn put(&mut self, length: Length, count: u32) {
        if count > 0 {
            *self.lying.entry(length).or_insert(0) += count;
        }
    }

    /// So many of that length go; the caller has seen that they lie.
    pub(super) fn pick(&mut self, length: Length, count: u32) {
        if let Some(lie) = self.lying.get_mut(&length) {
            *lie = lie.saturating_sub(count);
            if *lie == 0 {
                self.lying.remove(&length);
            }
        }
        self.freed = self.freed.min(self.lie());
    }

    /// Lengths and counts of so many joints, those as planned first, then the longest; `None` where
    /// fewer lie.
    pub(super) fn some(&self, count: u32) -> Option<Vec<(Length, u32)>> {
        let as_planned = self.lying.get_key_value(&self.planning);
        let rest = self
            .lying
            .iter()
            .rev()
            .filter(|(l, _)| **l != self.planning);
        let (mut left, mut out) = (count, Vec::new());
        for (length, lie) in as_planned.into_iter().chain(rest) {
            let take = left.min(*lie);
            if take > 0 {
                out.push((*length, take));
                left -= take;
            }
        }
        (left == 0).then_some(out)
    }
}
