//! Plans of all pools together at their true money: which joints are bought uncut, and what the charges come
//! to.

use super::super::answer::{Configuration, Pattern};
use super::super::best_fit::{cut_length, net};
use super::super::charge::{ChargeKind, StockOf};
use super::super::problem::Problem;
use super::super::rules::configuration_cost;
use super::super::tie::{Tie, in_order};
use super::moved::Back;
use super::place::weight;
use super::reach::{most_joints, uncut};
use super::recast::recast;

/// A plan of the whole.
#[derive(Clone, Debug)]
pub(super) struct Plan {
    /// Per pool: what is cut.
    pub pools: Vec<(Vec<Pattern>, Vec<Configuration>)>,
    /// Joints bought uncut: `[pool][stock]`.
    pub uncut: Vec<Vec<i64>>,
    /// Money of each charge.
    pub charges: Vec<i64>,
    /// Money of each pool, uncut joints at cost less credit.
    pub money: Vec<i64>,
}

impl Plan {
    /// Everything together.
    pub fn cost(&self) -> i64 {
        self.money.iter().chain(&self.charges).sum()
    }

    /// What decides between plans: money, then the order of DESIGN §9.
    fn rank(&self, problem: &Problem) -> (i64, Tie) {
        let mut tie = Tie::default();
        for (pool, (cut, spliced)) in problem.pools.iter().zip(&self.pools) {
            tie.add(pool, cut, spliced);
        }
        tie.joints += self.uncut.iter().flatten().sum::<i64>();
        (self.cost(), tie)
    }

    /// Whether this plan goes before another.
    pub fn before(&self, other: &Plan, problem: &Problem) -> bool {
        let (mine, theirs) = (self.rank(problem), other.rank(problem));
        let order = |plan: &'_ Plan| -> Vec<_> {
            let cut = plan.pools.iter().flat_map(|p| in_order(&p.0));
            cut.map(|(stock, cuts, times)| (stock, cuts.to_vec(), times))
                .collect()
        };
        mine < theirs || (mine == theirs && order(self) < order(other))
    }
}

/// The counts that charges see while joints are added and taken away uncut.
struct Buying<'a> {
    problem: &'a Problem,
    /// Cut joints.
    cut: Vec<Vec<i64>>,
    /// Uncut joints.
    uncut: Vec<Vec<i64>>,
    /// Stocks that may stay uncut.
    may: Vec<StockOf>,
    /// Most joints of each stock worth taking.
    most: &'a [Vec<i64>],
}

/// (ranges broken, money of charges and of uncut joints).
type Price = (usize, i128);

impl Buying<'_> {
    fn price(&self) -> (Price, Vec<i64>) {
        let (mut broken, mut money, mut each) = (0, 0i128, Vec::new());
        for charge in &self.problem.charges {
            let (mut n, mut m) = (0u64, 0i128);
            for at in &charge.over {
                let taken = self.cut[at.pool][at.stock] + self.uncut[at.pool][at.stock];
                n += u64::try_from(taken).unwrap_or(0);
                let price = self.problem.pools[at.pool].stocks[at.stock].price();
                m += i128::from(taken) * i128::from(price);
            }
            let paid = charge.kind.of(n, m);
            broken += usize::from(paid.is_none());
            money += paid.unwrap_or(0);
            each.push(i64::try_from(paid.unwrap_or(0)).unwrap_or(i64::MAX));
        }
        for at in &self.may {
            let extra = i128::from(uncut_money(self.problem, *at));
            money += extra * i128::from(self.uncut[at.pool][at.stock]);
        }
        ((broken, money), each)
    }

    /// Counts of uncut joints of a stock worth trying: none, one fewer, and what reaches the next step of
    /// each charge on it.
    fn steps(&self, at: StockOf) -> Vec<i64> {
        let here = self.uncut[at.pool][at.stock];
        let mut steps = vec![0, here - 1];
        let taken = |o: &StockOf| self.cut[o.pool][o.stock] + self.uncut[o.pool][o.stock];
        for charge in &self.problem.charges {
            if charge.over.binary_search(&at).is_err() {
                continue;
            }
            let each = |o: &StockOf| taken(o) * weight(self.problem, charge, *o);
            let number: i64 = charge.over.iter().map(each).sum();
            let target = match charge.kind {
                ChargeKind::Fixed { free_over, .. } => free_over.unwrap_or(0),
                ChargeKind::Lift { lift, .. } => {
                    let lift = i64::from(lift.max(1));
                    (number + lift - 1) / lift * lift
                }
                ChargeKind::Minimum { least } => least,
                ChargeKind::Range { least, .. } => i64::from(least),
            };
            let one = weight(self.problem, charge, at).max(1);
            let missing = target - number;
            steps.push(here + missing / one);
            steps.push(here + (missing + one - 1).div_euclid(one));
        }
        let room = self.most[at.pool][at.stock] - self.cut[at.pool][at.stock];
        steps.retain(|n| (0..=room).contains(n) && *n != here);
        steps.sort_unstable();
        steps.dedup();
        steps
    }

    /// The best single change, again and again.
    fn settle(&mut self) -> (Price, Vec<i64>) {
        let mut now = self.price();
        loop {
            let mut best: Option<(Price, StockOf, i64)> = None;
            for &at in &self.may {
                for n in self.steps(at) {
                    let mut tried = Buying {
                        problem: self.problem,
                        cut: self.cut.clone(),
                        uncut: self.uncut.clone(),
                        may: self.may.clone(),
                        most: self.most,
                    };
                    tried.uncut[at.pool][at.stock] = n;
                    let price = tried.price().0;
                    if price < best.map_or(now.0, |b| b.0) {
                        best = Some((price, at, n));
                    }
                }
            }
            let Some((_, at, n)) = best else {
                return now;
            };
            self.uncut[at.pool][at.stock] = n;
            now = self.price();
        }
    }
}

/// What a joint bought and left uncut costs.
pub(super) fn uncut_money(problem: &Problem, at: StockOf) -> i64 {
    let pool = &problem.pools[at.pool];
    let stock = &pool.stocks[at.stock];
    stock.cost - pool.credit.of(stock.usable)
}

/// The plan that these pools' plans make together, their joints as they are or recast; `None` when a range
/// cannot be kept.
pub(super) fn plan(problem: &Problem, backs: &[&Back]) -> Option<Plan> {
    let cut = joints_cut(problem, backs);
    let as_they_are = filled(problem, backs, &cut);
    let whole = |n: &i64| u64::try_from(*n).unwrap_or(0);
    let counts = cut.iter().map(|c| c.iter().map(whole).collect()).collect();
    let recast = recast(problem, backs, counts).and_then(|moved| {
        let moved: Vec<&Back> = moved.iter().collect();
        filled(problem, &moved, &joints_cut(problem, &moved))
    });
    match (as_they_are, recast) {
        (Some(a), Some(b)) => Some(if b.before(&a, problem) { b } else { a }),
        (a, b) => a.or(b),
    }
}

/// Joints cut of each stock.
fn joints_cut(problem: &Problem, backs: &[&Back]) -> Vec<Vec<i64>> {
    let pools = problem.pools.iter().zip(backs);
    pools
        .map(|(pool, back)| {
            let mut used = vec![0i64; pool.stocks.len()];
            for p in &back.patterns {
                used[p.stock] += i64::from(p.times);
            }
            used
        })
        .collect()
}

/// With the uncut joints that pay, starting from those of the relaxation and from none.
fn filled(problem: &Problem, backs: &[&Back], cut: &[Vec<i64>]) -> Option<Plan> {
    let may = uncut(problem);
    let stocks: Vec<StockOf> = may
        .iter()
        .enumerate()
        .flat_map(|(pool, may)| (0..may.len()).map(move |stock| StockOf { pool, stock }))
        .filter(|at| may[at.pool][at.stock])
        .collect();
    let most = most_joints(problem);
    let none: Vec<Vec<i64>> = cut.iter().map(|c| vec![0; c.len()]).collect();
    let mut relaxed = none.clone();
    for at in &stocks {
        let extra = backs[at.pool].taken[at.stock] - cut[at.pool][at.stock];
        relaxed[at.pool][at.stock] = extra.max(0);
    }
    let mut best: Option<(Price, Vec<i64>, Vec<Vec<i64>>)> = None;
    for start in [none, relaxed] {
        let mut buying = Buying {
            problem,
            cut: cut.to_vec(),
            uncut: start,
            may: stocks.clone(),
            most: &most,
        };
        let (price, each) = buying.settle();
        if price.0 == 0 && best.as_ref().is_none_or(|b| price < b.0) {
            best = Some((price, each, buying.uncut));
        }
    }
    let (_, charges, uncut) = best?;
    Some(whole(problem, backs, charges, uncut))
}

fn whole(problem: &Problem, backs: &[&Back], charges: Vec<i64>, uncut: Vec<Vec<i64>>) -> Plan {
    let mut plan = Plan {
        pools: Vec::new(),
        uncut,
        charges,
        money: Vec::new(),
    };
    for (p, (pool, back)) in problem.pools.iter().zip(backs).enumerate() {
        let mut money = 0;
        for pattern in &back.patterns {
            let taken = pattern
                .cuts
                .iter()
                .map(|c| cut_length(pool, c) + pool.kerf)
                .sum();
            let each = net(pool, pattern.stock, taken).unwrap_or(pool.stocks[pattern.stock].cost);
            money += each * i64::from(pattern.times);
        }
        for c in &back.configurations {
            let each = configuration_cost(&pool.groups[c.group], pool.mark, &c.lines).unwrap_or(0);
            money += each * i64::from(c.times);
        }
        for (stock, n) in plan.uncut[p].iter().enumerate() {
            money += n * uncut_money(problem, StockOf { pool: p, stock });
        }
        plan.money.push(money);
        plan.pools
            .push((back.patterns.clone(), back.configurations.clone()));
    }
    plan
}
