//! Cutting-stock examples printed in textbooks, with their known optimum (values from memory).

use longpoint::nest::{Credit, Item, Limits, NoWatch, Pool, Problem, Status, Stock, solve};

fn joints(usable: i64, items: &[(i64, u32)]) -> (i64, i64, Status) {
    let pool = Pool {
        name: "rolls".into(),
        mark: 1,
        kerf: 0,
        credit: Credit {
            keep: 0,
            foot: 1,
            per_foot: 0,
        },
        stocks: vec![Stock {
            name: "roll".into(),
            usable,
            cost: 1,
            price: None,
            limit: None,
            serves: u32::MAX,
            length: usable,
        }],
        items: items
            .iter()
            .map(|&(length, count)| Item {
                length,
                count,
                class: 0,
            })
            .collect(),
        groups: Vec::new(),
    };
    let problem = Problem {
        aim: Default::default(),
        pools: vec![pool],
        charges: Vec::new(),
    };
    let answer = solve(&problem, &Limits::default(), &NoWatch).expect("admitted");
    let pool = &answer.pools[0];
    (pool.cost, pool.bound, pool.status)
}

/// V. Chvátal, Linear Programming (1983), chapter 13: raws of 100 in; the linear optimum is 452.25.
#[test]
fn chvatal_finals() {
    let items = [(45, 97), (36, 610), (31, 395), (14, 211)];
    assert_eq!(joints(100, &items), (453, 453, Status::Proved));
}

/// The much printed paper-machine example: master rolls of 5600 mm, 13 widths, 73 rolls at least.
#[test]
fn paper_machine() {
    let items = [
        (1380, 22),
        (1520, 25),
        (1560, 12),
        (1710, 14),
        (1820, 18),
        (1880, 18),
        (1930, 20),
        (2000, 10),
        (2050, 12),
        (2100, 14),
        (2140, 16),
        (2150, 18),
        (2200, 20),
    ];
    assert_eq!(joints(5600, &items), (73, 73, Status::Proved));
}
