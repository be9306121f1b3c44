//! The parts against the whole engine, their order, and the money and places they rest on.

use super::super::lattice::positions;
use super::super::longest_first::first_answer;
use super::super::made::{Dice, item, line, slots, two_lines};
use super::super::narrow::spans;
use super::super::problem::{Credit, Limits, Line, Problem};
use super::super::watch::NoWatch;
use super::*;

/// Lines of 24 to 35, some of which a joint of 32 holds.
fn pool(seed: u64) -> Pool {
    let mut dice = Dice(seed);
    let mut lines = Vec::new();
    for _ in 0..2 {
        let length = 24 + dice.roll(12);
        let middle = length / 2;
        let places = [
            (5, middle - 3, 0, 0),
            (middle, middle + 4, 1, 3),
            (middle + 5, length - 5, 2, 0),
        ];
        lines.push(line(length, 4, &places));
    }
    two_lines(&mut dice, lines, 32)
}

/// The parts alone, from the first answer on, against the whole engine where it proves.
#[test]
fn parts_end_at_the_cost_the_engine_proves() {
    let (mut closed, mut bettered) = (0, 0);
    for seed in 0..12 {
        let pool = pool(seed);
        let mut answer = first_answer(&pool, &|| false);
        let first = answer.cost;
        let never = || false;
        let mut budget = Budget::new(500_000_000, &never);
        let proved = close_parts(&pool, &mut answer, &mut budget);
        let problem = Problem {
            aim: Default::default(),
            pools: vec![pool],
            charges: Vec::new(),
        };
        let whole = super::super::solve::solve(&problem, &Limits::default(), &NoWatch)
            .expect("a sound problem");
        let whole = &whole.pools[0];
        if proved && matches!(whole.status, Status::Proved | Status::ProvedBySearch) {
            assert_eq!(answer.cost, whole.cost, "seed {seed}");
            closed += 1;
        }
        assert!(!proved || answer.cost <= whole.cost, "seed {seed}");
        bettered += i32::from(answer.cost < first);
    }
    assert!(closed >= 9, "{closed} closed");
    assert!(bettered >= 3, "{bettered} bettered");
}

/// The only plan of 119 has three splices and a piece shorter than every row of the grid: such a piece
/// counts as no row, but its splice counts.
#[test]
fn pieces_under_the_shortest_row_still_take_a_splice() {
    let mut pool = pool(0);
    (pool.mark, pool.kerf) = (2, 0);
    pool.credit = Credit {
        keep: 18,
        foot: 10,
        per_foot: 2,
    };
    pool.stocks.truncate(1);
    (pool.stocks[0].usable, pool.stocks[0].cost) = (40, 30);
    pool.items = vec![item(19, 1)];
    let group = &mut pool.groups[0];
    (group.count, group.apart, group.splice_cost) = (1, 5, 1);
    group.zones_exclusive = false;
    group.lines = vec![
        Line {
            length: 45,
            whole: 46,
            gap: 1,
            least_splices: 1,
            most_splices: 2,
            least_piece: 9,
            three_over: 14,
            slots: slots(&[
                (12, 13, 0, 2),
                (14, 18, 1, 2),
                (24, 29, 2, 2),
                (30, 30, 2, 2),
            ]),
        },
        Line {
            length: 64,
            whole: 64,
            gap: 2,
            least_splices: 0,
            most_splices: 2,
            least_piece: 5,
            three_over: 10,
            slots: slots(&[
                (10, 12, 0, 0),
                (20, 23, 1, 0),
                (24, 27, 1, 2),
                (27, 31, 1, 2),
            ]),
        },
    ];
    let mut answer = first_answer(&pool, &|| false);
    let never = || false;
    let mut budget = Budget::new(500_000_000, &never);
    assert!(close_parts(&pool, &mut answer, &mut budget));
    assert_eq!(answer.cost, 119);
}

#[test]
fn equal_groups_stand_in_order() {
    let (single, of) = singles(&Pool {
        groups: vec![Group {
            count: 2,
            ..pool(1).groups[0].clone()
        }],
        ..pool(1)
    });
    assert_eq!(of, [0, 0]);
    let ends = |pool: &Pool, g: usize, l: usize| {
        let slots = &pool.groups[g].lines[l].slots;
        (slots[0].lo, slots[slots.len() - 1].hi)
    };
    let whole = ends(&single, 0, 0);
    let early = narrowed(&single, &of, (1, 0), (i64::MIN, 9)).expect("room");
    assert_eq!(
        (ends(&early, 0, 0), ends(&early, 1, 0)),
        ((5, 9), (5, 9)),
        "the one before is not past it"
    );
    let late = narrowed(&single, &of, (1, 0), (10, i64::MAX)).expect("room");
    assert_eq!(ends(&late, 0, 0), whole);
    assert_eq!(ends(&late, 1, 0), (10, whole.1));
    let second = narrowed(&single, &of, (1, 1), (i64::MIN, 9)).expect("room");
    assert_eq!(ends(&second, 0, 1), ends(&single, 0, 1));
    assert!(narrowed(&single, &of, (0, 0), (0, 2)).is_none());
}

/// Centres of a line whose pieces leave an odd rest lie half way between whole numbers.
#[test]
fn spans_hold_every_place_of_a_splice_once() {
    for (length, mark) in [(43, 2), (44, 2), (45, 3), (44, 3)] {
        let mut pool = pool(1);
        let line = &mut pool.groups[0].lines[0];
        (line.length, line.gap) = (length, 1);
        let line = &pool.groups[0].lines[0];
        let places = positions(line, mark, 2, (1, 1), &[]);
        assert!(places.len() > 3, "{length}");
        for first in 8..30 {
            let spans = spans(line, mark, &[first, first + 5]);
            for place in &places {
                let holds = |s: &&Span| {
                    s.0.saturating_mul(2) <= place.centre && place.centre <= s.1.saturating_mul(2)
                };
                assert_eq!(spans.iter().filter(holds).count(), 1, "{length} {first}");
            }
        }
    }
}

/// Known counts leave money only so many values: checked against all of them.
#[test]
fn settled_counts_leave_few_sums_of_money() {
    let pool = pool(3);
    let mut place = Place::whole(&pool);
    assert_eq!(place.next(&pool, 100), 100);
    assert_eq!(place.under(&pool, 100), 99);
    place.stock = vec![(2, 2), (1, 1), (0, 0)];
    place.splices = (2, 2);
    let base = 2 * 64 + 43 + 2 * 10;
    let sums: Vec<i64> = [0, 3, 6]
        .into_iter()
        .flat_map(|charge| (0..40).map(move |feet| base + charge - 4 * feet))
        .collect();
    for money in 60..base + 6 {
        let over = sums.iter().copied().filter(|s| *s >= money).min();
        let under = sums.iter().copied().filter(|s| *s < money).max();
        assert_eq!(Some(place.next(&pool, money)), over);
        assert_eq!(Some(place.under(&pool, money)), under);
    }
    assert_eq!(place.next(&pool, base + 7), i64::MAX);
}
