//! Trees of joints against parting, which finds the same costs by other means, and a clash worked by hand.

use super::super::improve::bounded;
use super::super::longest_first::{first_answer, naive_splices};
use super::super::made::{self, Dice, group, line, stock, two_lines};
use super::super::parting::close_parts;
use super::*;

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
    let mark = 1 + dice.roll(2);
    Pool {
        mark,
        ..two_lines(&mut dice, lines, 33)
    }
}

/// The first answer with its bound; then what the trees make of it.
fn closed(pool: &Pool) -> (bool, PoolAnswer, PoolAnswer) {
    let never = || false;
    let mut budget = Budget::new(2_000_000_000, &never);
    let mut first = first_answer(pool, &|| false);
    bounded(pool, &mut first, &mut budget);
    let mut answer = first.clone();
    let spare = naive_splices(pool, false, &|| false);
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
        let mut budget = Budget::new(300_000_000, &never);
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
    let pool = made::pool(
        vec![stock(20, 100, None)],
        Vec::new(),
        vec![group(lines, 1, 1)],
    );
    let (_, first, answer) = closed(&pool);
    assert_eq!((first.cost, answer.cost), (420, 420));
    // The bound may say so by itself: from a dearer answer and no bound the trees must end there too.
    let never = || false;
    let mut budget = Budget::new(1_000_000_000, &never);
    let mut poor = PoolAnswer {
        cost: 620,
        bound: 0,
        proof: vec![Branch::Leaf(super::super::proof::Leaf::nothing(0))],
        ..first
    };
    let spare = naive_splices(&pool, false, &|| false);
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
