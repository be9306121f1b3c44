//! The search of a plan: first what takes no search, which says whether the stock reaches; then the best that the
//! search finds in its time. A search that is stopped leaves the better of both.

use std::collections::BTreeSet;

use super::clock::Clock;
use super::due_order::{Unit, in_due_order};
use super::make::PlanOptions;
use super::offered::{Offered, offer};
use super::problem::{Work, problem};
use super::short::short;
use super::still::still_of;
use super::tail::{TailJoint, tail};
use crate::nest::{Limits, PoolAnswer, Status, StopReason, Watch, Whole, solve, take_offer};
use crate::order::{Impossible, PipeId, Week};
use crate::part::TakeOff;
use crate::splice::SpliceSet;
use crate::stock::{PoolSource, pools_of};

/// What an attempt may use.
#[derive(Clone, Copy)]
struct Means<'a> {
    limits: &'a Limits,
    watch: &'a dyn Watch,
    offers: &'a [Offered<'a>],
    tail: &'a [TailJoint],
}

/// What is planned: chosen parts and sets, the problem and its answers.
pub(super) struct Solved {
    pub parts: Vec<usize>,
    pub sets: Vec<SpliceSet>,
    pub pools: Vec<PoolSource>,
    pub work: Work,
    pub answers: Vec<PoolAnswer>,
    pub whole: Option<Whole>,
    pub taken_from: Option<String>,
}

impl Solved {
    /// No way was found of something, and none is ruled out.
    fn none_found(&self) -> bool {
        let pools = self.answers.iter().map(|a| a.status);
        let mut all = pools.chain(self.whole.iter().map(|w| w.status));
        all.any(|status| status == Status::NoneFound)
    }

    /// What it costs, in the nest room's money.
    fn cost(&self) -> i64 {
        let pools = || self.answers.iter().map(|a| a.cost).sum();
        self.whole.as_ref().map_or_else(pools, |w| w.cost)
    }

    /// Ended with this plan before the search was at its end.
    fn stopped(mut self) -> Solved {
        let open = |stop: &StopReason| *stop != StopReason::Closed;
        let pools = self.answers.iter_mut().map(|a| &mut a.stop);
        let all = pools.chain(self.whole.iter_mut().map(|w| &mut w.stop));
        all.filter(|stop| open(stop))
            .for_each(|stop| *stop = StopReason::Interrupted);
        self
    }

    /// What the stock does not reach for.
    fn short(&self, week: &Week, take_off: &TakeOff) -> Vec<Impossible> {
        let found = (self.answers.as_slice(), self.whole.as_ref());
        short(week, take_off, &self.work, &self.sets, found)
    }
}

/// The plan that takes no search, then the best that the search finds; what cannot be made beside the rest joins
/// what is left out.
///
/// # Errors
/// As [`make`].
pub(super) fn search(
    week: &Week,
    take_off: &TakeOff,
    options: &PlanOptions<'_>,
    (all_sets, left_out): (&[SpliceSet], &mut Vec<Impossible>),
    [early, late]: &[Clock<'_>; 2],
) -> Result<Solved, Vec<Impossible>> {
    let first = |left_out: &[Impossible]| {
        let means = Means {
            limits: &NO_SEARCH,
            watch: early,
            offers: &[],
            tail: options.tail,
        };
        attempt(week, take_off, all_sets, left_out, means)
    };
    let mut tried = first(left_out)?;
    if !tried.short(week, take_off).is_empty() {
        let short_of = passed_over(week, left_out, early);
        if early.stop_requested() {
            return Err(vec![nothing_found()]);
        }
        if !options.partial && !short_of.is_empty() {
            return Err(short_of);
        }
        left_out.extend(short_of);
        tried = first(left_out)?;
    }
    let means = Means {
        limits: &options.limits,
        watch: late,
        offers: options.offers,
        tail: options.tail,
    };
    let mut solved = attempt(week, take_off, all_sets, left_out, means)?;
    loop {
        // Stock that reaches may still be cut in no way that the search finds.
        let missing = solved.short(week, take_off);
        let stopped = late.stop_requested();
        let stands = stopped && tried.short(week, take_off).is_empty();
        let Some(last) = missing.last() else {
            let dearer = stands && tried.cost() < solved.cost();
            return Ok(if dearer { tried.stopped() } else { solved });
        };
        if stands {
            return Ok(tried.stopped());
        }
        if stopped && solved.none_found() {
            // A search that was stopped says nothing of what can be made.
            return Err(vec![nothing_found()]);
        }
        if !options.partial {
            return Err(missing);
        }
        left_out.push(last.clone());
        solved = attempt(week, take_off, all_sets, left_out, means)?;
        tried = first(left_out)?;
    }
}

/// No search at all: what takes none is made.
const NO_SEARCH: Limits = Limits {
    work: 0,
    time: None,
};

/// No plan was found before the search was stopped.
fn nothing_found() -> Impossible {
    Impossible {
        gate: None,
        extra: None,
        mark: String::new(),
        part: None,
        reason: "no plan was found before the search was stopped, and none is ruled out".to_owned(),
        change: "give the search longer (--time-limit SECONDS), or let it end by itself".to_owned(),
    }
}

/// What the stock does not reach for beside what cannot be made anyway, so that all is told at once.
pub(super) fn short_beside(
    week: &Week,
    take_off: &TakeOff,
    (all_sets, left_out): (&[SpliceSet], &[Impossible]),
    [early, _]: &[Clock<'_>; 2],
) -> Vec<Impossible> {
    let means = Means {
        limits: &NO_SEARCH,
        watch: early,
        offers: &[],
        tail: &[],
    };
    let found = match attempt(week, take_off, all_sets, left_out, means) {
        Ok(tried) if !tried.short(week, take_off).is_empty() => passed_over(week, left_out, early),
        _ => Vec::new(),
    };
    // A search that was stopped says nothing of what the stock reaches for.
    if early.stop_requested() {
        Vec::new()
    } else {
        found
    }
}

/// Gates and extra parts that the stock does not reach for, in due order, beside those left out already.
fn passed_over(week: &Week, left_out: &[Impossible], watch: &dyn Watch) -> Vec<Impossible> {
    let mut rest = week.clone();
    for out in left_out {
        if let Some(gate) = out.gate.and_then(|g| rest.gates.get_mut(g)) {
            gate.count = 0;
        }
        if let Some(extra) = out.extra.and_then(|e| rest.extras.get_mut(e)) {
            extra.count = 0;
        }
    }
    let passed = in_due_order(&rest, Unit::Rows, watch).passed_over;
    passed.into_iter().map(|p| p.why).collect()
}

/// Solve what is not left out.
fn attempt(
    week: &Week,
    take_off: &TakeOff,
    all_sets: &[SpliceSet],
    left_out: &[Impossible],
    means: Means<'_>,
) -> Result<Solved, Vec<Impossible>> {
    let out_gates: BTreeSet<usize> = left_out.iter().filter_map(|i| i.gate).collect();
    let out_extras: BTreeSet<usize> = left_out.iter().filter_map(|i| i.extra).collect();
    let still = still_of(week, take_off);
    let parts: Vec<usize> = take_off
        .parts
        .iter()
        .enumerate()
        .filter(|(i, p)| p.ours && p.count > 0 && still.get(i).is_none_or(|n| *n > 0))
        .filter(|(_, p)| !p.gate.is_some_and(|g| out_gates.contains(&g)))
        .filter(|(_, p)| !p.extra.is_some_and(|e| out_extras.contains(&e)))
        .map(|(i, _)| i)
        .collect();
    let sets: Vec<SpliceSet> = all_sets
        .iter()
        .filter(|s| !out_gates.contains(&s.gate))
        .cloned()
        .collect();
    let mut pipes: Vec<PipeId> = parts.iter().map(|p| take_off.parts[*p].pipe).collect();
    pipes.sort_unstable();
    pipes.dedup();
    let pools = pools_of(week, &pipes)?;
    let work = problem(week, take_off, &pools, &parts, &sets);
    let mut answer = solve(&work.problem, means.limits, means.watch).map_err(|fault| {
        vec![Impossible {
            gate: None,
            extra: None,
            mark: "the week".to_owned(),
            part: None,
            reason: format!("the cutting cannot be worked out: {fault}"),
            change: "look for a size, count or price far too large".to_owned(),
        }]
    })?;
    let mut taken_from = None;
    for offered in means.offers {
        let offer = offer(week, &work, &pools, *offered);
        if offer.is_some_and(|o| take_offer(&work.problem, &mut answer, &o)) {
            taken_from = Some(offered.name.to_owned());
        }
    }
    if !means.tail.is_empty()
        && let Some(tail) = tail(take_off, &work, &pools, &sets, means.tail)
        && take_offer(&work.problem, &mut answer, &tail)
    {
        taken_from = Some("the sheets at hand".to_owned());
    }
    Ok(Solved {
        parts,
        sets,
        pools,
        work,
        answers: answer.pools,
        whole: answer.whole,
        taken_from,
    })
}
