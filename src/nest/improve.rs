//! One pool bettered: root bound by column generation, dives, the restricted integer master, a tree on
//! counts, a closing search in its leaves; each only while something is left to gain.

use std::collections::BTreeMap;

use super::answer::{Configuration, Cut, PoolAnswer, Status, StopReason};
use super::closing::{Reach, close};
use super::compact::compact;
use super::converge::{Budget, Converged, Effort, converge};
use super::cutting::{is_plain, is_tight, pack};
use super::dive::{Dive, dive};
use super::forest::close_forest;
use super::integer_master::whole_master;
use super::longest_first::naive_splices;
use super::master::{Master, Sort};
use super::parting::{close_parts, is_small};
use super::pricing::Duals;
use super::problem::Pool;
use super::proof::Branch;
use super::tie::is_taken;
use super::tree::{Grown, grow};

/// Betters a pool's first answer in place, bound and plan.
pub(super) fn improve(pool: &Pool, answer: &mut PoolAnswer, budget: &mut Budget<'_>) {
    let spare = naive_splices(pool, false, budget.stop);
    let mut master = begin(pool, answer, &spare);
    // Where the sum of lengths nearly says how many joints, the search for plain cutting brings its own root.
    let tight = master.is_large() && is_plain(pool) && is_tight(pool, answer);
    if tight && within(budget, 2, |part| pack(pool, answer, &master, part)) {
        answer.status = Status::ProvedBySearch;
        return;
    }
    root(&mut master, answer, budget);
    (master, _) = compact(&master, None);
    converge(&mut master, LEAN, budget);
    let mut search = Search {
        spare: &spare,
        answer,
        budget,
        met: Vec::new(),
    };
    search.go(pool, &master);
    let Search { answer, budget, .. } = search;
    end(answer, budget);
}

/// Writes down why the search ends.
pub(super) fn end(answer: &mut PoolAnswer, budget: &Budget<'_>) {
    answer.stop = if (budget.stop)() {
        StopReason::Interrupted
    } else if budget.cut {
        StopReason::WorkBudget
    } else {
        StopReason::Exhausted
    };
}

/// A first answer's bound by column generation, and nothing more.
pub(super) fn bounded(pool: &Pool, answer: &mut PoolAnswer, budget: &mut Budget<'_>) {
    let spare = naive_splices(pool, false, budget.stop);
    let mut master = begin(pool, answer, &spare);
    root(&mut master, answer, budget);
}

/// The bound of the whole by column generation. It may take half of the steps, so that some are left for
/// plans.
fn root(master: &mut Master<'_>, answer: &mut PoolAnswer, budget: &mut Budget<'_>) {
    let known = answer.status != Status::Short;
    let effort = Effort {
        rounds: 100_000,
        refinements: 400,
        compact: true,
        enough: if known { answer.cost } else { i64::MAX },
    };
    let root: Converged = first_part(master.pool, budget, 2, |part| {
        if master.shake(true) {
            converge(master, effort, part);
            master.shake(false);
        }
        converge(master, effort, part)
    });
    if let Some((bound, duals)) = &root.bound {
        certify(master, answer, *bound, duals);
    }
}

/// What betters an answer once its root is bounded.
struct Search<'s, 'b> {
    spare: &'s [Configuration],
    answer: &'s mut PoolAnswer,
    budget: &'s mut Budget<'b>,
    /// Columns that dives made.
    met: Vec<Sort>,
}

impl Search<'_, '_> {
    fn go(&mut self, pool: &Pool, master: &Master<'_>) {
        if is_plain(pool) && !self.over() {
            let answer = &mut *self.answer;
            if within(self.budget, 2, |part| pack(pool, answer, master, part)) {
                self.answer.status = Status::ProvedBySearch;
                return;
            }
        }
        let (answer, spare) = (&mut *self.answer, self.spare);
        if within(self.budget, 2, |part| {
            close_forest(pool, answer, spare, part)
        }) {
            self.answer.status = Status::ProvedBySearch;
            self.grow(pool, master, 4);
            return;
        }
        for how in &DIVES {
            self.dive(master, *how);
        }
        self.whole_master(master);
        if self.over() {
            return;
        }
        let tree = self.grow(pool, master, 1);
        self.whole_master(&tree.program);
        if self.over() {
            return;
        }
        let (answer, spare) = (&mut *self.answer, self.spare);
        if first_part(pool, self.budget, 2, |part| {
            close(pool, answer, spare, REACH, part)
        }) {
            self.answer.status = Status::ProvedBySearch;
            return;
        }
        let mut idle = 0;
        for depth in 3..MOST_DISCREPANCIES {
            let how = Dive {
                skip_at: Some(depth),
                splicings_first: depth % 2 == 0,
                rounds: ROUNDS,
            };
            idle = if self.dive(master, how) { 0 } else { idle + 1 };
            if idle > IDLE {
                break;
            }
        }
        if !master.is_large() && !self.over() && close_parts(pool, self.answer, self.budget) {
            self.answer.status = Status::ProvedBySearch;
        }
    }

    /// A tree on counts with one `part`-th of the steps left: its bound is certified.
    fn grow<'m>(&mut self, pool: &Pool, master: &Master<'m>, part: u64) -> Grown<'m> {
        let (answer, spare, met) = (&mut *self.answer, self.spare, &mut self.met);
        let tree = first_part(pool, self.budget, part, |part| {
            grow(master, answer, (DIVES[0], spare, met), part)
        });
        if tree.bound > self.answer.bound {
            self.answer.bound = tree.bound;
            self.answer.proof = tree.proof.clone();
        }
        tree
    }

    /// Closed, or no steps left.
    fn over(&self) -> bool {
        let known = self.answer.status != Status::Short;
        (known && self.answer.bound >= self.answer.cost) || self.budget.over()
    }

    /// True when the answer took the place of a dearer one.
    fn take(&mut self, pool: &Pool, found: Option<PoolAnswer>) -> bool {
        match found {
            Some(found) if is_taken(pool, &found, self.answer) => {
                let known = self.answer.status != Status::Short;
                let cheaper = !known || found.cost < self.answer.cost;
                replace(self.answer, found);
                cheaper
            }
            _ => false,
        }
    }

    fn dive(&mut self, master: &Master<'_>, how: Dive) -> bool {
        if self.over() {
            return false;
        }
        let rounds = if master.linked.is_empty() {
            ROUNDS
        } else {
            FEW_ROUNDS
        };
        let how = Dive { rounds, ..how };
        let found = dive(master, how, (self.spare, &mut self.met), self.budget);
        self.take(master.pool, found)
    }

    fn whole_master(&mut self, master: &Master<'_>) {
        if !self.over() {
            let known = (self.answer.status != Status::Short).then_some(self.answer.cost);
            let found = whole_master(master, &self.met, known, self.spare, self.budget);
            self.take(master.pool, found);
        }
    }
}

/// Does something with one `part`-th of the steps left.
pub(super) fn within<T>(
    budget: &mut Budget<'_>,
    part: u64,
    work: impl FnOnce(&mut Budget<'_>) -> T,
) -> T {
    let given = budget.left / part;
    let mut own = Budget::new(given, budget.stop);
    let done = work(&mut own);
    budget.spend(given - own.left);
    budget.cut |= own.cut;
    done
}

/// Does something with one `part`-th of the steps left; with [`FIRST_STEPS`] at most in a pool whose parts are
/// searched after.
fn first_part<T>(
    pool: &Pool,
    budget: &mut Budget<'_>,
    part: u64,
    work: impl FnOnce(&mut Budget<'_>) -> T,
) -> T {
    let most = if is_small(pool) && !pool.groups.is_empty() {
        FIRST_STEPS
    } else {
        u64::MAX
    };
    let part = (budget.left / most).max(part);
    within(budget, part, work)
}

/// Steps after which a small pool with splices goes on to its parts.
const FIRST_STEPS: u64 = 800_000_000;

/// A better whole answer takes the place of the patterns and configurations; bound and duals stay, and so does
/// what is proved of its money where it costs the same.
pub(super) fn replace(answer: &mut PoolAnswer, better: PoolAnswer) {
    let same = answer.status.has_plan() && answer.cost == better.cost;
    answer.patterns = better.patterns;
    answer.configurations = better.configurations;
    answer.cost = better.cost;
    answer.short.clear();
    answer.short_groups.clear();
    if !same {
        answer.status = Status::Within;
    }
}

/// The program as it stands, columns only.
const LEAN: Effort = Effort {
    rounds: 1000,
    refinements: 0,
    compact: false,
    enough: i64::MAX,
};

/// How much the closing search may look at.
const REACH: Reach = Reach {
    whole: (250_000, 3_000),
    part: (50_000, 300),
    rounds: 40,
};

/// Dives with one second choice each, as long as steps are left and not so many on end were in vain.
const IDLE: u32 = 6;
const MOST_DISCREPANCIES: u32 = 40;

/// Rounds of pricing after each fixing of a dive; fewer where lines are spliced and pricing is dear.
const ROUNDS: u32 = 4;
const FEW_ROUNDS: u32 = 2;

/// The dives tried, in order.
const DIVES: [Dive; 4] = [
    Dive {
        skip_at: None,
        splicings_first: false,
        rounds: ROUNDS,
    },
    Dive {
        skip_at: None,
        splicings_first: true,
        rounds: ROUNDS,
    },
    Dive {
        skip_at: Some(1),
        splicings_first: false,
        rounds: ROUNDS,
    },
    Dive {
        skip_at: Some(2),
        splicings_first: true,
        rounds: ROUNDS,
    },
];

/// A master program holding the first answer and some splicings to start from.
pub(super) fn begin<'a>(
    pool: &'a Pool,
    answer: &PoolAnswer,
    spare: &[Configuration],
) -> Master<'a> {
    let mut master = Master::new(pool);
    master.add_configurations(spare);
    master.add_configurations(&answer.configurations);
    let items: BTreeMap<usize, usize> = master
        .rows
        .iter()
        .enumerate()
        .filter_map(|(r, row)| Some((row.item?, r)))
        .collect();
    for pattern in &answer.patterns {
        let mut cuts: BTreeMap<usize, u32> = BTreeMap::new();
        for cut in &pattern.cuts {
            let row = match *cut {
                Cut::Item(i) => items[&i],
                Cut::Piece { length, class } => master.piece_row(class, length),
            };
            *cuts.entry(row).or_insert(0) += 1;
        }
        master.add_pattern(pattern.stock, cuts.into_iter().collect());
    }
    master
}

/// Writes the bound and its duals into the answer. Duals that give no more than it has (a search stopped
/// before they were any good) are left out: the first answer's zero duals certify 0 by themselves.
fn certify(master: &Master<'_>, answer: &mut PoolAnswer, bound: i64, duals: &Duals) {
    if bound > answer.bound {
        answer.bound = bound;
        answer.proof = vec![Branch::Leaf(duals.leaf(master))];
    }
}
