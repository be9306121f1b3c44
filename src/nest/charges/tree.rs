//! Branch and bound over the charges.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};

use super::super::admit::MOST_MONEY;
use super::super::aim::most_money;
use super::super::answer::{Answer, Pattern, PoolAnswer, Status, StopReason};
use super::super::bound::whole_step;
use super::super::converge::Budget;
use super::super::cost::cost_with_charges;
use super::super::fault::NestFault;
use super::super::longest_first::first_answer;
use super::super::problem::{Limits, Pool, Problem};
use super::super::proof::Branch;
use super::super::watch::Watch;
use super::super::whole::{Fork, Whole};
use super::moved::Back;
use super::place::Place;
use super::plan::{Plan, plan};
use super::reach::most_joints;
use super::relax::{Relaxed, Solver};
use super::split::{Split, split};

/// What progress calls the whole.
const NAME: &str = "all pools with charges";
/// Most nodes.
const NODES: usize = 4_000;
/// Parts of the steps of one pool that one moved pool may take: while slopes are sought, and then.
const PART: (u64, u64) = (80, 16);
/// Steps of all nodes together, as many times those of all pools alone.
const TIMES: u64 = 2;

struct Node {
    place: Place,
    /// `None`: no answer lies here.
    relaxed: Option<Relaxed>,
    split: Option<(Split, usize)>,
}

impl Node {
    fn bound(&self) -> i128 {
        self.relaxed.as_ref().map_or(i128::MAX, |r| r.bound)
    }
}

/// Nodes without gain after which the search ends, and the part of the gap that counts as gain.
const IDLE: (usize, i128) = (64, 50);

/// Where bound and cost stood some nodes ago.
#[derive(Default)]
struct Mark {
    nodes: usize,
    bound: i128,
    cost: i128,
}

impl Mark {
    /// True when so many nodes closed less than that part of the gap.
    fn idle(&mut self, nodes: usize, (bound, cost): (i128, i128)) -> bool {
        if nodes < self.nodes + IDLE.0 {
            return false;
        }
        let gained = (bound - self.bound) + (self.cost - cost);
        let idle = self.nodes > 0 && gained * IDLE.1 < cost - bound;
        *self = Mark { nodes, bound, cost };
        idle
    }
}

/// The search.
struct Search<'a> {
    problem: &'a Problem,
    grain: i64,
    /// Every cost is a multiple of this.
    step: i64,
    solver: Solver<'a>,
    nodes: Vec<Node>,
    best: Option<Plan>,
}

/// Money has room for this many more bits while slopes move it.
const ROOM: i128 = 16;

/// The finest grain (a power of two up to 1024) that leaves the sums exact.
fn grain(problem: &Problem) -> i64 {
    let joints = most_joints(problem);
    let mut money: i128 = 0;
    for (pool, most) in problem.pools.iter().zip(&joints) {
        for (stock, most) in pool.stocks.iter().zip(most) {
            money += i128::from(stock.cost.max(stock.price())) * i128::from(*most);
        }
    }
    let fits = |g: &i64| money * i128::from(*g) * ROOM <= MOST_MONEY;
    (0..=10).rev().map(|b| 1i64 << b).find(fits).unwrap_or(1)
}

/// Solves a problem with charges; `alone` holds the pools' answers without them.
pub(in crate::nest) fn solve_charged(
    problem: &Problem,
    alone: Vec<PoolAnswer>,
    limits: &Limits,
    stop: &(dyn Fn() -> bool + Sync),
    watch: &dyn Watch,
) -> Result<Answer, NestFault> {
    let grain = grain(problem);
    let work = limits.work.saturating_mul(TIMES);
    let work = work.saturating_mul(problem.pools.len() as u64);
    let mut budget = Budget::new(work, stop);
    let mut search = Search {
        problem,
        grain,
        step: whole_step(problem),
        solver: Solver::new(problem, grain, (limits.work / PART.0, limits.work / PART.1)),
        nodes: Vec::new(),
        best: None,
    };
    // The hand way is there first, however soon the search is stopped.
    let by_hand: Vec<PoolAnswer> = problem
        .pools
        .iter()
        .map(|p| first_answer(p, stop))
        .collect();
    for answers in [&by_hand, &alone] {
        let pools = problem.pools.iter().zip(answers);
        let backs: Option<Vec<Back>> = pools.map(as_it_is).collect();
        if let Some(backs) = backs {
            keep_better(problem, &mut search.best, &backs.iter().collect::<Vec<_>>());
        }
    }
    let whole = Place::whole(problem);
    search.enter(whole, None, &mut budget)?;
    let bound = search.grow(&mut budget, watch)?;
    let closed = search.closed(bound);
    let reason = if closed {
        StopReason::Closed
    } else if (budget.stop)() {
        StopReason::Interrupted
    } else if budget.cut {
        StopReason::WorkBudget
    } else {
        StopReason::Exhausted
    };
    search.answer(alone, bound, reason)
}

/// A pool's own plan; `None` when it has none.
fn as_it_is((pool, answer): (&Pool, &PoolAnswer)) -> Option<Back> {
    let mut taken = vec![0i64; pool.stocks.len()];
    for p in &answer.patterns {
        taken[p.stock] += i64::from(p.times);
    }
    (answer.status != Status::Short).then(|| Back {
        patterns: answer.patterns.clone(),
        configurations: answer.configurations.clone(),
        taken,
    })
}

/// Keeps the plan that these pools make when it is better than the best so far.
fn keep_better(problem: &Problem, best: &mut Option<Plan>, backs: &[&Back]) {
    if let Some(found) = plan(problem, backs)
        && best.as_ref().is_none_or(|b| found.before(b, problem))
    {
        *best = Some(found);
    }
}

impl Search<'_> {
    /// A bound × grain in money, rounded up to what every cost is a multiple of.
    fn money(&self, bound: i128) -> i128 {
        let step = i128::from(self.step);
        -(-bound).div_euclid(i128::from(self.grain) * step) * step
    }

    fn closed(&self, bound: i128) -> bool {
        let cost = self.best.as_ref().map(|b| i128::from(b.cost()));
        bound == i128::MAX || cost.is_some_and(|c| self.money(bound) >= c)
    }

    /// Bounds a place and adds it as a node; plans met are kept when they are better.
    fn enter(
        &mut self,
        place: Place,
        parent: Option<&Relaxed>,
        budget: &mut Budget<'_>,
    ) -> Result<(), NestFault> {
        let mut relaxed = None;
        let place = match place.clone().tighten(self.problem) {
            None => place,
            Some(tight) => {
                let cost = self.best.as_ref().map(|b| i128::from(b.cost()));
                let enough = cost.map_or(i128::MAX, |c| c * i128::from(self.grain));
                let (problem, best) = (self.problem, &mut self.best);
                let mut meet = |backs: &[&Back]| keep_better(problem, best, backs);
                relaxed = self
                    .solver
                    .relax(&tight, parent, enough, budget, &mut meet)?;
                tight
            }
        };
        self.nodes.push(Node {
            place,
            relaxed,
            split: None,
        });
        Ok(())
    }

    /// Splits the node of the least bound until that closes or nothing is left to split; the bound × grain
    /// over all leaves.
    fn grow(&mut self, budget: &mut Budget<'_>, watch: &dyn Watch) -> Result<i128, NestFault> {
        let mut open: BinaryHeap<Reverse<(i128, usize)>> = BinaryHeap::new();
        open.push(Reverse((self.nodes[0].bound(), 0)));
        let mut mark = Mark::default();
        while let Some(Reverse((bound, at))) = open.pop() {
            let best = self.best.as_ref().map(Plan::cost);
            if let Some(cost) = best
                && mark.idle(self.nodes.len(), (self.money(bound), i128::from(cost)))
            {
                break;
            }
            let shown = i64::try_from(self.money(bound)).unwrap_or(i64::MAX);
            watch.progress(NAME, shown, best, self.nodes.len() as u64);
            if self.closed(bound) || self.nodes.len() >= NODES || budget.over() {
                break;
            }
            let node = &self.nodes[at];
            let Some(relaxed) = node.relaxed.clone() else {
                continue;
            };
            let Some(split) = split(self.problem, self.grain, &node.place, &relaxed) else {
                // Nothing can raise this leaf, but the others may hold a better plan.
                continue;
            };
            let first = self.nodes.len();
            for side in split.sides(&self.nodes[at].place.clone()) {
                self.enter(side, Some(&relaxed), budget)?;
            }
            let sides = [first, first + 1];
            if sides.iter().any(|c| self.nodes[*c].bound() < bound) && budget.over() {
                // Out of steps half-way: the parent's own bound says more.
                self.nodes.truncate(first);
                break;
            }
            self.nodes[at].split = Some((split, first));
            open.extend(sides.map(|c| Reverse((self.nodes[c].bound(), c))));
        }
        let leaves = self.nodes.iter().filter(|n| n.split.is_none());
        Ok(leaves.map(Node::bound).min().unwrap_or(i128::MAX))
    }

    /// The answer as it leaves the room.
    fn answer(
        self,
        alone: Vec<PoolAnswer>,
        bound: i128,
        stop: StopReason,
    ) -> Result<Answer, NestFault> {
        let claimed = self.money(bound);
        let (nodes, proofs) = self.proof();
        let mut whole = Whole {
            cost: 0,
            bound: 0,
            charges: Vec::new(),
            status: Status::Short,
            stop,
            grain: self.grain,
            nodes,
            proofs,
        };
        let Some(best) = &self.best else {
            // A bound over all the money that a plan can come to says that there is none.
            let most = most_money(self.problem) * i128::from(self.grain);
            if bound <= most {
                whole.status = Status::NoneFound;
            }
            return Ok(Answer {
                pools: alone,
                whole: Some(whole),
            });
        };
        let pools: Vec<PoolAnswer> = (0..alone.len())
            .map(|p| self.pool(p, &alone[p], best))
            .collect();
        (whole.cost, whole.charges) = cost_with_charges(self.problem, &pools)?;
        whole.bound = i64::try_from(claimed.min(i128::from(whole.cost))).unwrap_or(i64::MIN);
        whole.status = if whole.bound == whole.cost {
            Status::Proved
        } else {
            Status::Within
        };
        Ok(Answer {
            pools,
            whole: Some(whole),
        })
    }

    /// A pool of the best plan, beside the pool's own bound.
    fn pool(&self, p: usize, alone: &PoolAnswer, best: &Plan) -> PoolAnswer {
        let (patterns, configurations) = best.pools[p].clone();
        let uncut = best.uncut[p].iter().enumerate().filter(|(_, n)| **n > 0);
        let uncut = uncut.map(|(stock, n)| Pattern {
            stock,
            times: u32::try_from(*n).unwrap_or(u32::MAX),
            cuts: Vec::new(),
        });
        let mut answer = PoolAnswer {
            patterns: patterns.into_iter().chain(uncut).collect(),
            configurations,
            cost: best.money[p],
            short: Vec::new(),
            short_groups: Vec::new(),
            ..alone.clone()
        };
        let proved = answer.bound >= answer.cost;
        answer.status = if proved {
            Status::Proved
        } else {
            Status::Within
        };
        answer
    }

    /// The tree and the proofs its leaves name, each proof once.
    fn proof(&self) -> (Vec<Fork>, Vec<Vec<Branch>>) {
        let mut place: BTreeMap<usize, usize> = BTreeMap::new();
        let mut proofs = Vec::new();
        let mut forks = Vec::new();
        for node in &self.nodes {
            forks.push(match (&node.split, &node.relaxed) {
                (Some((Split::Charge(charge, most), first)), _) => Fork::Charge {
                    charge: *charge,
                    most: *most,
                    under: *first,
                    over: first + 1,
                },
                (Some((Split::Joints(of, most), first)), _) => Fork::Joints {
                    of: *of,
                    most: *most,
                    under: *first,
                    over: first + 1,
                },
                (None, None) => Fork::Nothing,
                (None, Some(relaxed)) => {
                    let mut name = |&at: &usize| {
                        *place.entry(at).or_insert_with(|| {
                            proofs.push(self.solver.proof(at).to_vec());
                            proofs.len() - 1
                        })
                    };
                    Fork::Leaf {
                        slopes: relaxed.slopes.clone(),
                        proofs: relaxed.proofs.iter().map(&mut name).collect(),
                    }
                }
            });
        }
        (forks, proofs)
    }
}
