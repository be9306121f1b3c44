//! Random tiny jobs through the engine and through a slow, plain referee that tries everything.
//!
//! The referee knows the rules from the problem's description alone: it lists every configuration of every
//! group, then every set of joints by exhaustive assignment with memory of what is left to cut.

use std::collections::{BTreeMap, BTreeSet};

use longpoint::check::certificate::verify;
use longpoint::nest::{
    Credit, Group, Item, Limits, Line, NoWatch, Pool, Problem, Slot, Status, Stock, cost, solve,
};

struct Dice(u64);

impl Dice {
    fn roll(&mut self, n: u64) -> i64 {
        self.0 = self
            .0
            .wrapping_mul(6364136223846793005)
            .wrapping_add(1442695040888963407);
        i64::try_from((self.0 >> 33) % n).expect("small")
    }
    fn count(&mut self, n: u64) -> u32 {
        u32::try_from(self.roll(n)).expect("small")
    }
}

fn tiny(dice: &mut Dice) -> Pool {
    let mark = 1 + dice.roll(2);
    let mut stocks = Vec::new();
    let per_foot = dice.roll(3);
    for s in 0..1 + dice.roll(3) {
        let usable = 30 + dice.roll(40);
        let limit = (s > 0 && dice.roll(2) == 0).then(|| 1 + dice.count(2));
        let serves = if dice.roll(5) == 0 { 1 } else { 3 };
        stocks.push(Stock {
            name: format!("s{s}"),
            usable,
            cost: usable / 10 * per_foot + 1 + usable / 3 + dice.roll(12),
            price: None,
            limit,
            serves: if s == 0 { 3 } else { serves },
            length: usable,
        });
    }
    let grouped = dice.roll(3) > 0;
    let mut items: BTreeMap<(i64, u8), u32> = BTreeMap::new();
    for _ in 0..1 + dice.roll(if grouped { 2 } else { 4 }) {
        let class = u8::from(dice.roll(4) == 0);
        *items.entry((5 + dice.roll(30), class)).or_insert(0) += 1 + dice.count(2);
    }
    let mut groups = Vec::new();
    if grouped {
        let lines = (0..1 + dice.roll(2))
            .map(|_| tiny_line(dice, mark))
            .collect();
        groups.push(Group {
            name: "G".into(),
            count: 1 + u32::from(dice.roll(3) == 0),
            class: u8::from(dice.roll(4) == 0),
            lines,
            apart: dice.roll(8),
            zones_exclusive: dice.roll(2) == 0,
            splice_cost: dice.roll(6),
        });
    }
    Pool {
        name: "tiny".into(),
        mark,
        kerf: dice.roll(3),
        credit: Credit {
            keep: dice.roll(20),
            foot: 10,
            per_foot,
        },
        stocks,
        items: items
            .into_iter()
            .map(|((length, class), count)| Item {
                length,
                count,
                class,
            })
            .collect(),
        groups,
    }
}

fn tiny_line(dice: &mut Dice, mark: i64) -> Line {
    let length = 40 + dice.roll(40);
    let mut slots = Vec::new();
    let mut at = 5 + dice.roll(8);
    let mut zone = 0;
    while at < length - 5 && slots.len() < 4 {
        let hi = at + dice.roll(6);
        slots.push(Slot {
            lo: at,
            hi,
            zone,
            charge: dice.roll(3),
        });
        at = hi + dice.roll(9);
        zone += u32::from(dice.roll(2) == 0);
    }
    Line {
        length,
        whole: (length + mark - 1) / mark * mark,
        gap: dice.roll(3),
        least_splices: dice.count(2),
        most_splices: 1 + dice.count(3),
        least_piece: 4 + dice.roll(8),
        three_over: dice.roll(30),
        slots,
    }
}

/// Every legal way of making a line: (pieces, charges, (twice-m centre, m, zone) per splice).
type Way = (Vec<i64>, i64, Vec<(i64, i64, u32)>);

fn ways(line: &Line, mark: i64) -> Vec<Way> {
    let mut all = Vec::new();
    for m in i64::from(line.least_splices)..=i64::from(line.most_splices) {
        if m == 0 {
            all.push((vec![line.whole], 0, Vec::new()));
            continue;
        }
        let total = (line.length - m * line.gap).div_euclid(mark) * mark;
        extend(line, mark, m, total, (Vec::new(), 0, Vec::new()), &mut all);
    }
    all
}

fn extend(line: &Line, mark: i64, m: i64, total: i64, way: Way, all: &mut Vec<Way>) {
    let before: i64 = way.0.iter().sum();
    let least = line.least_piece.max(mark);
    let j = i64::try_from(way.0.len()).expect("small") + 1;
    if j == m + 1 {
        let last = total - before;
        let near = way
            .2
            .windows(3)
            .any(|w| w[2].0 - w[0].0 <= 2 * m * line.three_over);
        if last >= least && !near {
            let (mut pieces, money, stands) = way;
            pieces.push(last);
            all.push((pieces, money, stands));
        }
        return;
    }
    let mut piece = (least + mark - 1) / mark * mark;
    while before + piece < total {
        let centre = 2 * m * (before + piece) + (2 * j - 1) * (line.length - total);
        let slots = line.slots.iter();
        let inside = slots.filter(|s| 2 * m * s.lo <= centre && centre <= 2 * m * s.hi);
        if let Some(slot) = inside.min_by_key(|s| s.charge)
            && way.2.iter().all(|w| w.2 != slot.zone)
        {
            let mut next = way.clone();
            next.0.push(piece);
            next.1 += slot.charge;
            next.2.push((centre, m, slot.zone));
            extend(line, mark, m, total, next, all);
        }
        piece += mark;
    }
}

/// Distinct (sorted pieces → least money) of one group.
fn group_ways(group: &Group, mark: i64) -> BTreeMap<Vec<i64>, i64> {
    let lines: Vec<Vec<Way>> = group.lines.iter().map(|l| ways(l, mark)).collect();
    let mut all = BTreeMap::new();
    let nothing = vec![(Vec::new(), 0, Vec::new())];
    for a in &lines[0] {
        for b in lines.get(1).unwrap_or(&nothing) {
            let clash = a.2.iter().any(|x| {
                b.2.iter().any(|y| {
                    let apart = (x.0 * y.1 - y.0 * x.1).abs();
                    (group.zones_exclusive && x.2 == y.2) || apart < 2 * x.1 * y.1 * group.apart
                })
            });
            if clash {
                continue;
            }
            let splices = i64::try_from(a.2.len() + b.2.len()).expect("small");
            let money = a.1 + b.1 + splices * group.splice_cost;
            let mut pieces: Vec<i64> = a.0.iter().chain(&b.0).copied().collect();
            pieces.sort_unstable();
            let least = all.entry(pieces).or_insert(money);
            *least = money.min(*least);
        }
    }
    all
}

type Left = Vec<(i64, u8)>;

struct Referee<'a> {
    pool: &'a Pool,
    seen: BTreeMap<(Left, Vec<u32>), Option<i64>>,
}

impl Referee<'_> {
    /// Least money to cut everything left, `None` when it cannot be had.
    fn cut(&mut self, left: Left, taken: Vec<u32>) -> Option<i64> {
        if left.is_empty() {
            return Some(0);
        }
        let key = (left.clone(), taken.clone());
        if let Some(known) = self.seen.get(&key) {
            return *known;
        }
        let mut best: Option<i64> = None;
        for s in 0..self.pool.stocks.len() {
            let stock = &self.pool.stocks[s];
            if stock.limit.is_some_and(|l| taken[s] >= l) {
                continue;
            }
            // The longest piece left is in some joint: take that one now.
            let mut sets = BTreeSet::new();
            let first = left.len() - 1;
            self.fill(s, &left, first, (Vec::new(), 0), &mut sets);
            for set in sets {
                let weight: i64 = set.iter().map(|&i| left[i].0 + self.pool.kerf).sum();
                let credit = self.pool.credit;
                let drop = (stock.usable - weight).max(0);
                let back = if drop >= credit.keep {
                    credit.per_foot * (drop / credit.foot)
                } else {
                    0
                };
                let rest = (0..left.len())
                    .filter(|i| !set.contains(i))
                    .map(|i| left[i])
                    .collect();
                let mut taken = taken.clone();
                taken[s] += u32::from(stock.limit.is_some());
                if let Some(more) = self.cut(rest, taken) {
                    let money = stock.cost - back + more;
                    best = Some(best.map_or(money, |b| b.min(money)));
                }
            }
        }
        self.seen.insert(key, best);
        best
    }

    fn fill(
        &self,
        s: usize,
        left: &Left,
        i: usize,
        set: (Vec<usize>, i64),
        sets: &mut BTreeSet<Vec<usize>>,
    ) {
        let stock = &self.pool.stocks[s];
        let first = i == left.len() - 1;
        let with = set.1 + left[i].0 + self.pool.kerf;
        let fits = with <= stock.usable + self.pool.kerf && stock.serves >> left[i].1 & 1 == 1;
        for take in [true, false] {
            if (take && !fits) || (!take && first) {
                continue;
            }
            let mut next = set.clone();
            if take {
                next.0.push(i);
                next.1 = with;
            }
            match i.checked_sub(1) {
                Some(below) => self.fill(s, left, below, next, sets),
                None => {
                    sets.insert(next.0);
                }
            }
        }
    }
}

fn referee(pool: &Pool) -> Option<i64> {
    let mut plain: Left = Vec::new();
    for item in &pool.items {
        plain.extend((0..item.count).map(|_| (item.length, item.class)));
    }
    let mut choices: Vec<(Left, i64)> = vec![(plain, 0)];
    for group in &pool.groups {
        let ways = group_ways(group, pool.mark);
        for _ in 0..group.count {
            let mut next: BTreeMap<Left, i64> = BTreeMap::new();
            for (left, money) in &choices {
                for (pieces, more) in &ways {
                    let mut left = left.clone();
                    left.extend(pieces.iter().map(|&p| (p, group.class)));
                    left.sort_unstable();
                    let least = next.entry(left).or_insert(money + more);
                    *least = (*least).min(money + more);
                }
            }
            choices = next.into_iter().collect();
        }
    }
    let mut referee = Referee {
        pool,
        seen: BTreeMap::new(),
    };
    let none = vec![0; pool.stocks.len()];
    let mut best: Option<i64> = None;
    for (mut left, money) in choices {
        left.sort_unstable();
        if let Some(cut) = referee.cut(left, none.clone()) {
            best = Some(best.map_or(money + cut, |b: i64| b.min(money + cut)));
        }
    }
    best
}

/// (jobs, proved, equal to the optimum without proof, short).
fn compare(seed: u64, jobs: usize) -> (usize, usize, usize, usize) {
    let mut dice = Dice(seed);
    let (mut proved, mut equal, mut short, mut done) = (0, 0, 0, 0);
    while done < jobs {
        let pool = tiny(&mut dice);
        let pieces: u32 = pool.items.iter().map(|i| i.count).sum();
        let configurations: usize = pool
            .groups
            .iter()
            .map(|g| group_ways(g, pool.mark).len().pow(g.count))
            .sum();
        if pieces > 7 || configurations > 300 {
            continue;
        }
        done += 1;
        let problem = Problem {
            aim: Default::default(),
            pools: vec![pool.clone()],
            charges: Vec::new(),
        };
        let answer = solve(&problem, &Limits::default(), &NoWatch).expect("admitted");
        let answer = &answer.pools[0];
        match (referee(&pool), answer.status) {
            (Some(best), Status::Short) => {
                panic!("job {done}: short, but {best} does it: {pool:?}")
            }
            (None, Status::Short) => short += 1,
            (None, _) => panic!("job {done}: cut what cannot be cut: {pool:?}"),
            (Some(best), status) => {
                let exact = cost(&pool, &answer.patterns, &answer.configurations);
                assert_eq!(exact, Ok(answer.cost));
                let verified = verify(&problem, std::slice::from_ref(answer));
                assert!(
                    verified.is_ok(),
                    "job {done}: {verified:?}: {pool:?} {answer:?}"
                );
                assert!(
                    answer.bound <= best,
                    "job {done}: bound {} over {best}: {pool:?}",
                    answer.bound
                );
                assert!(
                    best <= answer.cost,
                    "job {done}: under the optimum {best}: {pool:?}"
                );
                let closed = matches!(status, Status::Proved | Status::ProvedBySearch);
                proved += usize::from(closed);
                equal += usize::from(best == answer.cost && !closed);
                assert!(
                    !closed || best == answer.cost,
                    "job {done}: false proof: {pool:?}"
                );
            }
        }
    }
    println!("{jobs} jobs: {proved} proved, {equal} equal unproved, {short} short");
    (done, proved, equal, short)
}

#[test]
fn three_hundred_tiny_jobs() {
    let (jobs, proved, equal, short) = compare(20_260_601, 300);
    // Not a claim about the engine's worth, only that the comparison is not empty.
    assert!(
        proved * 3 > jobs && short < jobs / 2,
        "{proved} {equal} {short}"
    );
}

/// Slow: run with `cargo test --release --test nest_referee -- --ignored`.
#[test]
#[ignore = "minutes"]
fn twenty_thousand_tiny_jobs() {
    let (_, proved, equal, short) = compare(7, 20_000);
    assert!(proved + equal + short > 19_000);
}
