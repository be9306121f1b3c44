//! The lengths a closing search tells apart, with what a piece of each is worth.
//!
//! A piece of a spliced line counts as the longest of these lengths that is not over it: so a program on
//! the grid costs no more than the true one, however fine the marks.

use std::collections::BTreeMap;

use super::leaves::Place;
use super::longest_first::longest_piece;
use super::price::Price;
use super::problem::Pool;

/// One length of one class.
#[derive(Clone, Copy, Debug)]
pub(super) struct Mesh {
    /// Class bit index.
    pub class: u8,
    /// Length.
    pub length: i64,
    /// Items to be cut of just this length.
    pub want: u32,
    /// Worth of one piece, in units of 1/scale money.
    pub value: i64,
}

/// The lengths and their order.
#[derive(Clone, Debug)]
pub(super) struct Grid {
    /// All lengths.
    pub rows: Vec<Mesh>,
    /// Rows of each class with spliced lines, ascending.
    pub linked: BTreeMap<u8, Vec<usize>>,
    /// Price of a piece per such class.
    pub prices: BTreeMap<u8, Price>,
    /// Denominator of the values.
    pub scale: i64,
    /// What the multipliers of counts pay a joint, and a splice.
    pub shares: (i64, i64),
}

impl Grid {
    /// Items, rises of the certified duals, and `extra` lengths of classes with spliced lines.
    pub fn new(pool: &Pool, place: &Place, extra: &[(u8, i64)]) -> Grid {
        let duals = &place.leaf;
        let mut linked: BTreeMap<u8, Vec<usize>> = BTreeMap::new();
        let mut prices = BTreeMap::new();
        let mut lengths: BTreeMap<(u8, i64), u32> = BTreeMap::new();
        for group in pool.groups.iter().filter(|g| g.count > 0) {
            linked.entry(group.class).or_default();
        }
        for &class in linked.keys() {
            let of_class = duals.length_duals.iter().filter(|d| d.1 == class);
            let jumps: Vec<(i64, i64)> = of_class.map(|d| (d.0, d.2)).collect();
            let longest = longest_piece(pool, class, false);
            for &(length, _) in jumps.iter().filter(|j| j.0 <= longest) {
                lengths.insert((class, length), 0);
            }
            prices.insert(class, Price::new(&jumps, longest));
        }
        for &(class, length) in extra {
            lengths.entry((class, length)).or_insert(0);
        }
        let mut rows: Vec<Mesh> = Vec::new();
        for (i, item) in pool.items.iter().enumerate().filter(|(_, i)| i.count > 0) {
            if linked.contains_key(&item.class) {
                *lengths.entry((item.class, item.length)).or_insert(0) += item.count;
            } else {
                rows.push(Mesh {
                    class: item.class,
                    length: item.length,
                    want: item.count,
                    value: duals.item_duals[i],
                });
            }
        }
        for ((class, length), want) in lengths {
            let value = prices.get(&class).and_then(|p| p.of(length));
            if let (Some(value), Some(list)) = (value, linked.get_mut(&class)) {
                list.push(rows.len());
                rows.push(Mesh {
                    class,
                    length,
                    want,
                    value,
                });
            }
        }
        Grid {
            rows,
            linked,
            prices,
            scale: duals.dual_scale,
            shares: place.shares(pool),
        }
    }

    /// The row a piece counts as; `None` under the shortest.
    pub fn below(&self, class: u8, length: i64) -> Option<usize> {
        let list = self.linked.get(&class)?;
        let after = list.partition_point(|&r| self.rows[r].length <= length);
        list.get(after.checked_sub(1)?).copied()
    }

    /// The shortest length of the grid over this one.
    pub fn next_over(&self, class: u8, length: i64) -> Option<i64> {
        let list = self.linked.get(&class)?;
        let after = list.partition_point(|&r| self.rows[r].length <= length);
        list.get(after).map(|&r| self.rows[r].length)
    }

    /// Worth of a piece; `None` when no stock holds it.
    pub fn worth(&self, class: u8, length: i64) -> Option<i64> {
        self.prices.get(&class)?.of(length)
    }

    /// Worth of all items.
    pub fn items_worth(&self) -> i128 {
        let each = |r: &Mesh| i128::from(r.value) * i128::from(r.want);
        self.rows.iter().map(each).sum()
    }
}
