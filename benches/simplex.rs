//! Times the engine's own simplex beside good_lp on the cutting programs of real weeks:
//! `cargo bench --bench simplex`.
//!
//! good_lp hands out no duals, so it is asked for them through the dual program: patterns are its cutting planes.
//! Both ways generate columns to the least relaxed cost of a pool, from the same first patterns and with the same
//! pricing; only the time inside the solvers counts. Pools: every pipe of the weeks in data/ and of seeded weeks,
//! its unspliced parts over all joints on sale. A plain timing loop of the standard library.

#[path = "../tests/world/demo.rs"]
mod demo;
mod made_week;

use std::time::{Duration, Instant};

use good_lp::{Expression, Solution, SolverModel, Variable, microlp, variable, variables};
use longpoint::measure::Length;
use longpoint::order::Week;
use longpoint::part::{TakeOff, take_off};

/// The simplex is private to the engine: its file is compiled in here as it stands.
#[path = "../src/nest"]
mod nest {
    /// Its unit tests throw dice.
    #[cfg(test)]
    #[path = "../../tests/world/dice.rs"]
    mod made;
    #[allow(dead_code, unused_imports)]
    mod simplex;

    use simplex::{Sense, Simplex};

    /// The master program of one pool.
    #[derive(Default)]
    pub struct Master(Simplex);

    impl Master {
        /// A row: so many of one length, or their penalty.
        pub fn demand(&mut self, count: f64, penalty: f64) {
            self.0.add_row(Sense::Ge, count, penalty);
        }

        /// A pattern.
        pub fn pattern(&mut self, cost: f64, cuts: &[(usize, f64)]) {
            let row = |r: usize| u32::try_from(r).expect("few rows");
            let cuts = cuts.iter().map(|(r, n)| (row(*r), *n)).collect();
            self.0.add_column(cost, cuts);
        }

        /// Solves from where it stands.
        pub fn solve(&mut self) {
            assert!(self.0.solve(100_000, &mut |_| false), "it was let finish");
        }

        /// A dual a row.
        pub fn duals(&self) -> &[f64] {
            self.0.duals()
        }

        /// The relaxed cost.
        pub fn objective(&self) -> f64 {
            self.0.objective()
        }
    }
}

/// Runs of each pool; the least time counts.
const RUNS: u32 = 7;

/// One pipe's unspliced parts over its joints, in units of the grid; kerf is inside lengths and capacities.
struct Pool {
    name: String,
    /// Length and count.
    items: Vec<(usize, f64)>,
    /// Capacity and cost, the dearest at 1.
    stocks: Vec<(usize, f64)>,
}

/// A stock with what is cut from it: item and pieces.
struct Pattern {
    cost: f64,
    cuts: Vec<(usize, f64)>,
}

/// What generating columns one way came to.
struct Run {
    objective: f64,
    rounds: u32,
    solving: Duration,
}

fn main() {
    let demos = ["demo_us", "demo_metric", "demo_small", "demo_buying"];
    let mut pools: Vec<Pool> = Vec::new();
    for name in demos {
        pools.extend(pools_of(name, &demo::week(name)));
    }
    for gates in [20, 100] {
        let name = format!("{gates} gates");
        pools.extend(pools_of(&name, &made_week::week(gates, 50, 1)));
    }
    println!("pool: lengths; rounds and ms of ours, of good_lp; times as long");
    let mut ratios: Vec<f64> = Vec::new();
    let (mut ours, mut theirs) = (Duration::ZERO, Duration::ZERO);
    for pool in &pools {
        let (a, b) = (least(pool, by_simplex), least(pool, by_cutting_planes));
        let apart = (a.objective - b.objective).abs();
        assert!(apart < 1e-6 * (1.0 + a.objective), "{}", pool.name);
        let ratio = b.solving.as_secs_f64() / a.solving.as_secs_f64();
        println!(
            "{}: {}; {} {:.3}; {} {:.3}; {ratio:.1}",
            pool.name,
            pool.items.len(),
            a.rounds,
            a.solving.as_secs_f64() * 1e3,
            b.rounds,
            b.solving.as_secs_f64() * 1e3,
        );
        ratios.push(ratio);
        ours += a.solving;
        theirs += b.solving;
    }
    ratios.sort_by(f64::total_cmp);
    println!(
        "{} pools: median {:.1}, from {:.1} to {:.1}; all together {:.1} ms and {:.1} ms, {:.1} times",
        ratios.len(),
        ratios[ratios.len() / 2],
        ratios[0],
        ratios[ratios.len() - 1],
        ours.as_secs_f64() * 1e3,
        theirs.as_secs_f64() * 1e3,
        theirs.as_secs_f64() / ours.as_secs_f64()
    );
}

fn least(pool: &Pool, way: fn(&Pool) -> Run) -> Run {
    let runs = (0..RUNS).map(|_| way(pool));
    runs.min_by_key(|run| run.solving).expect("some runs")
}

/// The pools of a week with at least two lengths in them.
fn pools_of(name: &str, week: &Week) -> Vec<Pool> {
    let parts = take_off(week).0;
    let pipes = week.pipes.iter().enumerate();
    let pools = pipes.filter_map(|(pipe, of)| {
        let title = format!("{name}, {}", of.name);
        pool(title, week, &parts, pipe)
    });
    pools.collect()
}

fn pool(name: String, week: &Week, parts: &TakeOff, pipe: usize) -> Option<Pool> {
    let saw = &week.shop.saw;
    // 1/64 in and a quarter of a millimetre: the grids on which kerfs are planned.
    let unit = match week.shop.units {
        longpoint::measure::Units::Inch => Length::SIXTY_FOURTH.ticks(),
        longpoint::measure::Units::Metric => Length::MM.ticks() / 4,
    };
    let units = |ticks: i64| usize::try_from(ticks).expect("no length is below zero");
    let eaten = saw.near_trim + saw.far_trim + saw.hold_back - saw.kerf;
    let quotes = week.quotes.iter().filter(|q| q.pipe.0 == pipe);
    let mut stocks: Vec<(usize, f64)> = quotes
        .filter_map(|q| {
            let room = units((q.planning - eaten).ticks().div_euclid(unit));
            let price = q.price?.millicents()?;
            Some((room, price as f64))
        })
        .collect();
    let dearest = stocks.iter().map(|s| s.1).fold(0.0, f64::max);
    stocks.iter_mut().for_each(|s| s.1 /= dearest);
    let longest = stocks.iter().map(|s| s.0).max()?;
    let mut items: Vec<(usize, f64)> = Vec::new();
    for part in parts.parts.iter().filter(|p| p.ours && p.pipe.0 == pipe) {
        let length = units(-(-(part.saw + saw.kerf).ticks()).div_euclid(unit));
        match items.iter_mut().find(|i| i.0 == length) {
            Some(item) => item.1 += f64::from(part.count),
            None if length <= longest => items.push((length, f64::from(part.count))),
            None => {}
        }
    }
    (items.len() >= 2).then_some(Pool {
        name,
        items,
        stocks,
    })
}

/// One length alone from the cheapest stock that holds it, as often as it goes in.
fn first(pool: &Pool) -> Vec<Pattern> {
    let of = |(item, (length, _)): (usize, &(usize, f64))| {
        let holds = pool.stocks.iter().filter(|s| s.0 >= *length);
        let (room, cost) = holds
            .min_by(|a, b| a.1.total_cmp(&b.1))
            .expect("one holds it");
        Pattern {
            cost: *cost,
            cuts: vec![(item, (room / length) as f64)],
        }
    };
    pool.items.iter().enumerate().map(of).collect()
}

/// The best pattern of each stock whose reduced cost is below zero: an unbounded knapsack.
fn price(pool: &Pool, duals: &[f64]) -> Vec<Pattern> {
    let room = pool.stocks.iter().map(|s| s.0).max().unwrap_or(0);
    let mut worth = vec![0.0; room + 1];
    let mut last = vec![usize::MAX; room + 1];
    for at in 1..=room {
        worth[at] = worth[at - 1];
        for (item, (length, _)) in pool.items.iter().enumerate() {
            if *length <= at && worth[at - length] + duals[item] > worth[at] {
                worth[at] = worth[at - length] + duals[item];
                last[at] = item;
            }
        }
    }
    let below = pool.stocks.iter().filter(|s| s.1 - worth[s.0] < -1e-7);
    let pattern = |(room, cost): &(usize, f64)| {
        let mut pieces = vec![0.0; pool.items.len()];
        let mut at = *room;
        while at > 0 {
            match last[at] {
                usize::MAX => at -= 1,
                item => {
                    pieces[item] += 1.0;
                    at -= pool.items[item].0;
                }
            }
        }
        let cuts = pieces.into_iter().enumerate().filter(|(_, n)| *n > 0.0);
        Pattern {
            cost: *cost,
            cuts: cuts.collect(),
        }
    };
    below.map(pattern).collect()
}

fn by_simplex(pool: &Pool) -> Run {
    let mut master = nest::Master::default();
    for (_, count) in &pool.items {
        master.demand(*count, 2.0);
    }
    let mut fresh = first(pool);
    let mut run = Run {
        objective: 0.0,
        rounds: 0,
        solving: Duration::ZERO,
    };
    while !fresh.is_empty() {
        let start = Instant::now();
        for pattern in &fresh {
            master.pattern(pattern.cost, &pattern.cuts);
        }
        master.solve();
        run.solving += start.elapsed();
        run.rounds += 1;
        fresh = price(pool, master.duals());
    }
    run.objective = master.objective();
    run
}

/// The most that the pieces are worth where no pattern is worth more than its stock.
fn by_cutting_planes(pool: &Pool) -> Run {
    let mut planes = first(pool);
    let mut run = Run {
        objective: 0.0,
        rounds: 0,
        solving: Duration::ZERO,
    };
    loop {
        let start = Instant::now();
        let mut vars = variables!();
        let worth: Vec<Variable> = pool
            .items
            .iter()
            .map(|_| vars.add(variable().min(0.0).max(2.0)))
            .collect();
        let all = pool.items.iter().zip(&worth);
        let aim: Expression = all.map(|((_, count), worth)| *count * *worth).sum();
        let mut model = vars.maximise(aim.clone()).using(microlp);
        for plane in &planes {
            let pieces = plane.cuts.iter().map(|(item, n)| *n * worth[*item]);
            let sum: Expression = pieces.sum();
            model = model.with(sum.leq(plane.cost));
        }
        let solved = model
            .solve()
            .expect("bounded, and nothing at all is allowed");
        let duals: Vec<f64> = worth.iter().map(|w| solved.value(*w)).collect();
        run.objective = solved.eval(&aim);
        run.solving += start.elapsed();
        run.rounds += 1;
        let fresh = price(pool, &duals);
        if fresh.is_empty() {
            return run;
        }
        planes.extend(fresh);
    }
}
