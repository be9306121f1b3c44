//! The length bound: what the pipe alone costs, as if every joint were cut up whole. It takes no pricing, so it
//! is there at once for a pool of any size, and stands wherever a search ended before it knew more.
//!
//! With c money a length, a piece is worth c·(ℓ + k). A joint's pieces weigh w = Σ(ℓ + k) together and its drop
//! is credited by whole feet, so no pattern is worth more than its joint costs where c is at most
//! (cost − credit(U − w)) / w for the greatest w of each credit. A spliced line with m splices is worth c of all
//! its pieces and kerfs; the certificate carries worths of pieces as a staircase of rows, so each of its m + 1
//! pieces may be worth one stair less.

use super::admit::MOST;
use super::bound::money_step;
use super::lattice::pieces_sum;
use super::longest_first::longest_piece;
use super::master::pieces_at_most;
use super::problem::{Group, Pool, Stock};
use super::proof::Leaf;

/// Stairs of a spliced piece's worth.
const STAIRS: i64 = 64;
/// Bits of the denominator of the duals over those of the dearest joint.
const BITS: u32 = 44;

/// The best bound by length and its duals; `None` where it says nothing.
pub(super) fn length_bound(pool: &Pool) -> Option<(i64, Leaf)> {
    let there = || pool.stocks.iter().filter(|s| s.limit != Some(0));
    let dearest = there().map(|s| s.cost).max().unwrap_or(0);
    let scale = 1i64 << BITS.saturating_sub(64 - dearest.leading_zeros()).min(30);
    let rates: Vec<Rate> = there().filter_map(|s| rate(pool, s)).collect();
    let step = i128::from(money_step(pool));
    let each = rates.iter().map(|rate| {
        let floor = i128::from(scale) * step;
        let sum = sum(pool, *rate, scale);
        (-(-sum).div_euclid(floor) * step, *rate)
    });
    let (bound, rate) = each.max_by_key(|(bound, _)| *bound)?;
    let bound = i64::try_from(bound).ok().filter(|b| *b > 0)?;
    Some((bound, leaf(pool, rate, scale)))
}

/// Money a length, as a fraction.
#[derive(Clone, Copy, Debug)]
struct Rate {
    money: i128,
    length: i128,
}

impl Rate {
    /// Worth of a weight, rounded down, in 1/scale money.
    fn of(self, weight: i64, scale: i64) -> i128 {
        (i128::from(weight) * self.money * i128::from(scale)).div_euclid(self.length)
    }
}

/// (greatest weight, credit) for each credit that a joint's drop can have.
fn credits(pool: &Pool, stock: &Stock) -> impl Iterator<Item = (i64, i64)> + use<> {
    let (credit, usable, kerf) = (pool.credit, stock.usable, pool.kerf);
    let first = credit.keep / credit.foot;
    let feet = if credit.per_foot > 0 {
        first..usable / credit.foot + 1
    } else {
        0..0
    };
    let credited = feet.filter_map(move |feet| {
        let drop = (feet * credit.foot).max(credit.keep);
        (drop < usable).then(|| (usable - drop, credit.of(drop)))
    });
    std::iter::once((usable + kerf, 0)).chain(credited)
}

/// The most that a length may be worth so that no pattern of a stock is worth more than it costs.
fn rate(pool: &Pool, stock: &Stock) -> Option<Rate> {
    let all = credits(pool, stock).map(|(weight, credit)| Rate {
        money: i128::from(stock.cost - credit),
        length: i128::from(weight),
    });
    all.min_by(|a, b| (a.money * b.length).cmp(&(b.money * a.length)))
        .filter(|r| r.money > 0)
}

/// The certificate's sum at this rate, or less.
fn sum(pool: &Pool, rate: Rate, scale: i64) -> i128 {
    let items = (pool.items.iter())
        .map(|i| rate.of(i.length + pool.kerf, scale) * i128::from(i.count))
        .sum::<i128>();
    let groups: i128 = (pool.groups.iter())
        .map(|g| line_by_line(pool, g, rate, scale) * i128::from(g.count))
        .sum();
    let pieces = pieces_at_most(pool);
    let stocks = pool.stocks.iter().map(|stock| {
        let most = stock.limit.map_or(pieces, |l| i64::from(l).min(pieces));
        let worth = credits(pool, stock)
            .map(|(weight, credit)| rate.of(weight, scale) + i128::from(credit) * i128::from(scale))
            .max();
        let reduced = i128::from(stock.cost) * i128::from(scale) - worth.unwrap_or(0);
        reduced.min(0) * i128::from(most)
    });
    items + groups + stocks.sum::<i128>()
}

/// What a group costs at least: its splices, and its pieces by length less a stair each.
fn line_by_line(pool: &Pool, group: &Group, rate: Rate, scale: i64) -> i128 {
    let stair = stair(pool, group.class, rate, scale);
    let lines = group.lines.iter().map(|line| {
        let with = |m: u32| {
            let metal = if m == 0 {
                line.whole
            } else {
                pieces_sum(line, pool.mark, m)
            };
            let pieces = i64::from(m) + 1;
            let worth =
                rate.of(metal + pieces * pool.kerf, scale) - i128::from(pieces) * (stair + 1);
            worth + i128::from(m) * i128::from(group.splice_cost) * i128::from(scale)
        };
        let counts = line.least_splices..=line.most_splices;
        counts.map(with).min().unwrap_or(0).max(0)
    });
    lines.sum()
}

/// What a piece may be worth more than the stair below it.
fn stair(pool: &Pool, class: u8, rate: Rate, scale: i64) -> i128 {
    rate.of(stair_length(pool, class), scale) + 1
}

fn stair_length(pool: &Pool, class: u8) -> i64 {
    longest_piece(pool, class, false) / STAIRS + 1
}

fn leaf(pool: &Pool, rate: Rate, scale: i64) -> Leaf {
    let dual = |weight: i64| i64::try_from(rate.of(weight, scale)).unwrap_or(MOST);
    let mut leaf = Leaf {
        dual_scale: scale,
        ..Leaf::nothing(pool.items.len())
    };
    for (own, item) in leaf.item_duals.iter_mut().zip(&pool.items) {
        *own = dual(item.length + pool.kerf);
    }
    let mut classes: Vec<u8> = (pool.groups.iter())
        .filter(|g| g.count > 0)
        .map(|g| g.class)
        .collect();
    classes.sort_unstable();
    classes.dedup();
    for class in classes {
        let length = stair_length(pool, class);
        let mut before = 0;
        for stair in 1..=STAIRS + 1 {
            let at = (stair - 1) * length + 1;
            let worth = dual(at + pool.kerf);
            leaf.length_duals.push((at, class, worth - before));
            before = worth;
        }
    }
    leaf
}

#[cfg(test)]
mod tests {
    use super::super::made::{group, item, line, pool, stock};
    use super::super::problem::Credit;
    use super::*;

    #[test]
    fn length_alone_by_hand() {
        // 3 · 41 + 2 · 31 = 185 of 101 a joint at 50: 91.6, and every cost is a multiple of 50.
        let mut plain = pool(
            vec![stock(100, 50, None)],
            vec![item(40, 3), item(30, 2)],
            Vec::new(),
        );
        plain.kerf = 1;
        let (bound, leaf) = length_bound(&plain).expect("there is pipe to pay");
        assert_eq!((bound, leaf.item_duals.len()), (100, 2));
        // A joint that is there for nothing takes 101 of it: 84 of 101 at 50.
        plain.stocks.push(stock(100, 0, Some(1)));
        assert_eq!(length_bound(&plain).map(|b| b.0), Some(50));
        plain.stocks[1].limit = Some(2);
        assert_eq!(length_bound(&plain).map(|b| b.0), None);
    }

    #[test]
    fn credit_and_splices_are_counted() {
        // A drop of 60 is credited 30: so a length costs (50 − 30) / 40 at least.
        let credit = Credit {
            keep: 60,
            foot: 10,
            per_foot: 5,
        };
        let mut one = pool(vec![stock(100, 50, None)], vec![item(40, 10)], Vec::new());
        one.credit = credit;
        assert_eq!(length_bound(&one).map(|b| b.0), Some(200));
        // A line of 160 with one splice: 80 of pipe less two stairs, and the splice.
        let long = line(160, 10, &[(60, 100, 1, 0)]);
        let spliced = pool(
            vec![stock(100, 50, None)],
            Vec::new(),
            vec![group(vec![long], 1, 0)],
        );
        let (bound, _) = length_bound(&spliced).expect("there is pipe to pay");
        assert!((85..=90).contains(&bound), "{bound}");
    }
}
