//! The nest room on jobs small enough to work by hand.

use longpoint::nest::{
    Configuration, Credit, Cut, Group, Item, Limits, Line, NestFault, NoWatch, Pattern, Pool,
    Problem, Slot, Status, Stock, cost, longest_first, solve,
};

fn stock(name: &str, usable: i64, cost: i64, limit: Option<u32>) -> Stock {
    Stock {
        name: name.into(),
        usable,
        cost,
        price: None,
        limit,
        serves: u32::MAX,
        length: usable,
    }
}

fn item(length: i64, count: u32) -> Item {
    Item {
        length,
        count,
        class: 0,
    }
}

fn pool(stocks: Vec<Stock>, items: Vec<Item>) -> Pool {
    Pool {
        name: "pipe".into(),
        mark: 1,
        kerf: 1,
        credit: Credit {
            keep: 30,
            foot: 10,
            per_foot: 1,
        },
        stocks,
        items,
        groups: Vec::new(),
    }
}

fn line(length: i64, slots: &[(i64, i64, u32, i64)]) -> Line {
    Line {
        length,
        whole: length,
        gap: 1,
        least_splices: 0,
        most_splices: 2,
        least_piece: 10,
        three_over: 0,
        slots: slots
            .iter()
            .map(|&(lo, hi, zone, charge)| Slot {
                lo,
                hi,
                zone,
                charge,
            })
            .collect(),
    }
}

fn solved(pool: Pool) -> longpoint::nest::PoolAnswer {
    let problem = Problem {
        aim: Default::default(),
        pools: vec![pool],
        charges: Vec::new(),
    };
    let answer = solve(&problem, &Limits::default(), &NoWatch).expect("admitted");
    answer.pools.into_iter().next().expect("one pool")
}

#[test]
fn kerf_counts_between_pieces_only() {
    // 50 + 1 + 49 = 100: both fit one joint of exactly 100, and 51 + 49 do not.
    let fits = solved(pool(
        vec![stock("a", 100, 50, None)],
        vec![item(50, 1), item(49, 1)],
    ));
    assert_eq!(fits.cost, 50);
    let over = solved(pool(
        vec![stock("a", 100, 50, None)],
        vec![item(51, 1), item(49, 1)],
    ));
    // Two joints: drops 100 − 51 − 1 = 48 and 50, credits 4 and 5.
    assert_eq!(over.cost, 100 - 4 - 5);
}

#[test]
fn a_part_longer_than_every_joint_is_short_not_an_error() {
    let answer = solved(pool(
        vec![stock("a", 100, 50, None)],
        vec![item(101, 2), item(10, 1)],
    ));
    assert_eq!(answer.status, Status::Short);
    assert_eq!(answer.short, vec![(0, 2)]);
    assert!(answer.patterns.iter().any(|p| p.cuts == [Cut::Item(1)]));
}

#[test]
fn two_lines_keep_out_of_one_zone_and_apart() {
    // Lines of 150 out of joints of 100: one splice each, in zone 0 (40..60) or zone 1 (61..110).
    let slots = [(40, 60, 0, 0), (61, 110, 1, 3)];
    let mut p = pool(vec![stock("a", 100, 50, None)], vec![]);
    p.groups.push(Group {
        name: "G1".into(),
        count: 1,
        class: 0,
        lines: vec![line(150, &slots), line(150, &slots)],
        apart: 24,
        zones_exclusive: true,
        splice_cost: 7,
    });
    let first = longest_first(&p).expect("a legal way");
    let lines = &first.configurations[0].lines;
    // Pieces sum to 149; the splice centre is piece 1 + ½.
    assert!(
        lines
            .iter()
            .all(|l| l.len() == 2 && l.iter().sum::<i64>() == 149)
    );
    assert!((lines[0][0] - lines[1][0]).abs() >= 24);
    let money = cost(&p, &first.patterns, &first.configurations).expect("legal");
    assert_eq!(money, first.cost);
    let bad = [Configuration {
        group: 0,
        times: 1,
        lines: vec![vec![55, 94], vec![50, 99]],
    }];
    assert!(matches!(cost(&p, &[], &bad), Err(NestFault::Answer { .. })));
}

#[test]
fn wrong_answers_are_named() {
    let p = pool(vec![stock("a", 100, 50, Some(1))], vec![item(30, 2)]);
    let cut = |times, cuts: &[usize]| Pattern {
        stock: 0,
        times,
        cuts: cuts.iter().map(|&i| Cut::Item(i)).collect(),
    };
    assert_eq!(cost(&p, &[cut(1, &[0, 0])], &[]), Ok(50 - 3));
    for wrong in [
        vec![cut(1, &[0])],
        vec![cut(2, &[0])],
        vec![cut(1, &[0, 0, 0])],
        vec![cut(1, &[0, 0, 0, 0])],
        vec![cut(1, &[0, 0]), cut(1, &[])],
        vec![cut(1, &[0, 1])],
    ] {
        assert!(
            matches!(cost(&p, &wrong, &[]), Err(NestFault::Answer { .. })),
            "{wrong:?}"
        );
    }
}

#[test]
fn bad_numbers_are_refused() {
    let refuse = |p: Pool| {
        let problem = Problem {
            aim: Default::default(),
            pools: vec![p],
            charges: Vec::new(),
        };
        solve(&problem, &Limits::default(), &NoWatch).expect_err("refused")
    };
    let base = pool(vec![stock("a", 100, 50, None)], vec![item(30, 2)]);
    let mut p = base.clone();
    p.items[0].length = 0;
    assert!(matches!(refuse(p), NestFault::TooSmall { .. }));
    let mut p = base.clone();
    p.stocks[0].cost = (1 << 40) + 1;
    assert!(matches!(refuse(p), NestFault::TooLarge { .. }));
    let mut p = base.clone();
    p.items.push(item(30, 1));
    assert!(matches!(refuse(p), NestFault::Twice { .. }));
    let mut p = base.clone();
    p.items[0].count = u32::MAX;
    assert!(matches!(refuse(p), NestFault::Sum { .. }));
    let mut p = base;
    p.groups.push(Group {
        name: "G".into(),
        count: 1,
        class: 0,
        lines: vec![line(150, &[(40, 60, 0, 0), (50, 70, 1, 0)])],
        apart: 0,
        zones_exclusive: false,
        splice_cost: 0,
    });
    assert!(matches!(refuse(p), NestFault::Slots { .. }));
}

#[test]
fn bad_charges_are_refused_by_name() {
    use longpoint::nest::{Charge, ChargeKind, StockOf};
    let base = pool(vec![stock("a", 100, 50, None)], vec![item(30, 2)]);
    let fixed = ChargeKind::Fixed {
        amount: 5,
        free_over: None,
    };
    let over = |stock: usize| StockOf { pool: 0, stock };
    let charge = |over: Vec<StockOf>, kind: ChargeKind| Charge {
        name: "freight".into(),
        over,
        kind,
    };
    let lift = |lift, fee| ChargeKind::Lift {
        lift,
        fee,
        part_fee: 0,
    };
    let range = |least, most| ChargeKind::Range { least, most };
    let wrong = [
        (vec![charge(vec![], fixed)], "no stock"),
        (vec![charge(vec![over(1)], fixed)], "there is none"),
        (vec![charge(vec![over(0), over(0)], fixed)], "twice"),
        (vec![charge(vec![over(0)], fixed); 2], "occurs twice"),
        (vec![charge(vec![over(0)], lift(0, 1))], "a lift of 0"),
        (vec![charge(vec![over(0)], lift(1, -1))], "a fee of -1"),
        (
            vec![charge(vec![over(0)], range(3, Some(2)))],
            "a most count of 2",
        ),
        (vec![charge(vec![over(0)], lift(1, 1 << 41))], "a fee of"),
    ];
    for (charges, says) in wrong {
        let problem = Problem {
            aim: Default::default(),
            pools: vec![base.clone()],
            charges,
        };
        let fault = solve(&problem, &Limits::default(), &NoWatch).expect_err(says);
        let text = fault.to_string();
        assert!(text.contains("freight") && text.contains(says), "{text}");
    }
}
