//! Charges over stocks: worked by hand, and random tiny problems against the plain referee.

use std::sync::atomic::{AtomicU64, Ordering};

use longpoint::check::certificate::verify;
use longpoint::nest::{
    Answer, Charge, ChargeKind, Limits, NoWatch, Problem, Status, StockOf, Watch,
    cost_with_charges, longest_first, solve,
};

use crate::referee::{Dice, Outcomes, group_ways, outcomes, tiny};

/// A problem of one pool or two with up to three charges.
fn charged(dice: &mut Dice) -> Problem {
    let mut pools = Vec::new();
    while pools.len() < 1 + usize::from(dice.roll(2) == 0) {
        let mut pool = tiny(dice);
        let pieces: u32 = pool.items.iter().map(|i| i.count).sum();
        let ways = |g: &longpoint::nest::Group| group_ways(g, pool.mark).len().pow(g.count);
        let ways: usize = pool.groups.iter().map(ways).sum();
        if pieces > 5 || ways > 60 {
            continue;
        }
        pool.name = format!("pool {}", pools.len());
        pools.push(pool);
    }
    let every = pools
        .iter()
        .enumerate()
        .flat_map(|(pool, p)| (0..p.stocks.len()).map(move |stock| StockOf { pool, stock }));
    let every: Vec<StockOf> = every.collect();
    let mut charges = Vec::new();
    for c in 0..1 + dice.roll(3) {
        let mut over: Vec<StockOf> = every.iter().copied().filter(|_| dice.roll(3) > 0).collect();
        if over.is_empty() {
            over.push(every[0]);
        }
        let kind = match dice.roll(5) {
            0 => ChargeKind::Fixed {
                amount: dice.roll(30),
                free_over: None,
            },
            1 => ChargeKind::Fixed {
                amount: dice.roll(30),
                free_over: Some(1 + dice.roll(90)),
            },
            2 => ChargeKind::Lift {
                lift: 1 + dice.count(4),
                fee: dice.roll(12),
                part_fee: dice.roll(8),
            },
            3 => ChargeKind::Minimum {
                least: dice.roll(120),
            },
            _ => ChargeKind::Range {
                least: dice.count(4),
                most: (dice.roll(2) == 0).then(|| 4 + dice.count(4)),
            },
        };
        charges.push(Charge {
            name: format!("charge {c}"),
            over,
            kind,
        });
    }
    Problem {
        aim: Default::default(),
        pools,
        charges,
    }
}

/// May joints of this stock stay uncut?
fn uncut(problem: &Problem, at: StockOf) -> bool {
    let mut charges = problem.charges.iter().filter(|c| c.over.contains(&at));
    charges.any(|c| match c.kind {
        ChargeKind::Fixed { free_over, .. } => free_over.is_some(),
        ChargeKind::Lift { part_fee, .. } => part_fee > 0,
        ChargeKind::Minimum { least } => least > 0,
        ChargeKind::Range { least, .. } => least > 1,
    })
}

/// Outcomes with joints bought uncut on top, as many as could ever pay in so small a problem.
fn with_uncut(problem: &Problem, pool: usize, outcomes: Outcomes) -> Outcomes {
    let mut all = outcomes;
    for (stock, s) in problem.pools[pool].stocks.iter().enumerate() {
        if !uncut(problem, StockOf { pool, stock }) {
            continue;
        }
        let credit = problem.pools[pool].credit;
        let back = if s.usable >= credit.keep {
            credit.per_foot * (s.usable / credit.foot)
        } else {
            0
        };
        let mut more = all.clone();
        for (counts, money) in &all {
            for n in 1..=12 {
                let mut counts = counts.clone();
                counts[stock] += n;
                if s.limit.is_some_and(|l| counts[stock] > l) {
                    break;
                }
                let money = money + i64::from(n) * (s.cost - back);
                let least = more.entry(counts).or_insert(money);
                *least = money.min(*least);
            }
        }
        all = more;
    }
    all
}

fn referee(problem: &Problem) -> Option<i64> {
    let mut sums: Vec<(Vec<Vec<u64>>, i64)> = vec![(Vec::new(), 0)];
    for (p, pool) in problem.pools.iter().enumerate() {
        let all = with_uncut(problem, p, outcomes(pool));
        let joined = sums.iter().flat_map(|(taken, money)| {
            all.iter().map(move |(counts, more)| {
                let mut taken = taken.clone();
                taken.push(counts.iter().map(|n| u64::from(*n)).collect());
                (taken, money + more)
            })
        });
        sums = joined.collect();
    }
    let whole = sums.iter().filter_map(|(taken, money)| {
        let charges = problem.charges.iter().map(|c| c.money(problem, taken));
        let charges: i128 = charges.sum::<Option<i128>>()?;
        Some(i128::from(*money) + charges)
    });
    whole.min().and_then(|m| i64::try_from(m).ok())
}

/// (proved, equal without proof, dearer, none).
fn compare(seed: u64, jobs: usize) -> [usize; 4] {
    let mut dice = Dice(seed);
    let mut tally = [0; 4];
    for job in 0..jobs {
        let problem = charged(&mut dice);
        let answer = match solve(&problem, &Limits::default(), &NoWatch) {
            Ok(answer) => answer,
            Err(fault) => panic!("job {job}: {fault}: {problem:?}"),
        };
        let whole = answer.whole.as_ref().expect("charges make a whole");
        let verified = verify(&problem, &answer.pools, Some(whole));
        assert!(
            verified.is_ok(),
            "job {job}: {verified:?}: {problem:?} {whole:?}"
        );
        let best = referee(&problem);
        let Some(best) = best else {
            let none = matches!(whole.status, Status::Short | Status::NoneFound);
            assert!(none, "job {job}: a plan where there is none: {problem:?}");
            tally[3] += 1;
            continue;
        };
        assert!(
            whole.bound <= best,
            "job {job}: bound {} over {best}: {problem:?}",
            whole.bound
        );
        if matches!(whole.status, Status::Short | Status::NoneFound) {
            assert_ne!(
                whole.status,
                Status::Short,
                "job {job}: {best}: {problem:?}"
            );
            tally[2] += 1;
            println!("job {job}: no plan, {best} does it");
            continue;
        }
        let exact = cost_with_charges(&problem, &answer.pools);
        assert_eq!(exact, Ok((whole.cost, whole.charges.clone())), "job {job}");
        assert!(whole.cost >= best, "job {job}: under {best}: {problem:?}");
        let proved = whole.status == Status::Proved;
        assert!(!proved || whole.cost == best, "job {job}: false proof");
        tally[if proved {
            0
        } else if whole.cost == best {
            1
        } else {
            2
        }] += 1;
        if !proved {
            println!(
                "job {job}: cost {} bound {} best {best} nodes {}",
                whole.cost,
                whole.bound,
                whole.nodes.len()
            );
        }
    }
    println!("{jobs} jobs: proved, equal, dearer, none: {tally:?}");
    tally
}

/// Stopped before any search, the answer is still no dearer than the hand way where that can be bought.
#[test]
fn without_steps_the_hand_way_stands() {
    let mut dice = Dice(5);
    let (mut compared, mut better) = (0, 0);
    let none = Limits {
        work: 0,
        time: None,
    };
    for job in 0..300 {
        let problem = charged(&mut dice);
        let by_hand: Option<Vec<_>> = problem.pools.iter().map(longest_first).collect();
        let by_hand = by_hand.and_then(|pools| cost_with_charges(&problem, &pools).ok());
        let Some((by_hand, _)) = by_hand else {
            continue;
        };
        let answer = solve(&problem, &none, &NoWatch).expect("a sound problem");
        let whole = answer.whole.expect("charges make a whole");
        assert!(
            matches!(whole.status, Status::Within | Status::Proved) && whole.cost <= by_hand,
            "job {job}: {} over {by_hand}: {problem:?}",
            whole.cost
        );
        compared += 1;
        better += usize::from(whole.cost < by_hand);
    }
    assert!(compared > 150 && better > 10, "{compared}, {better}");
}

/// Asks to stop from the given look on.
struct Impatient {
    looks: AtomicU64,
    patience: u64,
}

impl Watch for Impatient {
    fn stop_requested(&self) -> bool {
        self.looks.fetch_add(1, Ordering::Relaxed) >= self.patience
    }
    fn progress(&self, _pool: &str, _bound: i64, _best: Option<i64>, _steps: u64) {}
}

/// Wherever the search is stopped, what it claims by then is what its certificate gives.
#[test]
fn stopped_anywhere_the_certificate_holds() {
    let mut dice = Dice(1);
    let mut open = 0;
    for job in 0..60 {
        let mut problem = charged(&mut dice);
        for stock in problem.pools.iter_mut().flat_map(|p| &mut p.stocks) {
            stock.limit = stock.limit.filter(|_| job % 3 == 0);
        }
        for patience in [5, 20, 80, 200, 400] {
            let watch = Impatient {
                looks: AtomicU64::new(0),
                patience,
            };
            let answer = solve(&problem, &Limits::default(), &watch).expect("a sound problem");
            let whole = answer.whole.as_ref().expect("charges make a whole");
            let verified = verify(&problem, &answer.pools, Some(whole));
            assert!(
                verified.is_ok(),
                "job {job} stopped at look {patience}: {verified:?}: {problem:?} {whole:?}"
            );
            open += usize::from(whole.status == Status::Within);
        }
    }
    assert!(open > 100, "{open} stopped before their end");
}

/// Three joints do not reach the break at ten: they are bought at the price that three have.
#[test]
fn a_break_that_is_not_reached_is_not_taken() {
    let text = r#"{"pools": [{"name": "p", "mark": 1, "kerf": 0,
        "credit": {"keep": 1000, "foot": 1, "per_foot": 0},
        "stocks": [{"name": "from 1", "usable": 100, "length": 100, "cost": 50, "price": 50},
                   {"name": "from 10", "usable": 100, "length": 100, "cost": 40, "price": 40}],
        "items": [{"length": 90, "count": 3}], "groups": []}],
        "charges": [{"name": "break", "over": [{"pool": 0, "stock": 1}],
                     "kind": {"range": {"least": 10, "most": null}}}]}"#;
    let problem: Problem = serde_json::from_str(text).expect("a problem");
    let none = Limits {
        work: 0,
        time: None,
    };
    let whole = solve(&problem, &none, &NoWatch).expect("sound").whole;
    assert_eq!(whole.expect("a whole").cost, 150);
}

#[test]
fn tiny_problems_with_charges() {
    let [proved, equal, dearer, none] = compare(20_260_707, 120);
    assert!(proved + equal > 60 && dearer * 20 < proved + equal + none);
}

/// Slow: run with `cargo test --release --test nest nest_charges -- --ignored`.
#[test]
#[ignore = "minutes"]
fn two_thousand_tiny_problems_with_charges() {
    let [proved, equal, dearer, none] = compare(11, 2000);
    assert!(proved + equal > 1000 && dearer * 20 < proved + equal + none);
}

/// More work than the default never gives a dearer plan or a lower bound, with charges or without.
#[test]
fn more_work_is_never_worse() {
    let mut dice = Dice(77);
    let mut open = 0;
    for job in 0..40 {
        let problem = charged(&mut dice);
        let by = |work: u64| {
            let limits = Limits { work, time: None };
            solve(&problem, &limits, &NoWatch).expect("a sound problem")
        };
        let set = Limits::default().work;
        let (one, more) = (by(set), by(set * 3));
        let whole = |a: &Answer| a.whole.clone().expect("charges make a whole");
        let verified = verify(&problem, &more.pools, more.whole.as_ref());
        assert!(verified.is_ok(), "job {job}: {verified:?}");
        let (one, more) = (whole(&one), whole(&more));
        assert_eq!(
            one.status == Status::Short,
            more.status == Status::Short,
            "job {job}"
        );
        assert!(
            more.cost <= one.cost && more.bound >= one.bound,
            "job {job}"
        );
        open += usize::from(one.status == Status::Within);
    }
    assert!(open > 0, "every job was closed by the default");
}
