//! Column generation: solve the master program, price, add, until nothing is missing; then refine the
//! rows of spliced lengths where rounding down and rounding up disagree, and go on.

use super::compact::compact;
use super::master::Master;
use super::pricing::{Duals, bound, price_patterns, price_splicings, refine};

/// How far to go.
#[derive(Clone, Copy, Debug)]
pub(super) struct Effort {
    /// Rounds of pricing.
    pub rounds: u32,
    /// Rounds of row refinement.
    pub refinements: u32,
    /// Rebuild the program on the rows in use when they grow many (not below a branch: right sides would
    /// be lost).
    pub compact: bool,
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

impl Converged {
    /// Keeps a bound that is better, and says what the best is.
    fn keep(&mut self, here: i64, duals: &Duals) -> i64 {
        match &self.bound {
            Some((best, _)) if *best >= here => *best,
            _ => {
                self.bound = Some((here, duals.clone()));
                here
            }
        }
    }
}

/// Counts steps and knows when to stop.
pub(super) struct Budget<'w> {
    /// Steps left.
    pub left: u64,
    /// Somebody asked to stop.
    pub stop: &'w (dyn Fn() -> bool + Sync),
    /// Some means was cut off by its share of the steps: more of them may lead further.
    pub cut: bool,
}

impl<'w> Budget<'w> {
    /// So many steps.
    pub fn new(left: u64, stop: &'w (dyn Fn() -> bool + Sync)) -> Budget<'w> {
        Budget {
            left,
            stop,
            cut: false,
        }
    }

    /// Takes steps off; true when there are none left.
    pub fn spend(&mut self, steps: u64) -> bool {
        self.left = self.left.saturating_sub(steps);
        self.cut |= self.left == 0;
        self.over()
    }

    /// No steps left, or stopped.
    pub fn over(&self) -> bool {
        self.left == 0 || (self.stop)()
    }
}

/// Sixteenths of the best duals so far mixed into the present ones while pricing (P. Wentges 1997).
const SMOOTH: i64 = 8;

/// Rows made by refinement before the program is rebuilt on those in use.
const ROWS: usize = 60;
/// Rounds of refinement without a better bound (by a ten-thousandth) before it ends.
const IDLE: u32 = 12;
const STEADY: i64 = 10_000;

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
    // Without lines every round has a bound; only columns were asked for where enough is nothing.
    let plain = master.linked.is_empty() && effort.enough > i64::MIN;
    let smooth = if !master.linked.is_empty() || (plain && master.is_large()) {
        SMOOTH
    } else {
        0
    };
    let mut parts = smooth;
    let mut most_rows = ROWS + master.rows.len();
    let mut steady = (i64::MIN, 0);
    for _ in 0..effort.rounds {
        // A program that is not large is solved to its end: only then are its duals of use.
        let large = master.is_large();
        let solved = master.lp.solve(PIVOTS, &mut |steps| {
            budget.spend(steps) && (large || (budget.stop)())
        });
        let present = Duals::of(master);
        let duals = match &done.bound {
            Some((_, best)) if parts > 0 => best.blend(&present, parts, master),
            _ => present,
        };
        let patterns = price_patterns(master, &duals);
        let splicings = price_splicings(master, &duals, budget.stop);
        let stop = budget.spend(patterns.work + splicings.work) || !solved;
        if plain {
            let here = bound(master, &duals, &patterns.least, &[]);
            let best = done.keep(here, &duals);
            if best >= effort.enough || (solved && best >= master.round_up()) {
                done.whole = true;
                break;
            }
        }
        if !stop && patterns.added + splicings.added > 0 {
            // With lines the present duals stay in use until they lack nothing either.
            if plain {
                parts = smooth;
            }
            continue;
        }
        if effort.enough == i64::MIN {
            // Only columns were asked for.
            return done;
        }
        let exact = refine(master, &duals, budget.stop);
        let rows = if refinements < effort.refinements {
            master.fill_rows()
        } else {
            0
        };
        budget.spend(exact.work);
        let here = bound(master, &duals, &patterns.least, &exact.least);
        done.keep(here, &duals);
        let nothing = exact.added + patterns.added + splicings.added + rows == 0;
        if nothing && parts > 0 && !stop {
            parts = 0;
            continue;
        }
        done.whole = nothing;
        parts = smooth;
        refinements += 1;
        let enough = done
            .bound
            .as_ref()
            .is_some_and(|(b, _)| *b >= effort.enough);
        let (mark, since) = steady;
        let best = done.bound.as_ref().map_or(i64::MIN, |b| b.0);
        steady = if best > mark.saturating_add(best / STEADY) {
            (best, 0)
        } else {
            (mark, since + 1)
        };
        let idle = steady.1 > IDLE;
        if stop || done.whole || refinements > effort.refinements || enough || idle {
            break;
        }
        if effort.compact && master.rows.len() > most_rows {
            let (smaller, best) = compact(master, done.bound.as_ref().map(|b| &b.1));
            *master = smaller;
            if let (Some(bound), Some(best)) = (&mut done.bound, best) {
                bound.1 = best;
            }
            most_rows = most_rows.max(master.rows.len() + ROWS) * 9 / 8;
        }
    }
    done
}
