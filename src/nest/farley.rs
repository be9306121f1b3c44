//! Any duals made to certify a bound: lowered by one factor until no pattern is worth more than its joint
//! (A. A. Farley 1990), what a joint is worth at most by a table over all lengths at once.
//!
//! Where a master program would have too many rows, duals come from elsewhere: good ones from a coarse
//! program, plain ones from what a length costs in the cheapest joint.

use super::converge::Budget;
use super::lattice::gcd;
use super::master::pieces_at_most;
use super::problem::Pool;
use super::proof::Leaf;

/// A leaf with what it certifies.
#[derive(Clone, Debug)]
pub(super) struct Certified {
    /// Sum of the leaf in units of 1/`dual_scale` money.
    pub sum: i128,
    /// Its duals.
    pub leaf: Leaf,
}

/// Cells of a table at most; past them lengths are rounded down to a coarser unit, which weakens the bound a
/// little.
const CELLS: i64 = 1 << 16;
/// Lowerings before the rest is paid for with negative joints.
const LOWERINGS: u32 = 4;
/// Denominator of the plain duals: money is under 2^40, so products stay far from the edge.
const SCALE: i64 = 1 << 12;

/// What each length costs in the cheapest joint: the pipe alone, as if every joint were cut up whole.
pub(super) fn by_length(pool: &Pool) -> Leaf {
    let endless = pool.stocks.iter().filter(|s| s.limit.is_none());
    let cheapest = endless
        .map(|s| (i128::from(s.cost), i128::from(s.usable + pool.kerf).max(1)))
        .min_by(|a, b| (a.0 * b.1).cmp(&(b.0 * a.1)))
        .unwrap_or((0, 1));
    let dual = |length: i64| {
        let worth = cheapest.0 * i128::from(length + pool.kerf) * i128::from(SCALE) / cheapest.1;
        i64::try_from(worth).unwrap_or(0)
    };
    Leaf {
        item_duals: pool.items.iter().map(|i| dual(i.length)).collect(),
        dual_scale: SCALE,
        ..Leaf::nothing(0)
    }
}

/// The best that these duals of a pool without spliced lines certify when lowered; `None` when the budget
/// is over before anything is.
pub(super) fn lowered(pool: &Pool, mut leaf: Leaf, budget: &mut Budget<'_>) -> Option<Certified> {
    let mut best: Option<Certified> = None;
    for _ in 0..=LOWERINGS {
        if budget.over() {
            break;
        }
        let reduced = least_reduced(pool, &leaf, budget);
        let sum = sum(pool, &leaf, &reduced);
        if best.as_ref().is_none_or(|b| sum > b.sum) {
            best = Some(Certified {
                sum,
                leaf: leaf.clone(),
            });
        }
        let scale = i128::from(leaf.dual_scale);
        let costs = pool.stocks.iter().map(|s| i128::from(s.cost) * scale);
        // Only endless joints: of the others the certificate pays for few.
        let factor = costs
            .zip(&reduced)
            .zip(&pool.stocks)
            .filter(|((_, r), stock)| **r < 0 && stock.limit.is_none())
            .map(|((cost, r), _)| (cost, cost - i128::from(*r)))
            .min_by(|a, b| (a.0 * b.1).cmp(&(b.0 * a.1)));
        let Some((by, of)) = factor else {
            break;
        };
        for dual in &mut leaf.item_duals {
            *dual = i64::try_from(i128::from(*dual) * by / of).unwrap_or(0);
        }
    }
    best
}

/// Least reduced cost of each stock, or less.
fn least_reduced(pool: &Pool, leaf: &Leaf, budget: &mut Budget<'_>) -> Vec<i64> {
    let mut tables: Vec<(u32, i64, Vec<i64>)> = Vec::new();
    let mut reduced = Vec::new();
    for stock in &pool.stocks {
        if tables.iter().all(|t| t.0 != stock.serves) {
            let (cell, table) = table(pool, leaf, stock.serves, budget);
            tables.push((stock.serves, cell, table));
        }
        let own = tables.iter().find(|t| t.0 == stock.serves);
        let worth = own.map_or(0, |(_, cell, table)| {
            let at = usize::try_from((stock.usable + pool.kerf) / cell).unwrap_or(0);
            table.get(at).copied().unwrap_or(0)
        });
        reduced.push(stock.cost * leaf.dual_scale - worth);
    }
    reduced
}

/// What a joint with so many cells of room is worth at most, the credit of its drop included; cells of the
/// greatest length that divides every weight, where they are not too many.
fn table(pool: &Pool, leaf: &Leaf, serves: u32, budget: &mut Budget<'_>) -> (i64, Vec<i64>) {
    let alike = pool.stocks.iter().filter(|s| s.serves == serves);
    let room = alike.map(|s| s.usable).max().unwrap_or(0) + pool.kerf;
    let items = pool.items.iter().zip(&leaf.item_duals);
    let items: Vec<(i64, i64, u32)> = items
        .filter(|(i, dual)| i.count > 0 && **dual > 0 && serves >> i.class & 1 == 1)
        .map(|(i, dual)| (i.length + pool.kerf, *dual, i.count))
        .filter(|i| i.0 <= room)
        .collect();
    let common = items.iter().fold(0, |unit, i| gcd(unit, i.0)).max(1);
    let cell = if room / common < CELLS {
        common
    } else {
        room / CELLS + 1
    };
    let drop = |c: i64| {
        let left = c * cell + cell - 1 - pool.kerf;
        pool.credit.of(left.max(0)) * leaf.dual_scale
    };
    let mut best: Vec<i64> = (0..=room / cell).map(drop).collect();
    for (weight, dual, count) in items {
        let step = usize::try_from(weight / cell).unwrap_or(usize::MAX);
        let most = i64::from(count).min(room / weight);
        if step == 0 {
            best.iter_mut().for_each(|b| *b += dual * most);
        } else if most <= FEW {
            for _ in 0..most {
                for c in (step..best.len()).rev() {
                    best[c] = best[c].max(best[c - step] + dual);
                }
            }
        } else {
            for c in step..best.len() {
                best[c] = best[c].max(best[c - step] + dual);
            }
        }
        budget.spend(best.len() as u64 * 2);
    }
    (cell, best)
}

/// Counts up to this are kept to; more are taken as endless.
const FEW: i64 = 2;

/// DESIGN §9 without groups and branches: Σ πᵢnᵢ + Σₛ Nₛ·min(0, rₛ).
fn sum(pool: &Pool, leaf: &Leaf, reduced: &[i64]) -> i128 {
    let items = pool.items.iter().zip(&leaf.item_duals);
    let worth: i128 = items
        .map(|(i, dual)| i128::from(*dual) * i128::from(i.count))
        .sum();
    let all = pieces_at_most(pool);
    let joints = pool.stocks.iter().zip(reduced).map(|(stock, r)| {
        let most = stock.limit.map_or(all, |l| i64::from(l).min(all));
        i128::from((*r).min(0)) * i128::from(most)
    });
    worth + joints.sum::<i128>()
}
