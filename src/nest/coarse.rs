//! Lists of very many lengths: neighbours taken together.
//!
//! Counted as the shortest of them, whatever can be cut can be cut all the more: a bound of the coarse pool is
//! one of the pool. Counted as the longest, a plan of the coarse pool is one of the pool.

use super::answer::{Cut, PoolAnswer};
use super::assemble::{Choice, assemble};
use super::master::Row;
use super::problem::{Item, Pool};
use super::proof::{Branch, Leaf};

/// What neighbours count as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum As {
    /// The shortest of them.
    Shortest,
    /// The longest of them.
    Longest,
}

/// A pool with neighbouring lengths taken together.
pub(super) struct Coarse {
    /// The coarse pool.
    pub pool: Pool,
    /// Per item of the true pool the item it counts as.
    pub of: Vec<usize>,
}

/// Takes neighbours together until about `most` lengths are left.
pub(super) fn coarsen(pool: &Pool, counted: As, most: usize) -> Coarse {
    let mut order: Vec<usize> = (0..pool.items.len()).collect();
    order.sort_by_key(|&i| (pool.items[i].class, pool.items[i].length));
    if counted == As::Longest {
        order.reverse();
    }
    let together = pool.items.len().div_ceil(most.max(1)).max(1);
    let mut items: Vec<Item> = Vec::new();
    let mut of = vec![0; pool.items.len()];
    let mut held = 0;
    for i in order {
        let item = &pool.items[i];
        match items.last_mut() {
            Some(last) if last.class == item.class && held < together => {
                last.count = last.count.saturating_add(item.count);
                held += 1;
            }
            _ => {
                items.push(item.clone());
                held = 1;
            }
        }
        of[i] = items.len() - 1;
    }
    let pool = Pool {
        items,
        ..pool.clone()
    };
    Coarse { pool, of }
}

impl Coarse {
    /// A proof of the coarse pool as one of the true pool, each item at the dual of what it counts as.
    pub fn lift(&self, proof: &[Branch]) -> Vec<Branch> {
        let lifted = |branch: &Branch| match branch {
            Branch::Leaf(leaf) => Branch::Leaf(Leaf {
                item_duals: self.of.iter().map(|&c| leaf.item_duals[c]).collect(),
                ..leaf.clone()
            }),
            split @ Branch::Split { .. } => split.clone(),
        };
        proof.iter().map(lifted).collect()
    }

    /// An answer of the coarse pool of longest lengths as one of the true pool.
    pub fn cut_true(&self, pool: &Pool, answer: &PoolAnswer) -> Option<PoolAnswer> {
        let mut rows: Vec<Row> = Vec::new();
        let mut choice = Choice::default();
        for pattern in &answer.patterns {
            let mut cuts: Vec<(usize, u32)> = Vec::new();
            for cut in &pattern.cuts {
                let (class, length) = match *cut {
                    Cut::Item(i) => (self.pool.items[i].class, self.pool.items[i].length),
                    Cut::Piece { length, class } => (class, length),
                };
                cuts.push((rows.len(), 1));
                rows.push(Row {
                    class,
                    length,
                    item: None,
                    lp: 0,
                });
            }
            choice.patterns.push((pattern.stock, cuts, pattern.times));
        }
        let spliced = answer.configurations.iter();
        choice.splicings = spliced
            .map(|c| (c.group, c.lines.clone(), c.times))
            .collect();
        assemble(pool, &rows, &choice, &[])
    }

    /// Duals of the true items drawn out straight between those of the coarse ones.
    pub fn drawn_out(&self, pool: &Pool, leaf: &Leaf) -> Leaf {
        let coarse = &self.pool.items;
        let at = |(item, &c): (&Item, &usize)| {
            let (low, dual) = (&coarse[c], leaf.item_duals[c]);
            let next = coarse.get(c + 1).filter(|n| n.class == low.class);
            let rise = next.map_or(0, |_| (leaf.item_duals[c + 1] - dual).max(0));
            let span = next.map_or(1, |n| (n.length - low.length).max(1));
            let part = i128::from(rise) * i128::from(item.length - low.length) / i128::from(span);
            dual + i64::try_from(part).unwrap_or(0)
        };
        Leaf {
            item_duals: pool.items.iter().zip(&self.of).map(at).collect(),
            dual_scale: leaf.dual_scale,
            ..Leaf::nothing(0)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::longest_first::first_answer;
    use super::super::problem::{Credit, Stock};
    use super::*;

    fn pool() -> Pool {
        let item = |(length, class)| Item {
            length,
            count: 2,
            class,
        };
        Pool {
            name: "p".into(),
            mark: 1,
            kerf: 0,
            credit: Credit::NONE,
            stocks: vec![Stock {
                name: "s".into(),
                usable: 100,
                cost: 100,
                price: None,
                limit: None,
                serves: 3,
                length: 100,
            }],
            items: [(14, 0), (10, 0), (11, 0), (13, 0), (12, 1), (15, 0)]
                .map(item)
                .to_vec(),
            groups: Vec::new(),
        }
    }

    #[test]
    fn neighbours_of_one_class_count_as_the_shortest() {
        let coarse = coarsen(&pool(), As::Shortest, 3);
        let items: Vec<_> = coarse.pool.items.iter().collect();
        let told: Vec<_> = items.iter().map(|i| (i.length, i.count, i.class)).collect();
        assert_eq!(told, [(10, 4, 0), (13, 4, 0), (15, 2, 0), (12, 2, 1)]);
        assert_eq!(coarse.of, [1, 0, 0, 1, 3, 2]);
    }

    #[test]
    fn or_as_the_longest_and_a_plan_of_those_is_one_of_the_true_lengths() {
        let coarse = coarsen(&pool(), As::Longest, 3);
        let items = coarse.pool.items.iter();
        let told: Vec<_> = items.map(|i| (i.length, i.count, i.class)).collect();
        assert_eq!(told, [(12, 2, 1), (15, 4, 0), (13, 4, 0), (10, 2, 0)]);
        let rough = first_answer(&coarse.pool, &|| false);
        let plan = coarse.cut_true(&pool(), &rough).expect("all of it fits");
        let exact = super::super::cost::cost(&pool(), &plan.patterns, &plan.configurations);
        assert_eq!(exact, Ok(plan.cost));
        assert_eq!((plan.cost, rough.cost), (200, 200));
    }

    #[test]
    fn duals_are_drawn_out_straight_within_a_class() {
        let coarse = coarsen(&pool(), As::Shortest, 3);
        let mut leaf = Leaf::nothing(4);
        leaf.item_duals = vec![30, 60, 50, 7];
        // 11 lies a third of the way from 10 to 13; past 13 the dual falls, so it stays.
        assert_eq!(
            coarse.drawn_out(&pool(), &leaf).item_duals,
            [60, 30, 40, 60, 7, 50]
        );
        let lifted = coarse.lift(&[Branch::Leaf(leaf)]);
        let [Branch::Leaf(lifted)] = lifted.as_slice() else {
            panic!("one leaf stays one leaf");
        };
        assert_eq!(lifted.item_duals, [60, 30, 30, 60, 7, 50]);
    }
}
