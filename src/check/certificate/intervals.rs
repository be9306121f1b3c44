//! What the splits on the way to a leaf say of each counted set: at least, at most.

use std::collections::BTreeMap;

use crate::nest::{Counted, Pool};

/// Intervals of the sets split so far; any other set is free.
#[derive(Clone, Debug, Default)]
pub(super) struct Intervals {
    of: BTreeMap<Counted, (i64, Option<i64>)>,
}

impl Intervals {
    /// The interval of a set.
    pub(super) fn of(&self, counted: &Counted) -> (i64, Option<i64>) {
        self.of.get(counted).copied().unwrap_or((0, None))
    }

    /// These intervals with a set at most, or over, so many.
    pub(super) fn split(&self, counted: &Counted, most: i64) -> [Intervals; 2] {
        let (least, top) = self.of(counted);
        let (mut under, mut over) = (self.clone(), self.clone());
        let lower = top.map_or(most, |t| t.min(most));
        under.of.insert(counted.clone(), (least, Some(lower)));
        let higher = least.max(most.saturating_add(1));
        over.of.insert(counted.clone(), (higher, top));
        [under, over]
    }

    /// Fewest and most joints of a stock, `all` pieces at most in the pool; empty intervals were sorted
    /// out before.
    pub(super) fn stock(&self, pool: &Pool, stock: usize, all: u64) -> (u64, u64) {
        let (least, most) = self.of(&Counted::Joints(vec![stock]));
        let limit = pool.stocks[stock].limit.map_or(all, u64::from).min(all);
        let whole = |n: i64| u64::try_from(n).unwrap_or(0);
        (whole(least), most.map_or(limit, |m| whole(m).min(limit)))
    }

    /// Whether no answer lies here: an interval is empty, or asks for more of a stock than there is.
    pub(super) fn is_empty(&self, pool: &Pool) -> bool {
        self.of.iter().any(|(counted, (least, most))| {
            let limit = match counted {
                Counted::Joints(set) => match set.as_slice() {
                    [one] => pool.stocks.get(*one).and_then(|s| s.limit).map(i64::from),
                    _ => None,
                },
                Counted::Splices(_) => None,
            };
            most.is_some_and(|m| m < *least) || limit.is_some_and(|l| l < *least)
        })
    }
}
