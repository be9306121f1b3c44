//! Trees of joints against parting, which finds the same costs by other means, and a clash worked by hand.

use super::super::improve::bounded;
use super::super::longest_first::{first_answer, naive_splices};
use super::super::parting::close_parts;
use super::super::problem::{Credit, Item, Line, Slot, Stock};
use super::*;

/// Numbers one after another; 0..`sides`.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: u64) -> i64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1);
        ((self.0 >> 33) % sides) as i64
    }
}

fn stock(usable: i64, cost: i64, limit: Option<u32>) -> Stock {
    Stock {
        name: usable.to_string(),
        usable,
        cost,
        price: None,
        limit,
        serves: 1,
        length: usable,
    }
}

fn line(length: i64, least_piece: i64, slots: &[(i64, i64, u32, i64)]) -> Line {
    let slot = |&(lo, hi, zone, charge): &(i64, i64, u32, i64)| Slot {
        lo,
        hi,
        zone,
        charge,
    };
    Line {
        length,
        whole: length,
        gap: 0,
        least_splices: 1,
        most_splices: 1,
        least_piece,
        three_over: 0,
        slots: slots.iter().map(slot).collect(),
    }
}

fn group(lines: Vec<Line>, count: u32, apart: i64) -> Group {
    Group {
        name: "g".into(),
        count,
        class: 0,
        lines,
        apart,
        zones_exclusive: true,
        splice_cost: 10,
    }
}

/// Lines of 34 to 43 out of joints of 33 at most.
fn pool(seed: u64) -> Pool {
    let mut dice = Dice(seed);
    let mut lines = Vec::new();
    for _ in 0..2 {
        let length = 34 + dice.roll(10);
        let middle = length / 2;
        let slots = [
            (5, 8 + dice.roll(3), 0, 0),
            (middle - 2, middle + dice.roll(4), 1, 3),
            (length - 11, length - 5, 2, 0),
        ];
        lines.push(line(length, 4, &slots));
    }
    let item = |length, count| Item {
        length,
        count,
        class: 0,
    };
    let rack = 10 + dice.roll(6);
    Pool {
        name: "p".into(),
        mark: 1 + dice.roll(2),
        kerf: dice.roll(2),
        credit: Credit {
            keep: 6,
            foot: 3,
            per_foot: 4,
        },
        stocks: vec![
            stock(33, 64, None),
            stock(21, 43, None),
            stock(rack, rack / 3 * 4, Some(1)),
        ],
        items: vec![
            item(7 + dice.roll(3), 1 + dice.roll(4) as u32),
            item(12 + dice.roll(4), 1 + dice.roll(3) as u32),
        ],
        groups: vec![group(lines, 1 + dice.roll(2) as u32, 3 + dice.roll(6))],
    }
}

/// The first answer with its bound; then what the trees make of it.
fn closed(pool: &Pool) -> (bool, PoolAnswer, PoolAnswer) {
    let never = || false;
    let mut budget = Budget {
        left: 2_000_000_000,
        stop: &never,
    };
    let mut first = first_answer(pool);
    bounded(pool, &mut first, &mut budget);
    let mut answer = first.clone();
    let spare = naive_splices(pool, false);
    let proved = close_forest(pool, &mut answer, &spare, &mut budget);
    (proved, first, answer)
}

#[test]
fn trees_end_at_the_cost_parting_proves() {
    let (mut both, mut bettered) = (0, 0);
    for seed in 0..40 {
        let pool = pool(seed);
        assert!(is_forest(&pool), "seed {seed}");
        let (proved, first, answer) = closed(&pool);
        let exact = super::super::cost::cost(&pool, &answer.patterns, &answer.configurations);
        assert_eq!(exact, Ok(answer.cost), "seed {seed}");
        let mut parted = first.clone();
        let never = || false;
        let mut budget = Budget {
            left: 300_000_000,
            stop: &never,
        };
        let parts = close_parts(&pool, &mut parted, &mut budget);
        assert!(!proved || answer.cost <= parted.cost, "seed {seed}");
        assert!(!parts || parted.cost <= answer.cost, "seed {seed}");
        both += i32::from(proved && parts);
        bettered += i32::from(answer.cost < first.cost);
    }
    assert!(both >= 25, "{both} closed both ways");
    assert!(bettered >= 8, "{bettered} bettered");
}

/// Two lines of 30 may be cut 10 + 20 in zone 0 or 15 + 15 in zone 1. Both in zone 0 would take three joints
/// of 20; they must not, and then it takes four: 20, 10, 15, 15.
#[test]
fn lines_that_would_meet_keep_apart() {
    let slots = [(10, 10, 0, 0), (15, 15, 1, 0)];
    let lines = vec![line(30, 5, &slots), line(30, 5, &slots)];
    let pool = Pool {
        name: "p".into(),
        mark: 1,
        kerf: 0,
        credit: Credit::NONE,
        stocks: vec![stock(20, 100, None)],
        items: Vec::new(),
        groups: vec![group(lines, 1, 1)],
    };
    let (_, first, answer) = closed(&pool);
    assert_eq!((first.cost, answer.cost), (420, 420));
    // The bound may say so by itself: from a dearer answer and no bound the trees must end there too.
    let never = || false;
    let mut budget = Budget {
        left: 1_000_000_000,
        stop: &never,
    };
    let mut poor = PoolAnswer {
        cost: 620,
        bound: 0,
        proof: vec![Branch::Leaf(super::super::proof::Leaf::nothing(0))],
        ..first
    };
    let spare = naive_splices(&pool, false);
    assert!(close_forest(&pool, &mut poor, &spare, &mut budget));
    assert_eq!(poor.cost, 420);
}

/// A line that a joint holds, or one with a second splice, may close a round: no trees.
#[test]
fn rounds_are_left_to_other_searches() {
    let mut short = pool(0);
    short.stocks[0].usable = 34 + 10;
    assert!(!is_forest(&short));
    let mut twice = pool(0);
    twice.groups[0].lines[1].most_splices = 2;
    assert!(!is_forest(&twice));
    let mut plain = pool(0);
    plain.groups.clear();
    assert!(!is_forest(&plain));
    let mut later = pool(0);
    later.stocks[1].serves = 2;
    assert!(!is_forest(&later));
}
