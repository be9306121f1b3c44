//! Which of two plans of equal money is taken, among those found (DESIGN §9): fewer joints, fewer splices, fewer
//! and longer kept drops, fewer different patterns, then in the order of their stocks, pieces and splices.

use super::answer::{Configuration, Cut, Pattern, PoolAnswer, Status};
use super::best_fit::cut_length;
use super::problem::Pool;

/// What is weighed between plans of one cost, the least first, in the order of the fields.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Tie {
    /// Joints.
    pub joints: i64,
    splices: i64,
    kept: i64,
    /// Length of all kept drops, less than 0: longer goes first.
    length: i64,
    patterns: usize,
}

impl Tie {
    /// Adds what is cut and spliced of one pool.
    pub fn add(&mut self, pool: &Pool, cut: &[Pattern], spliced: &[Configuration]) {
        self.patterns += cut.len();
        for pattern in cut {
            let times = i64::from(pattern.times);
            self.joints += times;
            let taken = pattern.cuts.iter().map(|c| cut_length(pool, c) + pool.kerf);
            // The last cut takes a kerf too.
            let drop = pool.stocks[pattern.stock].usable - taken.sum::<i64>();
            if drop >= pool.credit.keep {
                self.kept += times;
                self.length -= times * drop;
            }
        }
        for c in spliced {
            let each: usize = c.lines.iter().map(|l| l.len().saturating_sub(1)).sum();
            self.splices += i64::from(c.times) * i64::try_from(each).unwrap_or(0);
        }
    }

    fn of(pool: &Pool, answer: &PoolAnswer) -> Tie {
        let mut tie = Tie::default();
        tie.add(pool, &answer.patterns, &answer.configurations);
        tie
    }
}

/// The patterns themselves, as what they are compared by last.
pub(super) fn in_order(cut: &[Pattern]) -> impl Iterator<Item = (usize, &[Cut], u32)> {
    cut.iter().map(|p| (p.stock, p.cuts.as_slice(), p.times))
}

/// True when a plan of a pool is taken for another: there is none, it costs less, or as much and goes before it.
pub(super) fn is_taken(pool: &Pool, found: &PoolAnswer, known: &PoolAnswer) -> bool {
    if known.status == Status::Short || found.cost != known.cost {
        return known.status == Status::Short || found.cost < known.cost;
    }
    let spliced = |a: &'_ PoolAnswer| -> Vec<_> {
        let each = a.configurations.iter();
        each.map(|c| (c.group, c.lines.clone(), c.times)).collect()
    };
    let by_count = Tie::of(pool, found).cmp(&Tie::of(pool, known));
    by_count
        .then_with(|| in_order(&found.patterns).cmp(in_order(&known.patterns)))
        .then_with(|| spliced(found).cmp(&spliced(known)))
        .is_lt()
}

#[cfg(test)]
mod tests {
    use super::super::longest_first::nothing_cut;
    use super::super::made;
    use super::super::problem::Credit;
    use super::*;

    /// Two lengths of pipe at one money a length; drops from 30 on are kept for nothing.
    fn pool() -> Pool {
        let stocks = [100, 200].map(|usable| made::stock(usable, usable, None));
        let items = [60, 40, 20].map(|length| made::item(length, 2));
        Pool {
            credit: Credit {
                keep: 30,
                foot: 10,
                per_foot: 0,
            },
            ..made::pool(stocks.into(), items.into(), Vec::new())
        }
    }

    fn answer(patterns: &[(usize, u32, &[usize])]) -> PoolAnswer {
        let pool = pool();
        let patterns = patterns.iter().map(|&(stock, times, cuts)| Pattern {
            stock,
            times,
            cuts: cuts.iter().map(|&i| Cut::Item(i)).collect(),
        });
        let mut answer = nothing_cut(&pool);
        answer.patterns = patterns.collect();
        answer.cost = super::super::cost::cost(&pool, &answer.patterns, &[]).expect("whole");
        answer.status = Status::Within;
        answer
    }

    #[test]
    fn of_equal_money_joints_then_drops_then_patterns_then_order_decide() {
        // All cost 300. Each goes before the one after it.
        let ranked = [
            // Two joints, one drop of 60.
            answer(&[(0, 1, &[0, 1]), (1, 1, &[0, 1, 2, 2])]),
            // Two joints, one drop of 40, where a drop of 20 is scrap.
            answer(&[(0, 1, &[0, 2]), (1, 1, &[0, 1, 1, 2])]),
            // Three joints, no kept drop: two patterns.
            answer(&[(0, 2, &[0, 2]), (0, 1, &[1, 1])]),
            // Three joints, no kept drop: three patterns.
            answer(&[(0, 1, &[0, 2]), (0, 1, &[1, 1]), (0, 1, &[0, 2])]),
            // Three joints, two kept drops.
            answer(&[(0, 1, &[0, 1]), (0, 1, &[0]), (0, 1, &[1, 2, 2])]),
        ];
        for (n, one) in ranked.iter().enumerate() {
            assert_eq!(one.cost, 300);
            for (m, other) in ranked.iter().enumerate() {
                let taken = is_taken(&pool(), one, other);
                assert_eq!(taken, n < m, "{n} for {m}");
            }
        }
    }

    #[test]
    fn money_goes_before_all_of_it_and_any_plan_before_none() {
        let dear = answer(&[(0, 2, &[0, 1]), (0, 2, &[2])]);
        let cheap = answer(&[(0, 2, &[0, 2]), (0, 1, &[1, 1])]);
        assert!(is_taken(&pool(), &cheap, &dear) && !is_taken(&pool(), &dear, &cheap));
        assert!(is_taken(&pool(), &dear, &nothing_cut(&pool())));
    }
}
