//! Aims other than money, money second: random tiny jobs against the plain referee, and what is refused.

use longpoint::check::Rule;
use longpoint::check::certificate::verify;
use longpoint::nest::{
    Aim, Charge, ChargeKind, Credit, Item, Limits, NoWatch, Pool, Problem, Status, Stock, StockOf,
    cost, solve, weighing,
};

use crate::referee::{Dice, group_ways, outcomes_by_splices, tiny};

/// Least (count, money) of all plans, the count being what the aim counts.
fn best(pool: &Pool, aim: Aim) -> Option<(i64, i64)> {
    let all = outcomes_by_splices(pool).into_iter();
    let plans = all.flat_map(|(splices, outcomes)| outcomes.into_iter().map(move |o| (splices, o)));
    let measured = plans.map(|(splices, (joints, money))| {
        let count = match aim {
            Aim::Money => 0,
            Aim::Joints => joints.iter().map(|n| i64::from(*n)).sum(),
            Aim::Splices => i64::try_from(splices).expect("small"),
            Aim::Waste => pool
                .stocks
                .iter()
                .zip(&joints)
                .map(|(s, n)| s.length * i64::from(*n))
                .sum(),
        };
        (count, money)
    });
    measured.min()
}

/// (proved, the optimum without proof, over it, short).
fn compare(aim: Aim, seed: u64, jobs: usize) -> [usize; 4] {
    let mut dice = Dice(seed);
    let mut tally = [0; 4];
    let mut done = 0;
    while done < jobs {
        let state = dice.0;
        let pool = tiny(&mut dice);
        let pieces: u32 = pool.items.iter().map(|i| i.count).sum();
        let ways = |g: &longpoint::nest::Group| group_ways(g, pool.mark).len().pow(g.count);
        if pieces > 6 || pool.groups.iter().map(ways).sum::<usize>() > 100 {
            continue;
        }
        done += 1;
        let pools = vec![pool.clone()];
        let problem = Problem {
            aim,
            pools,
            charges: Vec::new(),
        };
        let by = weighing(&problem).expect("small").expect("not money");
        let answer = solve(&problem, &Limits::default(), &NoWatch).expect("admitted");
        let checked = verify(&problem, &answer.pools, None);
        let checked = checked.unwrap_or_else(|found| panic!("Dice({state}): {found:?}"));
        assert_eq!(checked.weighing, Some(by), "Dice({state}): two weights");
        let answer = &answer.pools[0];
        let Some((count, money)) = best(&pool, aim) else {
            assert!(!answer.status.has_plan(), "Dice({state})");
            tally[3] += 1;
            continue;
        };
        assert!(
            money < by.weight && count % by.unit == 0,
            "Dice({state}): {by:?}"
        );
        let best = by.weight * (count / by.unit) + money;
        assert!(
            answer.bound <= best && best <= answer.cost,
            "Dice({state}): {best} {answer:?}"
        );
        // The money in the answer is what its patterns and splices cost without any weight.
        let exact = cost(&pool, &answer.patterns, &answer.configurations);
        assert_eq!(exact, Ok(answer.cost % by.weight), "Dice({state})");
        let proved = answer.status == Status::Proved;
        assert!(!proved || answer.cost == best, "Dice({state}): false proof");
        let place = if proved {
            0
        } else if answer.cost == best {
            1
        } else {
            2
        };
        tally[place] += 1;
    }
    println!("{aim:?}: proved, equal, over, short: {tally:?}");
    tally
}

#[test]
fn tiny_jobs_reach_the_least_of_the_aim_and_then_of_money() {
    for (aim, seed) in [(Aim::Joints, 31), (Aim::Waste, 32), (Aim::Splices, 33)] {
        let [proved, equal, over, short] = compare(aim, seed, 100);
        assert!(
            proved * 3 > 100 && over < 10 && short < 50,
            "{proved} {equal} {over} {short}"
        );
    }
}

/// Two stocks, cheap short ones and dear long ones; four pieces, two to a short one, four to a long one.
fn choice(aim: Aim) -> Problem {
    let stock = |name: &str, usable, cost| Stock {
        name: name.into(),
        usable,
        cost,
        price: None,
        limit: None,
        serves: u32::MAX,
        length: usable,
    };
    let pool = Pool {
        name: "bar".into(),
        mark: 1,
        kerf: 0,
        credit: Credit {
            keep: 10,
            foot: 10,
            per_foot: 1,
        },
        stocks: vec![stock("short", 100, 20), stock("long", 220, 70)],
        items: vec![Item {
            length: 50,
            count: 4,
            class: 0,
        }],
        groups: Vec::new(),
    };
    Problem {
        aim,
        pools: vec![pool],
        charges: Vec::new(),
    }
}

#[test]
fn aims_choose_differently_and_charges_stay_money() {
    // Money: two short ones, 40. Joints: one long one, 70 less 2 for its drop. Waste: two short ones again.
    for (aim, count, money, stock) in [
        (Aim::Joints, 1, 68, 1),
        (Aim::Waste, 200, 40, 0),
        (Aim::Splices, 0, 40, 0),
    ] {
        let problem = choice(aim);
        let by = weighing(&problem).expect("small").expect("not money");
        let answer = solve(&problem, &Limits::default(), &NoWatch).expect("admitted");
        let pool = &answer.pools[0];
        assert_eq!(
            (pool.status, pool.patterns[0].stock),
            (Status::Proved, stock),
            "{aim:?}"
        );
        assert_eq!(
            (pool.cost / by.weight * by.unit, pool.cost % by.weight),
            (count, money),
            "{aim:?}"
        );
    }
    // A minimum of 150 on the long ones is made up in money, by their price and not by their weight.
    let mut problem = choice(Aim::Joints);
    problem.charges.push(Charge {
        name: "minimum".into(),
        over: vec![StockOf { pool: 0, stock: 1 }],
        kind: ChargeKind::Minimum { least: 150 },
    });
    let by = weighing(&problem).expect("small").expect("not money");
    let answer = solve(&problem, &Limits::default(), &NoWatch).expect("admitted");
    let whole = answer.whole.as_ref().expect("charges make a whole");
    assert_eq!(
        (whole.cost / by.weight, whole.cost % by.weight),
        (1, 68 + 80)
    );
    assert_eq!(
        (whole.status, whole.charges.as_slice()),
        (Status::Proved, [80].as_slice())
    );
    let checked = verify(&problem, &answer.pools, Some(whole)).expect("holds");
    assert_eq!(checked.weighing, Some(by));
}

#[test]
fn what_cannot_be_weighed_is_refused_by_name() {
    let refused = |problem: &Problem| {
        let fault = solve(problem, &Limits::default(), &NoWatch).expect_err("no weight");
        fault.to_string()
    };
    let mut heavy = choice(Aim::Waste);
    heavy.pools[0].stocks[1].cost = 1 << 39;
    assert!(refused(&heavy).contains("past 2^40"));
    let mut paying = choice(Aim::Joints);
    paying.pools[0].stocks[0].cost = 1;
    assert!(refused(&paying).contains("short costs 1"));
    // The verifier refuses them too, whatever is claimed.
    for problem in [&heavy, &paying] {
        let answer = solve(&choice(Aim::Money), &Limits::default(), &NoWatch).expect("admitted");
        let found = verify(problem, &answer.pools, None).expect_err("no weight");
        assert!(
            found.iter().any(|v| v.rule == Rule::CertificateAim),
            "{found:?}"
        );
    }
}
