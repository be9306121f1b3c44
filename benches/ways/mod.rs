//! The same seeded weeks made four ways: (a) gate by gate, each gate nested by itself and what it takes off
//! the rack gone for the next; (b) longest first over all gates, splices at the first legal places; (c) the
//! splices of (b), all pieces nested as well as can be; (d) splices and joints decided together.

use longpoint::nest::{
    Cut, Item, Limits, NoWatch, Pool, PoolAnswer, Problem, cost, longest_first, solve,
};
use longpoint::order::Week;
use longpoint::plan::{JointSource, Plan};

use super::spread::{Spread, percent};
use super::{made_week, planned};

/// What a way comes to: money, and pipe taken and cut.
#[derive(Clone, Copy, Debug, Default)]
struct Sum {
    money: i64,
    taken: i64,
    cut: i64,
}

const NAMES: [&str; 3] = [
    "(a) gate by gate",
    "(b) longest first",
    "(c) (b)'s splices, nested",
];

/// Prints what each way costs over (d), and its all-in waste.
pub fn compare(gates: u32, weeks: u64) {
    let mut over = [(); 3].map(|()| Spread::default());
    let mut sums = [Sum::default(); 4];
    let mut done = 0;
    for seed in 1..=weeks {
        let week = made_week::week(gates, gates / 2, seed);
        let Some(ways) = ways(&week) else {
            println!("{gates} gates, seed {seed}: some way cannot make it");
            continue;
        };
        done += 1;
        let joint = ways[3].money;
        for (over, way) in over.iter_mut().zip(&ways) {
            over.add(percent(way.money - joint, joint));
        }
        for (sum, way) in sums.iter_mut().zip(ways) {
            sum.money += way.money;
            sum.taken += way.taken;
            sum.cut += way.cut;
        }
    }
    println!("{gates} gates, {done} weeks, money over (d) all together, and all-in waste");
    for ((name, over), sum) in NAMES.iter().zip(&over).zip(&sums) {
        let all = percent(sum.money - sums[3].money, sums[3].money);
        println!(
            "  {name:26} {over} %, all weeks {all:.2} %; waste {:.2} %",
            waste(sum)
        );
    }
    println!("  (d) all together: waste {:.2} %", waste(&sums[3]));
}

fn waste(sum: &Sum) -> f64 {
    percent(sum.taken - sum.cut, sum.taken)
}

fn ways(week: &Week) -> Option<[Sum; 4]> {
    let plan = planned(week, Limits::default())?;
    let problem = &plan.nest.problem;
    let mut first = Sum::default();
    let mut nested = Sum::default();
    for pool in &problem.pools {
        let naive = longest_first(pool)?;
        first.answer(pool, &naive)?;
        let (fixed, splices) = with_splices_of(pool, &naive)?;
        let alone = Problem {
            pools: vec![fixed],
            charges: Vec::new(),
            ..problem.clone()
        };
        let answer = solve(&alone, &Limits::default(), &NoWatch).ok()?;
        nested.answer(&alone.pools[0], &answer.pools[0])?;
        nested.money += splices;
    }
    let mut together = Sum::default();
    together.plan(&plan);
    Some([gate_by_gate(week)?, first, nested, together])
}

impl Sum {
    fn answer(&mut self, pool: &Pool, answer: &PoolAnswer) -> Option<()> {
        if !answer.short.is_empty() || !answer.short_groups.is_empty() {
            return None;
        }
        self.money += cost(pool, &answer.patterns, &answer.configurations).ok()?;
        for pattern in &answer.patterns {
            let times = i64::from(pattern.times);
            self.taken += times * pool.stocks[pattern.stock].length;
            let lengths = pattern.cuts.iter().map(|cut| match *cut {
                Cut::Item(i) => pool.items[i].length,
                Cut::Piece { length, .. } => length,
            });
            self.cut += times * lengths.sum::<i64>();
        }
        Some(())
    }

    fn plan(&mut self, plan: &Plan) {
        self.money += plan.pipes.iter().map(|p| p.cost).sum::<i64>();
        self.taken += plan.waste.taken.ticks();
        self.cut += plan.waste.in_parts.ticks();
    }
}

/// The pool with the pieces of this answer's splices as items, and the splices' money.
fn with_splices_of(pool: &Pool, answer: &PoolAnswer) -> Option<(Pool, i64)> {
    let whole = cost(pool, &answer.patterns, &answer.configurations).ok()?;
    let mut fixed = pool.clone();
    for made in &answer.configurations {
        let class = pool.groups[made.group].class;
        for &length in made.lines.iter().flatten() {
            let known = |i: &&mut Item| i.length == length && i.class == class;
            match fixed.items.iter_mut().find(known) {
                Some(item) => item.count += made.times,
                None => fixed.items.push(Item {
                    length,
                    count: made.times,
                    class,
                }),
            }
        }
    }
    fixed.groups.clear();
    // The joints' money alone: the same joints, priced without their lines.
    let joints = answer.patterns.iter().map(|p| {
        let stock = &pool.stocks[p.stock];
        let lengths = p.cuts.iter().map(|cut| match *cut {
            Cut::Item(i) => pool.items[i].length,
            Cut::Piece { length, .. } => length,
        });
        let filled: i64 = lengths.map(|l| l + pool.kerf).sum();
        let drop = (stock.usable - filled).max(0);
        i64::from(p.times) * (stock.cost - pool.credit.of(drop))
    });
    Some((fixed, whole - joints.sum::<i64>()))
}

/// Each gate order planned by itself, in the order of the list.
fn gate_by_gate(week: &Week) -> Option<Sum> {
    let mut sum = Sum::default();
    let mut rack = week.rack.clone();
    for gate in &week.gates {
        let alone = Week {
            gates: vec![gate.clone()],
            rack: rack.clone(),
            ..week.clone()
        };
        let plan = planned(&alone, Limits::default())?;
        if !plan.left_out.is_empty() {
            return None;
        }
        for joint in &plan.joints {
            if let JointSource::Rack(row, _) = joint.source {
                rack[row].count -= 1;
            }
        }
        sum.plan(&plan);
    }
    Some(sum)
}
