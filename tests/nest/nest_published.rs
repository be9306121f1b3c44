//! Published cutting-stock and variable-sized bin packing examples with their known optimum: sources at each.

use longpoint::nest::{Credit, Item, Limits, NoWatch, Pool, Problem, Status, Stock, solve};

/// Cost, bound and status of the least cost of items (length, count) out of stocks (length, cost).
fn least(stocks: &[(i64, i64)], items: &[(i64, u32)]) -> (i64, i64, Status) {
    let stock = |&(usable, cost): &(i64, i64)| Stock {
        name: format!("roll of {usable}"),
        usable,
        cost,
        price: None,
        limit: None,
        serves: u32::MAX,
        length: usable,
    };
    let item = |&(length, count): &(i64, u32)| Item {
        length,
        count,
        class: 0,
    };
    let pool = Pool {
        name: "rolls".into(),
        mark: 1,
        kerf: 0,
        credit: Credit::NONE,
        stocks: stocks.iter().map(stock).collect(),
        items: items.iter().map(item).collect(),
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

fn joints(usable: i64, items: &[(i64, u32)]) -> (i64, i64, Status) {
    least(&[(usable, 1)], items)
}

/// V. Chvátal, Linear Programming (1983), chapter 13: raws of 100 in; the linear optimum is 452.25 (from
/// memory).
#[test]
fn chvatal_finals() {
    let items = [(45, 97), (36, 610), (31, 395), (14, 211)];
    assert_eq!(joints(100, &items), (453, 453, Status::Proved));
}

/// The much printed paper-machine example: master rolls of 5600 mm, 13 widths, 73 rolls at least
/// (from memory).
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

/// P. C. Gilmore and R. E. Gomory, A linear programming approach to the cutting-stock problem, Operations
/// Research 9 (1961), the example with three stock lengths, as quoted in Hands-On Mathematical Optimization
/// with Python (open, mobook.github.io/MO-book, chapter 5, "Cutting stock"). Worth 2, 3 and 5 the lengths 2, 3
/// and 4 pay for no stock more than it costs, so nothing is under 20·2 + 10·3 + 20·5 = 170; ten stocks of 9 cut
/// into 4 + 3 + 2 and ten of 6 into 4 + 2 cost just that.
#[test]
fn gilmore_gomory_three_stock_lengths() {
    let stocks = [(5, 6), (6, 7), (9, 10)];
    let items = [(2, 20), (3, 10), (4, 20)];
    assert_eq!(least(&stocks, &items), (170, 170, Status::Proved));
}

/// The variable-sized bin packing example of the Arc-flow Vector Packing Solver (F. Brandão and J. P. Pedroso,
/// Multiple-choice Vector Bin Packing, report DCC-2013-13, University of Porto; instance and optimum in
/// examples/vpsolver/example_vsbpp.py of the published sources): bins of 100, 120 and 150 at their size's cost.
#[test]
fn arc_flow_variable_sized_bins() {
    // In thousandths, as the engine counts money: its whole-numbered prices are then fine enough.
    let bins = [(100, 100_000), (120, 120_000), (150, 150_000)];
    let items = [
        (10, 1),
        (14, 1),
        (17, 1),
        (19, 2),
        (24, 1),
        (29, 1),
        (32, 1),
        (33, 1),
        (36, 1),
        (38, 1),
        (40, 1),
        (50, 1),
        (54, 1),
        (55, 1),
        (63, 1),
        (66, 1),
        (71, 1),
        (77, 2),
        (79, 1),
        (83, 1),
        (92, 1),
        (95, 1),
        (99, 1),
    ];
    assert_eq!(least(&bins, &items), (1_280_000, 1_280_000, Status::Proved));
}

/// Counter-examples to the round-up property (M. Fieldhouse, *The duality gap in trim problems*, SICUP Bulletin
/// 5, 1990; T. Gau, *Counterexamples to the IRU property*, SICUP Bulletin 12, 1994; figures from memory, proved by
/// hand here). 44, 33 and 12 all divide 132, so the linear optimum is what is wanted over 132, 259/132 < 2. Yet
/// two rolls would have 5 to spare together, and no split of the pieces fills two rolls so well.
#[test]
fn a_bound_is_right_where_rounding_up_fails() {
    let (cost, bound, status) = joints(132, &[(44, 2), (33, 3), (12, 6)]);
    assert_eq!(cost, 3);
    assert!((2..=3).contains(&bound) && (status == Status::Proved) == (bound == 3));
    // Every way of filling the first of two rolls leaves more than a roll.
    let fill = |a: i64, b: i64, c: i64| 44 * a + 33 * b + 12 * c;
    let rests = (0..=2).flat_map(|a| (0..=3).flat_map(move |b| (0..=6).map(move |c| (a, b, c))));
    let mut fitting = rests.filter(|&(a, b, c)| fill(a, b, c) <= 132);
    assert!(fitting.all(|(a, b, c)| fill(2 - a, 3 - b, 6 - c) > 132));
}
