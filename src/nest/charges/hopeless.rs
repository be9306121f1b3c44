//! Pools that plainly have no plan, and the duals that say so: as dear as one likes.

use super::super::couple::Coupling;
use super::super::longest_first::{any_splices, longest_piece};
use super::super::problem::{Group, Item, Pool};
use super::super::proof::Leaf;

/// A bound past all money.
const DEAR: i64 = 1 << 56;

/// The bound and duals of a pool in which an item or a group fits no stock, or whose items are longer
/// together than all its stock.
pub(in crate::nest) fn hopeless(pool: &Pool, stop: &dyn Fn() -> bool) -> Option<(i64, Leaf)> {
    let mut leaf = Leaf::nothing(pool.items.len());
    let lost = |(length, class): (i64, u8)| longest_piece(pool, class, false) < length;
    let item = pool
        .items
        .iter()
        .position(|i| i.count > 0 && lost((i.length, i.class)));
    if let Some(item) = item {
        leaf.item_duals[item] = DEAR;
        return Some((DEAR, leaf));
    }
    // Only a search that looked at every way says that there is none; here the verifiers must see it, too.
    let none = |g: &&Group| {
        let longest = longest_piece(pool, g.class, false);
        matches!(
            any_splices(pool, g, longest, stop),
            Coupling::Impossible { seen: true, .. }
        )
    };
    if pool.groups.iter().filter(|g| g.count > 0).any(|g| none(&g)) {
        return Some((DEAR, leaf));
    }
    let room: Option<i128> = pool
        .stocks
        .iter()
        .map(|s| Some(i128::from(s.limit?) * i128::from(s.usable + pool.kerf)))
        .sum();
    let each = |i: &Item| i128::from(i.length + pool.kerf);
    let wanted: i128 = pool
        .items
        .iter()
        .map(|i| each(i) * i128::from(i.count))
        .sum();
    let over = wanted - room.filter(|room| *room < wanted)?;
    let longest = pool.items.iter().map(|i| i.length + pool.kerf).max()?;
    let value = DEAR / longest;
    for (dual, item) in leaf.item_duals.iter_mut().zip(&pool.items) {
        *dual = value * (item.length + pool.kerf);
    }
    let bound = over * i128::from(value);
    Some((i64::try_from(bound).map_or(DEAR, |b| b.min(DEAR)), leaf))
}

#[cfg(test)]
mod tests {
    use super::super::super::problem::{Credit, Stock};
    use super::*;

    #[test]
    fn says_only_what_is_so() {
        let mut pool = Pool {
            name: "p".into(),
            mark: 1,
            kerf: 1,
            credit: Credit {
                keep: 10,
                foot: 10,
                per_foot: 0,
            },
            stocks: vec![Stock {
                name: "a".into(),
                usable: 100,
                cost: 5,
                price: None,
                limit: Some(1),
                serves: 1,
                length: 100,
            }],
            items: vec![Item {
                length: 33,
                count: 3,
                class: 0,
            }],
            groups: Vec::new(),
        };
        // 3 · 34 = 102 against 101.
        assert!(hopeless(&pool, &|| false).is_some());
        pool.items[0].length = 32;
        assert!(hopeless(&pool, &|| false).is_none());
        pool.items[0].class = 1;
        assert!(hopeless(&pool, &|| false).is_some());
    }
}
