//! Random tiny pools, and a slow, plain referee that tries everything.
//!
//! The referee knows the rules from the problem's description alone: it lists every configuration of every
//! group, then every way of cutting what is left by exhaustive assignment with memory.

use std::collections::{BTreeMap, BTreeSet};

use longpoint::nest::{Credit, Group, Item, Line, Pool, Slot, Stock};

pub use crate::dice::Dice;

pub fn tiny(dice: &mut Dice) -> Pool {
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

/// The same with lines that are spliced once and too long for any joint, which every joint may serve.
pub fn tiny_once(dice: &mut Dice) -> Pool {
    let mut pool = tiny(dice);
    let longest = pool.stocks.iter().map(|s| s.usable).max().unwrap_or(0);
    let mark = pool.mark;
    for stock in &mut pool.stocks {
        stock.serves = 3;
    }
    for line in pool.groups.iter_mut().flat_map(|g| &mut g.lines) {
        let length = longest + 5 + dice.roll(30);
        *line = Line {
            least_splices: 1,
            most_splices: 1,
            ..line_of(length, dice, mark)
        };
    }
    pool
}

fn tiny_line(dice: &mut Dice, mark: i64) -> Line {
    let length = 40 + dice.roll(40);
    line_of(length, dice, mark)
}

fn line_of(length: i64, dice: &mut Dice, mark: i64) -> Line {
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
pub fn group_ways(group: &Group, mark: i64) -> BTreeMap<Vec<i64>, i64> {
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

/// Least money by the joints taken of each stock.
pub type Outcomes = BTreeMap<Vec<u32>, i64>;

struct Referee<'a> {
    pool: &'a Pool,
    seen: BTreeMap<Left, Outcomes>,
}

fn keep(all: &mut Outcomes, counts: Vec<u32>, money: i64) {
    let least = all.entry(counts).or_insert(money);
    *least = money.min(*least);
}

impl Referee<'_> {
    /// Least money to cut everything left, by the joints taken.
    fn cut(&mut self, left: &Left) -> Outcomes {
        let stocks = &self.pool.stocks;
        if left.is_empty() {
            return BTreeMap::from([(vec![0; stocks.len()], 0)]);
        }
        if let Some(known) = self.seen.get(left) {
            return known.clone();
        }
        let mut all = Outcomes::new();
        for (s, stock) in stocks.iter().enumerate() {
            // The longest piece left is in some joint: take that one now.
            let mut sets = BTreeSet::new();
            let first = left.len() - 1;
            self.fill(s, left, first, (Vec::new(), 0), &mut sets);
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
                for (mut counts, money) in self.cut(&rest) {
                    counts[s] += 1;
                    if stock.limit.is_none_or(|l| counts[s] <= l) {
                        keep(&mut all, counts, money + stock.cost - back);
                    }
                }
            }
        }
        self.seen.insert(left.clone(), all.clone());
        all
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

/// What can be had: least money by the joints taken of each stock.
pub fn outcomes(pool: &Pool) -> Outcomes {
    let mut all = Outcomes::new();
    for (counts, money) in outcomes_by_splices(pool).into_values().flatten() {
        keep(&mut all, counts, money);
    }
    all
}

/// The same for each number of splices made.
pub fn outcomes_by_splices(pool: &Pool) -> BTreeMap<usize, Outcomes> {
    let mut plain: Left = Vec::new();
    for item in &pool.items {
        plain.extend((0..item.count).map(|_| (item.length, item.class)));
    }
    let unspliced: usize = plain.len() + lines(pool);
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
    let mut all: BTreeMap<usize, Outcomes> = BTreeMap::new();
    for (mut left, money) in choices {
        left.sort_unstable();
        let splices = left.len() - unspliced;
        for (counts, cut) in referee.cut(&left) {
            keep(all.entry(splices).or_default(), counts, money + cut);
        }
    }
    all
}

fn lines(pool: &Pool) -> usize {
    let groups = pool.groups.iter();
    groups
        .map(|g| g.lines.len() * usize::try_from(g.count).expect("small"))
        .sum()
}
