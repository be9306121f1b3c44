//! The bound of one place: each charge replaced by a line under it, each pool solved by itself.
//!
//! The bound is concave in the slopes. What the pools' plans take at given slopes, beside the numbers
//! where a charge touches its line, says which way a slope should go: first along the slopes of the charge's
//! own hull, between two of them by halving.

use std::collections::BTreeMap;

use rayon::prelude::*;

use super::super::answer::{PoolAnswer, Status};
use super::super::bound::money_step;
use super::super::charge::{Charge, StockOf};
use super::super::converge::Budget;
use super::super::fault::NestFault;
use super::super::problem::{Pool, Problem};
use super::super::proof::{Branch, Counted, Multiplier};
use super::super::solve::solve_alone;
use super::curve::{corners, least, slopes};
use super::hopeless::hopeless;
use super::moved::{Back, Layout, Moved, moved};
use super::place::{Place, number};
use super::split::jumps;

/// A moved pool as solved.
#[derive(Clone, Debug)]
struct Solved {
    bound: i64,
    proof: Vec<Branch>,
    answer: Option<PoolAnswer>,
    /// A search of it was cut off by its steps.
    cut: bool,
}

/// What a pool was moved to: its stocks' costs and limits; and the steps it was given.
type Key = (usize, Vec<(i64, Option<u32>)>, u64);

/// Solves moved pools, each only once.
pub(super) struct Solver<'a> {
    pub problem: &'a Problem,
    pub grain: i64,
    /// Steps a moved pool may take while slopes are sought, and at the slopes found.
    pub each: (u64, u64),
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
    /// What each pool came to at these slopes.
    parts: Vec<Part>,
    /// What the pools' plans take at these slopes; `None` when one has no plan.
    pub taken: Option<Vec<Vec<i64>>>,
    /// What other slopes near them took.
    pub seen: Vec<Vec<Vec<i64>>>,
}

/// What a moved pool came to.
#[derive(Clone, Debug)]
struct Part {
    /// Lower bound × grain, the money beside it included.
    bound: i128,
    layout: Layout,
    /// What all its costs are a multiple of.
    step: i64,
}

/// Rounds of moving slopes, and more per charge.
const ROUNDS: (usize, usize) = (3, 3);

impl<'a> Solver<'a> {
    pub fn new(problem: &'a Problem, grain: i64, each: (u64, u64)) -> Solver<'a> {
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
        (slopes, steps): (&[i64], u64),
        budget: &mut Budget<'_>,
    ) -> Result<Vec<(usize, Moved)>, NestFault> {
        let all: Vec<Moved> = (0..self.problem.pools.len())
            .map(|p| moved(self.problem, p, place, (slopes, self.grain)))
            .collect();
        let key = |p: usize| -> Key {
            let stocks = all[p].pool.stocks.iter();
            (p, stocks.map(|s| (s.cost, s.limit)).collect(), steps)
        };
        let new: Vec<usize> = (0..all.len())
            .filter(|&p| !self.known.contains_key(&key(p)))
            .collect();
        let most = steps.min(budget.left);
        let stop = budget.stop;
        let solved = new
            .par_iter()
            .map(|&p| solve_one(&all[p].pool, most, stop))
            .collect::<Result<Vec<_>, NestFault>>()?;
        for (&p, (one, spent)) in new.iter().zip(solved) {
            budget.spend(spent);
            budget.cut |= one.cut;
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
        parent: Option<&Relaxed>,
        enough: i128,
        budget: &mut Budget<'_>,
        meet: &mut dyn FnMut(&[&Back]),
    ) -> Result<Option<Relaxed>, NestFault> {
        let charges = &self.problem.charges;
        let curves: Vec<Vec<(i64, i64)>> = charges
            .iter()
            .zip(&place.spans)
            .map(|(c, span)| corners(&c.kind, span.0, span.1))
            .collect();
        if curves.iter().any(Vec::is_empty) {
            return Ok(None);
        }
        let open = |(c, span): (&Charge, &(i64, i64))| jumps(&c.kind) && span.0 == 0 && span.1 > 0;
        let open = charges.iter().zip(&place.spans).any(open);
        let rounds = if open { 0 } else { ROUNDS.1 * curves.len() } + ROUNDS.0;
        let mut guides: Vec<Guide> = charges
            .iter()
            .zip(&curves)
            .map(|(c, curve)| Guide::new(curve, self.grain, self.measure(c)))
            .collect();
        let mut at = parent.map_or_else(|| vec![0; charges.len()], |p| p.slopes.clone());
        let (quick, long) = self.each;
        let mut best: Option<Relaxed> = None;
        let mut seen = Vec::new();
        for _ in 0..rounds {
            let mut here = self.at(place, &curves, (&at, quick), budget, meet)?;
            self.inherit(&mut here, parent);
            let turned = match &here.taken {
                Some(taken) if here.bound < enough && !budget.over() => {
                    seen.push(taken.clone());
                    self.turn(&curves, &mut guides, &mut at, taken)
                }
                _ => false,
            };
            if best.as_ref().is_none_or(|b| here.bound > b.bound) {
                best = Some(here);
            }
            if !turned {
                break;
            }
        }
        let Some(mut best) = best else {
            return Ok(None);
        };
        if best.bound < enough && !budget.over() {
            let slopes = best.slopes.clone();
            let mut here = self.at(place, &curves, (&slopes, long), budget, meet)?;
            self.inherit(&mut here, parent);
            seen.extend(here.taken.clone());
            if here.bound >= best.bound {
                best = here;
            }
        }
        best.seen = seen;
        Ok(Some(best))
    }

    /// The bound at given slopes.
    fn at(
        &mut self,
        place: &Place,
        curves: &[Vec<(i64, i64)>],
        (slopes, steps): (&[i64], u64),
        budget: &mut Budget<'_>,
        meet: &mut dyn FnMut(&[&Back]),
    ) -> Result<Relaxed, NestFault> {
        let pools = self.pools(place, (slopes, steps), budget)?;
        let lines = curves.iter().zip(slopes);
        let lines = lines.filter_map(|(c, slope)| least(c, self.grain, *slope));
        let mut bound: i128 = lines.map(|l| l.0).sum();
        let parts: Vec<Part> = pools
            .iter()
            .map(|(i, m)| Part {
                bound: m.constant + i128::from(self.solved[*i].bound),
                layout: m.origin.clone(),
                step: money_step(&m.pool),
            })
            .collect();
        bound += parts.iter().map(|p| p.bound).sum::<i128>();
        Ok(Relaxed {
            bound,
            slopes: slopes.to_vec(),
            proofs: pools.iter().map(|p| p.0).collect(),
            parts,
            taken: self.taken(&pools, meet),
            seen: Vec::new(),
        })
    }

    /// At the same slopes a pool's proof gives no less in a smaller place, where its stocks stand as before;
    /// when it names no stock, also where more joints are asked for: each of them pays at least what the
    /// duals lack in one. What costs are multiples of must then be the same: the proof's sum is rounded up to it.
    fn inherit(&self, here: &mut Relaxed, parent: Option<&Relaxed>) {
        let Some(parent) = parent.filter(|p| p.slopes == here.slopes) else {
            return;
        };
        for (p, own) in here.parts.iter_mut().enumerate() {
            let old = &parent.parts[p];
            let holds = own.layout == old.layout
                || own.step == old.step && names_no_stock(self.proof(parent.proofs[p]));
            if old.bound > own.bound && holds {
                here.bound += old.bound - own.bound;
                own.bound = old.bound;
                here.proofs[p] = parent.proofs[p];
            }
        }
    }

    /// What one of a charge's numbers is worth, so that joints and money can be compared: the mean price
    /// of its stocks.
    fn measure(&self, charge: &Charge) -> i64 {
        if charge.kind.counts_prices() {
            return 1;
        }
        let price = |at: &StockOf| self.problem.pools[at.pool].stocks[at.stock].price();
        let all: i128 = charge.over.iter().map(|at| i128::from(price(at))).sum();
        let mean = all / (charge.over.len().max(1) as i128);
        i64::try_from(mean).unwrap_or(i64::MAX).max(1)
    }

    /// Moves the slope that is furthest off at what the plans take; false when none is.
    fn turn(
        &self,
        curves: &[Vec<(i64, i64)>],
        guides: &mut [Guide],
        at: &mut [i64],
        taken: &[Vec<i64>],
    ) -> bool {
        let mut worst: Vec<(i128, usize, bool)> = Vec::new();
        for (c, charge) in self.problem.charges.iter().enumerate() {
            let Some((_, (first, last))) = least(&curves[c], self.grain, at[c]) else {
                continue;
            };
            let number = number(self.problem, charge, taken);
            let off = (i128::from(number) - i128::from(last)).max(0)
                + (i128::from(first) - i128::from(number)).max(0);
            if off > 0 {
                worst.push((off * i128::from(guides[c].measure), c, number > last));
            }
        }
        worst.sort_by_key(|(off, c, _)| (std::cmp::Reverse(*off), *c));
        for (_, c, up) in worst {
            let next = guides[c].next(at[c], up);
            if next != at[c] && next.abs() < 1 << 44 {
                at[c] = next;
                return true;
            }
        }
        false
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

/// A proof of one leaf whose multipliers count no joints.
fn names_no_stock(proof: &[Branch]) -> bool {
    let counts_joints = |m: &Multiplier| matches!(m.counted, Counted::Joints(_));
    matches!(proof, [Branch::Leaf(leaf)] if !leaf.multipliers.iter().any(counts_joints))
}

fn solve_one(
    pool: &Pool,
    steps: u64,
    stop: &(dyn Fn() -> bool + Sync),
) -> Result<(Solved, u64), NestFault> {
    if let Some((bound, leaf)) = hopeless(pool, stop) {
        let solved = Solved {
            bound,
            proof: vec![Branch::Leaf(leaf)],
            answer: None,
            cut: false,
        };
        return Ok((solved, 1));
    }
    let mut budget = Budget::new(steps, stop);
    let answer = solve_alone(pool, &mut budget)?;
    let solved = Solved {
        bound: answer.bound,
        proof: answer.proof.clone(),
        answer: (answer.status != Status::Short).then_some(answer),
        cut: budget.cut,
    };
    Ok((solved, steps - budget.left))
}

/// What is known of one slope: too low from here down, too high from here up.
struct Guide {
    hull: Vec<i64>,
    low: Option<i64>,
    high: Option<i64>,
    far: i64,
    /// Money that one of the charge's number is worth.
    measure: i64,
}

impl Guide {
    fn new(corners: &[(i64, i64)], grain: i64, measure: i64) -> Guide {
        let hull = slopes(corners, grain);
        let steep = hull.iter().map(|s| s.abs()).max().unwrap_or(0);
        Guide {
            far: steep.max(grain / 4).max(1),
            hull,
            low: None,
            high: None,
            measure,
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
