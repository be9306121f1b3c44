//! How many joints at least: the first program, joints added one by one until it may hold everything.

use super::super::answer::PoolAnswer;
use super::super::converge::Budget;
use super::super::problem::Pool;
use super::super::proof::{Branch, Leaf};
use super::lot::{Cuts, Lot};
use super::program::{Handed, Program, SCALE, Verdict};

/// The fewest joints that the program allows, with its columns; the bound goes into the answer with the duals
/// that say so. `None` when steps ran out.
pub(super) fn root(
    pool: &Pool,
    answer: &mut PoolAnswer,
    columns: Vec<Cuts>,
    budget: &mut Budget<'_>,
) -> Option<(i64, Handed)> {
    let mut handed = Handed {
        columns,
        ..Handed::default()
    };
    let mut table = Vec::new();
    let cost = pool.stocks[0].cost;
    let whole = Lot::new(pool, 0);
    certify(pool, answer, &whole, whole.shares());
    let mut bins = joints(answer.bound, cost);
    while bins * cost < answer.cost {
        let lot = Lot::new(pool, bins);
        if lot.waste() < 0 {
            bins += 1;
            continue;
        }
        let mut program = Program::new(&lot, &handed, false);
        program.start(&handed.loose, budget);
        match program.decide(&mut table, budget) {
            Verdict::Broken(_) => return Some((bins, program.handed())),
            Verdict::Unknown => return None,
            Verdict::Empty => {
                let values = program.certificate(&mut table, budget);
                handed = program.handed();
                certify(pool, answer, &lot, values);
                // The verdict holds for so many joints only: more of them may waste more.
                bins = (bins + 1).max(joints(answer.bound, cost));
            }
        }
    }
    Some((bins, handed))
}

/// Joints that a bound comes to.
fn joints(bound: i64, cost: i64) -> i64 {
    bound.div_euclid(cost) + i64::from(bound % cost != 0)
}

/// Values of which no joint holds more than `SCALE` become the answer's duals if they bound it better.
fn certify(pool: &Pool, answer: &mut PoolAnswer, lot: &Lot, values: Vec<i64>) {
    let cost = pool.stocks[0].cost;
    let mut leaf = Leaf::nothing(pool.items.len());
    leaf.dual_scale = SCALE;
    let mut sum = 0i128;
    let mut pay = |item: u32, value: i64| {
        leaf.item_duals[item as usize] = value * cost;
        sum += i128::from(value);
    };
    for (kind, value) in lot.kinds.iter().zip(values) {
        for &item in kind.units.iter().flatten() {
            pay(item, value);
        }
    }
    for &item in lot.done.iter().flatten() {
        pay(item, SCALE);
    }
    let joints = (sum + i128::from(SCALE) - 1) / i128::from(SCALE);
    let bound = i64::try_from(joints).unwrap_or(0).saturating_mul(cost);
    if bound > answer.bound {
        answer.bound = bound;
        answer.proof = vec![Branch::Leaf(leaf)];
    }
}
