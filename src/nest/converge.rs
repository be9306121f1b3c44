//! Column generation: solve the master program, price, add, until nothing is missing; then refine the
//! rows of spliced lengths where rounding down and rounding up disagree, and go on.

use super::master::Master;
use super::pricing::{Duals, bound, price_patterns, price_splicings, refine};

/// How far to go.
#[derive(Clone, Copy, Debug)]
pub(super) struct Effort {
    /// Rounds of pricing.
    pub rounds: u32,
    /// Rounds of row refinement.
    pub refinements: u32,
    /// Stop when the bound reaches this.
    pub enough: i64,
}

/// Where it ended.
#[derive(Clone, Debug)]
pub(super) struct Converged {
    /// Best certified bound and its duals; `None` when no round was complete.
    pub bound: Option<(i64, Duals)>,
    /// No column and no row is missing.
    pub whole: bool,
}

/// Counts steps and knows when to stop.
pub(super) struct Budget<'w> {
    /// Steps left.
    pub left: u64,
    /// Somebody asked to stop.
    pub stop: &'w (dyn Fn() -> bool + Sync),
}

impl Budget<'_> {
    /// Takes steps off; true when there are none left.
    pub fn spend(&mut self, steps: u64) -> bool {
        self.left = self.left.saturating_sub(steps);
        self.over()
    }

    /// No steps left, or stopped.
    pub fn over(&self) -> bool {
        self.left == 0 || (self.stop)()
    }
}

/// Pivots allowed in one solve of the program.
const PIVOTS: u32 = 20_000;

/// Generates columns until nothing is missing or the effort is spent.
pub(super) fn converge(
    master: &mut Master<'_>,
    effort: Effort,
    budget: &mut Budget<'_>,
) -> Converged {
    let mut done = Converged {
        bound: None,
        whole: false,
    };
    let mut refinements = 0;
    for _ in 0..effort.rounds {
        let before = master.lp.work;
        let solved = master.lp.solve(PIVOTS);
        let duals = Duals::of(master);
        let patterns = price_patterns(master, &duals);
        let splicings = price_splicings(master, &duals);
        let spent = (master.lp.work - before) + patterns.work + splicings.work;
        let stop = budget.spend(spent) || !solved;
        if !stop && patterns.added + splicings.added > 0 {
            continue;
        }
        let exact = refine(master, &duals, false);
        budget.spend(exact.work);
        let here = bound(master, &duals, &patterns.least, &exact.least);
        if done.bound.as_ref().is_none_or(|(b, _)| here > *b) {
            done.bound = Some((here, duals));
        }
        done.whole = exact.added == 0 && patterns.added + splicings.added == 0;
        refinements += 1;
        if stop || done.whole || refinements > effort.refinements || here >= effort.enough {
            break;
        }
    }
    done
}
