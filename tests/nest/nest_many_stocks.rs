//! Pools of very many limited stocks, as a rack of thousands of measured remnants.

use longpoint::check::certificate::verify;
use longpoint::nest::{Credit, Item, Limits, NoWatch, Pool, Problem, Status, Stock, solve};

use crate::dice::Dice;

const CREDIT: Credit = Credit {
    keep: 36,
    foot: 12,
    per_foot: 10,
};

fn stock(name: String, usable: i64, cost: i64, limit: Option<u32>) -> Stock {
    Stock {
        name,
        usable,
        cost,
        price: None,
        limit,
        serves: u32::MAX,
        length: usable,
    }
}

/// A joint on sale and a rack of so many pieces of random lengths, credited by whole feet as a shop does.
fn rack(pieces: usize, lengths: u64, seed: u64) -> Problem {
    let mut dice = Dice(seed);
    let mut stocks = vec![stock("new".into(), 250, 420, None)];
    for n in 0..pieces {
        let usable = 30 + dice.roll(lengths);
        stocks.push(stock(format!("R{n}"), usable, CREDIT.of(usable), Some(1)));
    }
    let item = |n: i64| Item {
        length: 20 + 11 * n,
        count: 1 + dice.count(3),
        class: 0,
    };
    let items = (0..12).map(item).collect();
    Problem {
        aim: Default::default(),
        pools: vec![Pool {
            name: "p".into(),
            mark: 1,
            kerf: 1,
            credit: CREDIT,
            stocks,
            items,
            groups: Vec::new(),
        }],
        charges: Vec::new(),
    }
}

/// Cost, bound and whether the search is closed; the certificate holds.
fn solved(problem: &Problem) -> (i64, i64, bool) {
    let answer = solve(problem, &Limits::default(), &NoWatch).expect("a sound problem");
    let checked = verify(problem, &answer.pools, None);
    assert!(checked.is_ok(), "{checked:?}");
    let found = &answer.pools[0];
    assert!(found.status.has_plan());
    let closed = matches!(found.status, Status::Proved | Status::ProvedBySearch);
    (found.cost, found.bound, closed)
}

#[test]
fn many_stocks_give_a_plan_near_a_bound_that_verifies() {
    for seed in 0..6 {
        for lengths in [60, 200] {
            let problem = rack(1200, lengths, seed);
            let (cost, bound, closed) = solved(&problem);
            let near = (cost - bound) * 20 <= cost;
            assert!(
                closed || near,
                "seed {seed}, {lengths}: {cost} over {bound}"
            );
            println!("seed {seed}, {lengths}: {cost} over {bound}, closed: {closed}");
            // A smaller rack is a part of it, so no plan from it is cheaper.
            let mut small = problem.clone();
            small.pools[0].stocks.truncate(200);
            let (less, ..) = solved(&small);
            assert!(bound <= less, "seed {seed}, {lengths}");
            assert!(
                cost <= less,
                "seed {seed}, {lengths}: {cost} where a part of it gives {less}"
            );
        }
    }
}

/// Equal pieces row by row are the same as one row with their number.
#[test]
fn equal_pieces_row_by_row_come_to_one_row_of_them() {
    let mut one = rack(0, 200, 5);
    let mut rows = one.clone();
    for (usable, count) in [(140, 300), (90, 250), (61, 20)] {
        let cost = CREDIT.of(usable);
        one.pools[0]
            .stocks
            .push(stock(usable.to_string(), usable, cost, Some(count)));
        let row = |n| stock(format!("{usable}-{n}"), usable, cost, Some(1));
        rows.pools[0].stocks.extend((0..count).map(row));
    }
    let (together, apart) = (solved(&one), solved(&rows));
    assert_eq!((apart.0, apart.2), (together.0, together.2));
}

/// What no stock holds is said to be missing here as elsewhere.
#[test]
fn a_piece_longer_than_all_stocks_is_short() {
    let mut problem = rack(600, 200, 1);
    problem.pools[0].items.push(Item {
        length: 300,
        count: 2,
        class: 0,
    });
    let answer = solve(&problem, &Limits::default(), &NoWatch).expect("a sound problem");
    assert_eq!(answer.pools[0].status, Status::Short);
    assert_eq!(answer.pools[0].short, [(12, 2)]);
}
