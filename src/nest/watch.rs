//! Looking on while a problem is solved: stop requests in, progress out, answers known already in and out.

use super::answer::PoolAnswer;
use super::problem::{Limits, Pool};

/// Somebody who may stop the search and wants to hear how it goes. Called from several threads.
pub trait Watch: Sync {
    /// True when the search should end with the best it has.
    fn stop_requested(&self) -> bool {
        false
    }
    /// Called now and then with a pool's certified bound, its best cost and the steps done.
    fn progress(&self, _pool: &str, _bound: i64, _best: Option<i64>, _steps: u64) {}
    /// The answer to this very pool under these limits, charges aside, where it is known already.
    fn known(&self, _pool: &Pool, _limits: &Limits) -> Option<PoolAnswer> {
        None
    }
    /// Told each answer that no stop request cut short.
    fn learn(&self, _pool: &Pool, _limits: &Limits, _answer: &PoolAnswer) {}
}

/// Nobody is looking.
#[derive(Clone, Copy, Debug, Default)]
pub struct NoWatch;

impl Watch for NoWatch {}
