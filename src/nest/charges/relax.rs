//! The bound of one place: each charge replaced by a line under it, each pool solved by itself.
//!
//! The bound is concave in the slopes. What the pools' plans take at given slopes, beside the numbers
//! where a charge touches its line, says which way a slope should go: first along the slopes of the charge's
//! own hull, between two of them by halving.

use std::collections::BTreeMap;

use rayon::prelude::*;

use super::super::answer::{PoolAnswer, Status};
use super::super::converge::Budget;
use super::super::fault::NestFault;
use super::super::problem::{Pool, Problem};
use super::super::proof::Branch;
use super::super::solve::solve_alone;
use super::curve::{corners, least, slopes};
use super::hopeless::hopeless;
use super::moved::{Back, Moved, moved};
use super::place::{Place, number};

/// A moved pool as solved.
#[derive(Clone, Debug)]
struct Solved {
    bound: i64,
    proof: Vec<Branch>,
    answer: Option<PoolAnswer>,
}

/// What a pool was moved to: its stocks' costs and limits.
type Key = (usize, Vec<(i64, Option<u32>)>);

/// Solves moved pools, each only once.
pub(super) struct Solver<'a> {
    pub problem: &'a Problem,
    pub grain: i64,
    /// Steps a moved pool may take.
    pub each: u64,
    known: BTreeMap<Key, usize>,
    solved: Vec<Solved>,
}

/// What a place came to.
#[derive(Clone, Debug)]
pub(super) struct Relaxed {
    /// Lower bound × grain; `None` when no answer lies here.
    pub bound: i128,
    /// Slopes that give it.
    pub slopes: Vec<i64>,
    /// The pools' proofs.
    pub proofs: Vec<usize>,
    /// What the pools' plans take at these slopes; `None` when one has no plan.
    pub taken: Option<Vec<Vec<i64>>>,
    /// What other slopes near them took.
    pub seen: Vec<Vec<Vec<i64>>>,
}

/// Rounds of moving slopes, and more per charge.
const ROUNDS: (usize, usize) = (3, 3);

impl<'a> Solver<'a> {
    pub fn new(problem: &'a Problem, grain: i64, each: u64) -> Solver<'a> {
        Solver {
            problem,
            grain,
            each,
            known: BTreeMap::new(),
            solved: Vec::new(),
        }
    }

    /// The proof of a moved pool.
    pub fn proof(&self, at: usize) -> &[Branch] {
        &self.solved[at].proof
    }

    /// Every pool at these slopes: the solved ones' places, and the way back.
    fn pools(
        &mut self,
        place: &Place,
        slopes: &[i64],
        budget: &mut Budget<'_>,
    ) -> Result<Vec<(usize, Moved)>, NestFault> {
        let all: Vec<Moved> = (0..self.problem.pools.len())
            .map(|p| moved(self.problem, p, place, (slopes, self.grain)))
            .collect();
        let key = |p: usize| -> Key {
            let stocks = all[p].pool.stocks.iter();
            (p, stocks.map(|s| (s.cost, s.limit)).collect())
        };
        let new: Vec<usize> = (0..all.len())
            .filter(|&p| !self.known.contains_key(&key(p)))
            .collect();
        let steps = self.each.min(budget.left);
        let stop = budget.stop;
        let solved = new
            .par_iter()
            .map(|&p| solve_one(&all[p].pool, steps, stop))
            .collect::<Result<Vec<_>, NestFault>>()?;
        for (&p, (one, spent)) in new.iter().zip(solved) {
            budget.spend(spent);
            self.known.insert(key(p), self.solved.len());
            self.solved.push(one);
        }
        let at: Vec<usize> = (0..all.len()).map(|p| self.known[&key(p)]).collect();
        Ok(at.into_iter().zip(all).collect())
    }

    /// The best bound found for a place, starting from these slopes; every plan met is shown to `meet`.
    pub fn relax(
        &mut self,
        place: &Place,
        start: &[i64],
        enough: i128,
        budget: &mut Budget<'_>,
        meet: &mut dyn FnMut(&[&Back]),
    ) -> Result<Option<Relaxed>, NestFault> {
        let curves: Vec<Vec<(i64, i64)>> = self
            .problem
            .charges
            .iter()
            .zip(&place.spans)
            .map(|(c, span)| corners(&c.kind, span.0, span.1))
            .collect();
        if curves.iter().any(Vec::is_empty) {
            return Ok(None);
        }
        let mut guides: Vec<Guide> = curves.iter().map(|c| Guide::new(c, self.grain)).collect();
        let mut at = start.to_vec();
        let mut best: Option<Relaxed> = None;
        let mut seen = Vec::new();
        for _ in 0..ROUNDS.0 + ROUNDS.1 * curves.len() {
            let pools = self.pools(place, &at, budget)?;
            let lines: Vec<_> = curves
                .iter()
                .zip(&at)
                .filter_map(|(c, slope)| least(c, self.grain, *slope))
                .collect();
            let mut bound: i128 = lines.iter().map(|l| l.0).sum();
            bound += pools
                .iter()
                .map(|(i, m)| m.constant + i128::from(self.solved[*i].bound))
                .sum::<i128>();
            let taken = self.taken(&pools, meet);
            if best.as_ref().is_none_or(|b| bound > b.bound) {
                best = Some(Relaxed {
                    bound,
                    slopes: at.clone(),
                    proofs: pools.iter().map(|p| p.0).collect(),
                    taken: taken.clone(),
                    seen: Vec::new(),
                });
            }
            let Some(taken) = taken else { break };
            let turned = bound < enough && !budget.over() && {
                let numbers = self
                    .problem
                    .charges
                    .iter()
                    .map(|c| number(self.problem, c, &taken));
                turn(&mut guides, &mut at, numbers.zip(lines.iter().map(|l| l.1)))
            };
            seen.push(taken);
            if !turned {
                break;
            }
        }
        Ok(best.map(|b| Relaxed { seen, ..b }))
    }

    fn taken(
        &self,
        pools: &[(usize, Moved)],
        meet: &mut dyn FnMut(&[&Back]),
    ) -> Option<Vec<Vec<i64>>> {
        let answers = pools
            .iter()
            .map(|(i, m)| Some(m.back(self.solved[*i].answer.as_ref()?)));
        let backs: Vec<Back> = answers.collect::<Option<_>>()?;
        meet(&backs.iter().collect::<Vec<_>>());
        Some(backs.into_iter().map(|b| b.taken).collect())
    }
}

fn solve_one(
    pool: &Pool,
    steps: u64,
    stop: &(dyn Fn() -> bool + Sync),
) -> Result<(Solved, u64), NestFault> {
    if let Some((bound, leaf)) = hopeless(pool) {
        let solved = Solved {
            bound,
            proof: vec![Branch::Leaf(leaf)],
            answer: None,
        };
        return Ok((solved, 1));
    }
    let mut budget = Budget { left: steps, stop };
    let answer = solve_alone(pool, &mut budget)?;
    let solved = Solved {
        bound: answer.bound,
        proof: answer.proof.clone(),
        answer: (answer.status != Status::Short).then_some(answer),
    };
    Ok((solved, steps - budget.left))
}

/// What is known of one slope: too low from here down, too high from here up.
struct Guide {
    hull: Vec<i64>,
    low: Option<i64>,
    high: Option<i64>,
    far: i64,
}

impl Guide {
    fn new(corners: &[(i64, i64)], grain: i64) -> Guide {
        let hull = slopes(corners, grain);
        let steep = hull.iter().map(|s| s.abs()).max().unwrap_or(0);
        Guide {
            far: steep.max(grain / 4).max(1),
            hull,
            low: None,
            high: None,
        }
    }

    /// The next slope to try: a slope of the hull between what is known, else half-way, else far out.
    fn next(&mut self, now: i64, up: bool) -> i64 {
        if up {
            self.low = Some(now);
            self.high = self.high.filter(|h| *h > now);
        } else {
            self.high = Some(now);
            self.low = self.low.filter(|l| *l < now);
        }
        let inside =
            |s: &&i64| self.low.is_none_or(|l| **s > l) && self.high.is_none_or(|h| **s < h);
        let mut inner = self.hull.iter().filter(inside);
        let nearest = if up { inner.next() } else { inner.next_back() };
        match (nearest, self.low, self.high) {
            (Some(slope), ..) => *slope,
            (None, Some(low), Some(high)) => low + (high - low) / 2,
            _ => {
                let by = self.far;
                self.far = self.far.saturating_mul(2).min(1 << 44);
                if up {
                    now.saturating_add(by)
                } else {
                    now.saturating_sub(by)
                }
            }
        }
    }
}

/// Moves the slope that is furthest off; false when none is.
fn turn(
    guides: &mut [Guide],
    at: &mut [i64],
    numbers: impl Iterator<Item = (i64, (i64, i64))>,
) -> bool {
    let off = |(number, (first, last)): (i64, (i64, i64))| {
        if number > last {
            number.saturating_sub(last)
        } else {
            number.saturating_sub(first).min(0)
        }
    };
    // Numbers of joints and of money are compared by their own measure: each in turn, the worst first.
    let worst = numbers.map(off).enumerate().filter(|(_, o)| *o != 0);
    let mut worst: Vec<(usize, i64)> = worst.collect();
    worst.sort_by_key(|(c, o)| (std::cmp::Reverse(o.unsigned_abs()), *c));
    for (c, off) in worst {
        let next = guides[c].next(at[c], off > 0);
        if next != at[c] && next.abs() < 1 << 44 {
            at[c] = next;
            return true;
        }
    }
    false
}
