//! Tells what cannot be from what was not found. A search that ends without a plan says "never" only where
//! that is proved: an item or a group that no stock holds, more length than all stock, or every way of filling
//! the joints tried.

use super::answer::{Answer, Status};
use super::charges::hopeless;
use super::couple::Coupling;
use super::longest_first::{any_splices, longest_piece};
use super::problem::{Pool, Problem};
use super::reach::{Reach, fill};

/// Pools without a plan are short where none can be, else none was found; so is the whole.
pub(super) fn tell_apart(problem: &Problem, mut answer: Answer, stop: &dyn Fn() -> bool) -> Answer {
    for (pool, own) in problem.pools.iter().zip(&mut answer.pools) {
        if own.status == Status::Short && !is_never(pool, stop) {
            own.status = Status::NoneFound;
        }
    }
    let never = answer.pools.iter().any(|p| p.status == Status::Short);
    if let Some(whole) = answer.whole.as_mut().filter(|w| !w.status.has_plan())
        && never
    {
        whole.status = Status::Short;
    }
    answer
}

/// Whether it is proved that a pool by itself has no plan.
fn is_never(pool: &Pool, stop: &dyn Fn() -> bool) -> bool {
    let impossible = |longest: i64, group| {
        let found = any_splices(pool, group, longest, stop);
        matches!(found, Coupling::Impossible { .. })
    };
    let mut groups = pool.groups.iter().filter(|g| g.count > 0);
    hopeless(pool, stop).is_some()
        || groups.any(|g| impossible(longest_piece(pool, g.class, false), g))
        || (pool.groups.iter().all(|g| g.count == 0) && fill(pool, stop) == Reach::NotAll)
}
