//! Whether limited stock reaches for everything, money aside: yes, no with proof, or not known.
//!
//! The same problem with every stock free and one more, dear, endless one: everything is reached just when
//! nothing is cut from that one, and any certified bound over nothing proves that something must be.
//! Where bound and plan leave it open and nothing is spliced, joints are filled one by one in every way that
//! differs (longest piece first, equal joints and equal pieces once), within a budget of steps.

use super::charge::ChargeKind;
use super::problem::{Aim, Credit, Limits, Pool, Problem, Stock};
use super::solve::solve;
use super::watch::Watch;

/// Cost of one joint that is not there.
const ABSENT: i64 = 1_000_000;
/// Ways of filling looked at before it is given up, per pool.
const MOST_STEPS: u64 = 5_000_000;
/// Steps between two looks at the clock.
const A_LOOK: u64 = 4_096;
/// Pieces filled one by one at most, per pool: far over a rack's worth.
const MOST_PIECES: u64 = 1_000;

/// Does the stock reach?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reach {
    /// Everything can be cut.
    All,
    /// Something cannot, whatever is done: proved.
    NotAll,
    /// Neither was found.
    Unknown,
}

/// Whether a problem's stock reaches for all its items and groups.
pub fn reach(problem: &Problem, limits: &Limits, watch: &dyn Watch) -> Reach {
    let mut bare = Problem {
        aim: Aim::Money,
        pools: Vec::new(),
        charges: problem.charges.clone(),
    };
    bare.charges
        .retain(|c| matches!(c.kind, ChargeKind::Range { .. }));
    for pool in &problem.pools {
        match free(pool) {
            Some(free) => bare.pools.push(free),
            None => return Reach::NotAll,
        }
    }
    let Ok(answer) = solve(&bare, limits, watch) else {
        return Reach::Unknown;
    };
    let mut all = Reach::All;
    for ((pool, found), own) in bare.pools.iter().zip(&answer.pools).zip(&problem.pools) {
        let this = match (found.cost, found.bound) {
            (0, _) => Reach::All,
            (_, 1..) => Reach::NotAll,
            _ if pool.groups.is_empty() && bare.charges.is_empty() => {
                fill(own, &|| watch.stop_requested())
            }
            _ => Reach::Unknown,
        };
        match this {
            Reach::NotAll => return Reach::NotAll,
            Reach::Unknown => all = Reach::Unknown,
            Reach::All => {}
        }
    }
    all
}

/// The pool with everything free but a joint that is not there, as long as the longest; `None` when a
/// piece fits no stock at all.
fn free(pool: &Pool) -> Option<Pool> {
    let wanted = pool.items.iter().any(|i| i.count > 0) || pool.groups.iter().any(|g| g.count > 0);
    let there = pool.stocks.iter().filter(|s| s.limit != Some(0));
    let longest = there.map(|s| s.usable).max().unwrap_or(0);
    let fits = pool
        .items
        .iter()
        .all(|i| i.count == 0 || i.length <= longest);
    if !fits || (wanted && longest == 0) {
        return None;
    }
    let mut out = pool.clone();
    out.credit = Credit {
        per_foot: 0,
        ..out.credit
    };
    for stock in &mut out.stocks {
        (stock.cost, stock.price) = (0, None);
    }
    for group in &mut out.groups {
        group.splice_cost = 0;
        for slot in group.lines.iter_mut().flat_map(|l| &mut l.slots) {
            slot.charge = 0;
        }
    }
    if longest > 0 {
        out.stocks.push(Stock {
            name: "not there".to_owned(),
            usable: longest,
            cost: ABSENT,
            price: None,
            limit: None,
            serves: u32::MAX,
            length: longest,
        });
    }
    Some(out)
}

/// Pieces into joints, every way that differs.
struct Filling<'s> {
    /// Room left in each joint, a kerf included.
    rooms: Vec<i64>,
    /// Pieces with their kerf, longest first.
    pieces: Vec<i64>,
    /// Σ of the pieces from here on.
    rest: Vec<i64>,
    steps: u64,
    stop: &'s dyn Fn() -> bool,
}

/// Every way of filling the joints of a pool without splices, one joint after the other.
pub(super) fn fill(pool: &Pool, stop: &dyn Fn() -> bool) -> Reach {
    let mut pieces: Vec<i64> = Vec::new();
    for item in &pool.items {
        // Classes would need a joint that serves them: the plan has none.
        let many = u64::from(item.count) + u64::try_from(pieces.len()).unwrap_or(u64::MAX);
        if item.class != 0 || many > MOST_PIECES {
            return Reach::Unknown;
        }
        for _ in 0..item.count {
            pieces.push(item.length + pool.kerf);
        }
    }
    pieces.sort_unstable_by(|a, b| b.cmp(a));
    let most = u32::try_from(pieces.len()).unwrap_or(u32::MAX);
    let mut rooms: Vec<i64> = Vec::new();
    for stock in &pool.stocks {
        for _ in 0..stock.limit.unwrap_or(most).min(most) {
            rooms.push(stock.usable + pool.kerf);
        }
    }
    rooms.sort_unstable();
    let mut rest: Vec<i64> = pieces
        .iter()
        .rev()
        .scan(0i64, |sum, p| {
            *sum = sum.saturating_add(*p);
            Some(*sum)
        })
        .collect();
    rest.reverse();
    let mut filling = Filling {
        rooms,
        pieces,
        rest,
        steps: 0,
        stop,
    };
    match filling.place(0, 0) {
        Some(true) => Reach::All,
        Some(false) => Reach::NotAll,
        None => Reach::Unknown,
    }
}

impl Filling<'_> {
    /// Places pieces from `i` on; an equal piece goes no earlier than its fellow (`from`). `None`: too many
    /// ways.
    fn place(&mut self, i: usize, from: usize) -> Option<bool> {
        let Some(&piece) = self.pieces.get(i) else {
            return Some(true);
        };
        self.steps += 1;
        if self.steps > MOST_STEPS || (self.steps.is_multiple_of(A_LOOK) && (self.stop)()) {
            return None;
        }
        let shortest = self.pieces.last().copied().unwrap_or(0);
        let usable: i64 = self.rooms.iter().filter(|r| **r >= shortest).sum();
        if usable < self.rest[i] {
            return Some(false);
        }
        let equal = self.pieces.get(i + 1) == Some(&piece);
        let mut tried: Vec<i64> = Vec::new();
        for r in from..self.rooms.len() {
            let room = self.rooms[r];
            // Joints of one room are one way, unless a fellow has to follow in order.
            if room < piece || tried.contains(&room) {
                continue;
            }
            tried.push(room);
            self.rooms[r] -= piece;
            let found = self.place(i + 1, if equal { r } else { 0 });
            self.rooms[r] += piece;
            if found != Some(false) {
                return found;
            }
        }
        Some(false)
    }
}
