//! The leaves of a proof tree, with what the splits on the way there say of the counts.

use super::master::{joints_at_most, pieces_at_most, splices_at_most};
use super::problem::Pool;
use super::proof::{Branch, Counted, Leaf};

/// At least, at most.
pub(super) type Span = (i64, i64);

/// A leaf and the counts of the answers in it.
#[derive(Clone, Debug)]
pub(super) struct Place {
    /// Its duals.
    pub leaf: Leaf,
    /// Joints of each stock.
    pub stock: Vec<Span>,
    /// All joints.
    pub joints: Span,
    /// All splices.
    pub splices: Span,
}

impl Place {
    /// What the leaf's multipliers pay a joint, and a splice. A multiplier of any other set is left out:
    /// it can only sharpen the bound.
    pub fn shares(&self, pool: &Pool) -> (i64, i64) {
        let of = |all: &Counted| {
            let paying = self.leaf.multipliers.iter().filter(|m| m.counted == *all);
            paying.map(|m| m.value).sum()
        };
        (of(&every_joint(pool)), of(&every_splice(pool)))
    }
}

fn every_joint(pool: &Pool) -> Counted {
    Counted::Joints((0..pool.stocks.len()).collect())
}

fn every_splice(pool: &Pool) -> Counted {
    Counted::Splices((0..pool.groups.len()).collect())
}

/// The leaves of a proof, none of them empty by its own splits.
pub(super) fn places(pool: &Pool, proof: &[Branch]) -> Vec<Place> {
    let all = pieces_at_most(pool);
    let stock = pool.stocks.iter().map(|s| {
        let most = s.limit.map_or(all, |l| i64::from(l).min(all));
        (0, most)
    });
    let mut found = Vec::new();
    let root = Place {
        leaf: Leaf::nothing(0),
        stock: stock.collect(),
        joints: (0, joints_at_most(pool)),
        splices: (0, splices_at_most(pool)),
    };
    let mut open = vec![(0, root)];
    while let Some((at, mut place)) = open.pop() {
        match proof.get(at) {
            None => {}
            Some(Branch::Leaf(leaf)) => {
                place.leaf = leaf.clone();
                found.push(place);
            }
            Some(Branch::Split {
                counted,
                most,
                under,
                over,
            }) => {
                let sides = [(*over, (most + 1, i64::MAX)), (*under, (0, *most))];
                for (node, side) in sides {
                    let mut part = place.clone();
                    part.keep(pool, counted, side);
                    if part.holds() {
                        open.push((node, part));
                    }
                }
            }
        }
    }
    found
}

impl Place {
    /// Keeps the side of a split; splits of other sets than one or all part nothing here.
    fn keep(&mut self, pool: &Pool, counted: &Counted, side: Span) {
        let both = |a: Span| (a.0.max(side.0), a.1.min(side.1));
        if *counted == every_joint(pool) {
            self.joints = both(self.joints);
        }
        if *counted == every_splice(pool) {
            self.splices = both(self.splices);
        }
        if let Counted::Joints(set) = counted
            && let [stock] = set.as_slice()
        {
            self.stock[*stock] = both(self.stock[*stock]);
        }
    }

    fn holds(&self) -> bool {
        let spans = self.stock.iter().chain([&self.joints, &self.splices]);
        let (least, most) = self
            .stock
            .iter()
            .fold((0i64, 0i64), |sum, s| (sum.0 + s.0, sum.1 + s.1));
        let all = least <= self.joints.1 && most >= self.joints.0;
        all && spans.into_iter().all(|s| s.0 <= s.1)
    }
}

#[cfg(test)]
mod tests {
    use super::super::problem::{Credit, Item, Stock};
    use super::*;

    #[test]
    fn splits_narrow_what_they_count_and_empty_leaves_are_left_out() {
        let stock = |limit| Stock {
            name: "s".into(),
            usable: 10,
            cost: 10,
            price: None,
            limit,
            serves: 1,
            length: 10,
        };
        let pool = Pool {
            name: "p".into(),
            mark: 1,
            kerf: 0,
            credit: Credit::NONE,
            stocks: vec![stock(None), stock(Some(1))],
            items: vec![Item {
                length: 6,
                count: 4,
                class: 0,
            }],
            groups: Vec::new(),
        };
        let split = |set: Vec<usize>, most, under| Branch::Split {
            counted: Counted::Joints(set),
            most,
            under,
            over: under + 1,
        };
        let leaf = || Branch::Leaf(Leaf::nothing(1));
        // Four joints of all, or more; then at most one of the second stock, which has but one.
        let proof = [
            split(vec![0, 1], 3, 1),
            leaf(),
            split(vec![1], 1, 3),
            leaf(),
            leaf(),
        ];
        let found = places(&pool, &proof);
        let spans: Vec<_> = found.iter().map(|p| (p.joints.0, p.stock[1])).collect();
        assert_eq!(spans, [(0, (0, 1)), (4, (0, 1))]);
        assert_eq!(found[0].joints.1, 3);
    }
}
