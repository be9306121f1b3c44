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

impl Place {
    /// No splits yet.
    pub fn whole(pool: &Pool) -> Place {
        let all = pieces_at_most(pool);
        let stock = pool.stocks.iter().map(|s| {
            let most = s.limit.map_or(all, |l| i64::from(l).min(all));
            (0, most)
        });
        Place {
            leaf: Leaf::nothing(pool.items.len()),
            stock: stock.collect(),
            joints: (0, joints_at_most(pool)),
            splices: (0, splices_at_most(pool)),
        }
    }

    /// Binds a program.
    pub fn bind(&self, master: &mut super::master::Master<'_>) {
        let counts = master.counts.clone();
        let root = Place::whole(master.pool);
        let mut set = |pair: (usize, usize), span: Span, root: Span| {
            if span.1 < root.1 {
                master.lp.set_right(pair.0, span.1 as f64);
            }
            if span.0 > root.0 {
                master.lp.set_right(pair.1, span.0 as f64);
            }
        };
        for (s, pair) in counts.stock.iter().enumerate() {
            set(*pair, self.stock[s], root.stock[s]);
        }
        set(counts.joints, self.joints, root.joints);
        set(counts.splices, self.splices, root.splices);
    }

    /// Every count is known.
    pub fn fixed(&self) -> bool {
        self.stock.iter().chain([&self.splices]).all(|s| s.0 == s.1)
    }

    /// Money that joints and splices come to, with each sum the slots' charges may add; what credits take off
    /// comes in whole feet. `None` where the counts are not known or charges are too many.
    fn sums(&self, pool: &Pool) -> Option<Vec<i64>> {
        if !self.fixed() {
            return None;
        }
        let mut groups = pool.groups.iter().filter(|g| g.count > 0);
        let each = groups.next().map_or(0, |g| g.splice_cost);
        if groups.any(|g| g.splice_cost != each) {
            return None;
        }
        let joints: i64 = pool
            .stocks
            .iter()
            .zip(&self.stock)
            .map(|(s, n)| s.cost * n.0)
            .sum();
        let slots = pool
            .groups
            .iter()
            .filter(|g| g.count > 0)
            .flat_map(|g| &g.lines)
            .flat_map(|l| &l.slots);
        let charges: std::collections::BTreeSet<i64> =
            slots.map(|s| s.charge).filter(|c| *c > 0).collect();
        let mut sums = std::collections::BTreeSet::from([joints + each * self.splices.0]);
        for _ in 0..self.splices.0 {
            let more: Vec<i64> = sums
                .iter()
                .flat_map(|s| charges.iter().map(move |c| s + c))
                .collect();
            sums.extend(more);
            if sums.len() > 64 {
                return None;
            }
        }
        Some(sums.into_iter().collect())
    }

    /// The least money ≥ `bound` that an answer in here can come to.
    pub fn next(&self, pool: &Pool, bound: i64) -> i64 {
        let foot = pool.credit.per_foot;
        let Some(sums) = self.sums(pool) else {
            return bound;
        };
        let over = sums.into_iter().filter(|s| *s >= bound);
        over.map(|s| {
            if foot > 0 {
                bound + (s - bound) % foot
            } else {
                s
            }
        })
        .min()
        .unwrap_or(i64::MAX)
    }

    /// The most money < `cost` that an answer in here can come to.
    pub fn under(&self, pool: &Pool, cost: i64) -> i64 {
        let foot = pool.credit.per_foot;
        let Some(sums) = self.sums(pool) else {
            return cost - super::bound::money_step(pool);
        };
        let most = cost - 1;
        let under = sums.into_iter().map(|s| {
            if s <= most {
                s
            } else if foot > 0 {
                s - (s - most + foot - 1) / foot * foot
            } else {
                i64::MIN / 4
            }
        });
        under.max().unwrap_or(i64::MIN / 4)
    }

    /// The first count that is not settled: rows of at most and at least, span.
    pub fn loose(&self, master: &super::master::Master<'_>) -> Option<((usize, usize), Span)> {
        let counts = &master.counts;
        let stocks = counts.stock.iter().copied().zip(self.stock.iter().copied());
        stocks
            .chain([(counts.splices, self.splices)])
            .find(|(_, s)| s.0 < s.1)
    }

    /// Narrows by a new right side of a counting row.
    pub fn narrow(&mut self, master: &super::master::Master<'_>, row: usize, right: i64) {
        let counts = &master.counts;
        let put = |pair: (usize, usize), span: &mut Span| {
            if row == pair.0 {
                span.1 = span.1.min(right);
            }
            if row == pair.1 {
                span.0 = span.0.max(right);
            }
        };
        for (s, pair) in counts.stock.iter().enumerate() {
            put(*pair, &mut self.stock[s]);
        }
        put(counts.joints, &mut self.joints);
        put(counts.splices, &mut self.splices);
    }
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
