//! Lists of very many lengths: a plan near its bound within few steps, and a stop that is kept.

use std::sync::atomic::{AtomicU64, Ordering};

use longpoint::nest::{
    Answer, Credit, Item, Limits, NoWatch, Pool, Problem, Status, Stock, StopReason, Watch, cost,
    solve,
};

/// A list of `lengths` different lengths, one to four pieces each, on two lengths of pipe.
fn list(lengths: i64) -> Problem {
    let stock = |name: &str, usable, cost| Stock {
        name: name.into(),
        usable,
        cost,
        price: None,
        limit: None,
        serves: u32::MAX,
        length: usable,
    };
    let item = |n: i64| Item {
        length: 400 + 3 * n,
        count: 1 + (n * n % 7 % 4) as u32,
        class: 0,
    };
    let pool = Pool {
        name: "pipe".into(),
        mark: 1,
        kerf: 2,
        credit: Credit {
            keep: 600,
            foot: 200,
            per_foot: 90,
        },
        stocks: vec![stock("long", 7_640, 7_000), stock("short", 4_024, 3_750)],
        items: (0..lengths).map(item).collect(),
        groups: Vec::new(),
    };
    Problem {
        aim: Default::default(),
        pools: vec![pool],
        charges: Vec::new(),
    }
}

/// Counts steps, and asks to stop from the first look on if told so.
#[derive(Default)]
struct Clerk {
    stop: bool,
    steps: AtomicU64,
}

impl Watch for Clerk {
    fn stop_requested(&self) -> bool {
        self.stop
    }
    fn progress(&self, _pool: &str, _bound: i64, _best: Option<i64>, steps: u64) {
        self.steps.store(steps, Ordering::Relaxed);
    }
}

fn limits(work: u64) -> Limits {
    Limits { work, time: None }
}

fn solved(problem: &Problem, work: u64) -> Answer {
    solve(problem, &limits(work), &NoWatch).expect("admitted")
}

#[test]
fn a_long_list_comes_near_its_bound_in_few_steps() {
    let problem = list(700);
    let answer = solved(&problem, 10_000_000);
    let (pool, found) = (&problem.pools[0], &answer.pools[0]);
    assert_eq!(
        cost(pool, &found.patterns, &found.configurations),
        Ok(found.cost)
    );
    assert!(found.bound <= found.cost);
    let gap = (found.cost - found.bound) as f64 / found.cost as f64;
    assert!(gap < 0.003, "gap {gap}");
    assert_eq!(answer, solved(&problem, 10_000_000), "the same again");
}

/// Nine tenths of a joint a piece: nothing fills up, so the length of pipe alone bounds badly.
#[test]
fn lengths_that_leave_much_over_are_bounded_by_a_coarse_list() {
    let mut problem = list(700);
    for (n, item) in problem.pools[0].items.iter_mut().enumerate() {
        item.length = 2_600 + n as i64;
    }
    let answer = solved(&problem, 10_000_000);
    let found = &answer.pools[0];
    let pipe: i64 = problem.pools[0]
        .items
        .iter()
        .map(|i| i64::from(i.count) * (i.length + 2) * 7_000 / 7_642)
        .sum();
    assert!(found.bound > pipe, "{} over {pipe}", found.bound);
    let gap = (found.cost - found.bound) as f64 / found.cost as f64;
    assert!(gap < 0.02, "gap {gap}");
}

/// Steps stand for seconds: a stop is looked for within a hundredth of a second's worth of them.
#[test]
fn a_stop_asked_for_at_once_is_kept() {
    let problem = list(700);
    let clerk = Clerk {
        stop: true,
        ..Clerk::default()
    };
    let answer = solve(&problem, &Limits::default(), &clerk).expect("admitted");
    let found = &answer.pools[0];
    assert_eq!(found.stop, StopReason::Interrupted);
    assert_eq!(found.status, Status::Within);
    let steps = clerk.steps.load(Ordering::Relaxed);
    assert!(steps < 10_000_000, "{steps} steps after the stop");
}
