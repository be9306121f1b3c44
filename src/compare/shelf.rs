//! Answers to pools, kept while a week is compared: a variant that changes one pipe leaves the others'
//! pools as they were, and an answer hangs on nothing but its pool and the limits.
//!
//! Two threads may still solve one pool at a time; both find the same answer, so no one need wait.

use std::sync::{Mutex, PoisonError};

use crate::nest::{Limits, Pool, PoolAnswer, Watch};

struct Kept {
    pool: Pool,
    work: u64,
    answer: PoolAnswer,
}

/// Somebody looking on who remembers answers.
pub struct Shelf<'a> {
    watch: &'a dyn Watch,
    kept: Mutex<Vec<Kept>>,
}

impl<'a> Shelf<'a> {
    /// An empty shelf; all else is asked of and told to `watch`.
    pub fn new(watch: &'a dyn Watch) -> Shelf<'a> {
        Shelf {
            watch,
            kept: Mutex::new(Vec::new()),
        }
    }
}

impl Watch for Shelf<'_> {
    fn stop_requested(&self) -> bool {
        self.watch.stop_requested()
    }

    fn progress(&self, pool: &str, bound: i64, best: Option<i64>, steps: u64) {
        self.watch.progress(pool, bound, best, steps);
    }

    fn known(&self, pool: &Pool, limits: &Limits) -> Option<PoolAnswer> {
        // A thread that panicked left whole entries: they are pushed in one step.
        let kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        let same = |k: &&Kept| k.work == limits.work && k.pool == *pool;
        kept.iter().find(same).map(|k| k.answer.clone())
    }

    fn learn(&self, pool: &Pool, limits: &Limits, answer: &PoolAnswer) {
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        kept.push(Kept {
            pool: pool.clone(),
            work: limits.work,
            answer: answer.clone(),
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::nest::{Credit, NoWatch, Problem, solve};

    #[test]
    fn an_answer_is_known_for_its_very_pool_and_limits() {
        let shelf = Shelf::new(&NoWatch);
        let pool = Pool {
            name: "H".to_owned(),
            mark: 1,
            kerf: 1,
            credit: Credit {
                keep: 10,
                foot: 10,
                per_foot: 0,
            },
            stocks: Vec::new(),
            items: Vec::new(),
            groups: Vec::new(),
        };
        let limits = Limits {
            work: 7,
            time: None,
        };
        let problem = Problem {
            aim: Default::default(),
            pools: vec![pool.clone()],
            charges: Vec::new(),
        };
        let first = solve(&problem, &limits, &shelf).expect("nothing to cut");
        assert_eq!(shelf.known(&pool, &limits).as_ref(), first.pools.first());
        let other = Pool { kerf: 2, ..pool };
        assert_eq!(shelf.known(&other, &limits), None);
        let more = Limits { work: 8, ..limits };
        assert_eq!(shelf.known(&problem.pools[0], &more), None);
    }
}
