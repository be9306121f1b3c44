//! Make the plan of a week.

use std::collections::BTreeSet;

use super::advise::advise;
use super::buy::{buy, spares};
use super::down_the_list::down_the_list;
use super::due_order::{Unit, in_due_order};
use super::earn::earn;
use super::fee::fees;
use super::floor::{done, minutes, sittings};
use super::gate_cost::gate_costs;
use super::lay::{lay, tag};
use super::ledger::{Books, ledger};
use super::number::number;
use super::offered::{Offered, offer};
use super::outcome::{outcomes, waste};
use super::owner::{Made, owners, wants};
use super::pooled::pooled;
use super::problem::{Work, problem};
use super::sequence::sequence;
use super::short::short;
use super::slide_yard::slide_on_joints;
use super::still::{line_of_set, still_of};
use super::tail::{TailJoint, tail};
use super::too_long::too_long;
use super::uncut::uncut;
use super::welded::welded;
use super::{NestWork, Plan, Reference};
use crate::nest::{Limits, NoWatch, PoolAnswer, Watch, Whole, solve, take_offer};
use crate::order::{BegunLine, Impossible, PipeId, Week};
use crate::part::TakeOff;
use crate::splice::{SpliceSet, sets};
use crate::stock::{PoolSource, pools_of};

/// How a plan is to be made.
pub struct PlanOptions<'a> {
    /// Leave out what is impossible, by name, and plan the rest.
    pub partial: bool,
    /// Date printed on every sheet, as given.
    pub date: Option<String>,
    /// Revision.
    pub revision: u32,
    /// When the nest room stops.
    pub limits: Limits,
    /// Who looks on and may stop it.
    pub watch: &'a dyn Watch,
    /// What earlier rooms could not make (gates without a frame); they lead `Plan::left_out`.
    pub left_out: Vec<Impossible>,
    /// Plans of changed weeks, each taken where it is one of this week too and costs less.
    pub offers: &'a [Offered<'a>],
    /// Joints handed out and not cut yet: carrying on by them is never beaten by a dearer plan.
    pub tail: &'a [TailJoint],
}

impl Default for PlanOptions<'_> {
    /// The whole week or nothing, undated, to the default work budget, nobody looking on.
    fn default() -> Self {
        PlanOptions {
            partial: false,
            date: None,
            revision: 0,
            limits: Limits::default(),
            watch: &NoWatch,
            left_out: Vec::new(),
            offers: &[],
            tail: &[],
        }
    }
}

/// What an attempt may use.
#[derive(Clone, Copy)]
struct Means<'a> {
    limits: &'a Limits,
    watch: &'a dyn Watch,
    offers: &'a [Offered<'a>],
    tail: &'a [TailJoint],
}

impl<'a> Means<'a> {
    fn without_search(limits: &'a Limits) -> Means<'a> {
        Means {
            limits,
            watch: &NoWatch,
            offers: &[],
            tail: &[],
        }
    }
}

/// What is planned: chosen parts and sets, the problem and its answers.
struct Solved {
    parts: Vec<usize>,
    sets: Vec<SpliceSet>,
    pools: Vec<PoolSource>,
    work: Work,
    answers: Vec<PoolAnswer>,
    whole: Option<Whole>,
    taken_from: Option<String>,
}

impl Solved {
    /// What the stock does not reach for.
    fn short(&self, week: &Week, take_off: &TakeOff) -> Vec<Impossible> {
        let found = (self.answers.as_slice(), self.whole.as_ref());
        short(week, take_off, &self.work, &self.sets, found)
    }
}

/// Make the plan of a week.
///
/// # Errors
/// Everything that cannot be done, of the whole week at once. With `partial` only what concerns no
/// single gate or extra part (a price that cannot be right, a nest problem past all limits).
pub fn make(
    week: &Week,
    take_off: &TakeOff,
    options: &PlanOptions<'_>,
) -> Result<Plan, Vec<Impossible>> {
    let (all_sets, unspliceable) = sets(week, take_off);
    let mut left_out = options.left_out.clone();
    left_out.extend(unspliceable.iter().cloned());
    left_out.extend(too_long(week, take_off, &all_sets, &unspliceable));
    if !options.partial && !left_out.is_empty() {
        match crate::stock::pools(week, take_off) {
            Err(faults) => left_out.extend(faults),
            Ok(_) => left_out.extend(short_beside(week, take_off, &all_sets, &left_out)),
        }
        return Err(left_out);
    }
    // Whether the stock reaches is asked before the search: a week that it does not reach for is
    // refused, or built in due order as far as it goes.
    let no_search = Limits {
        work: 0,
        time: None,
    };
    let tried = attempt(
        week,
        take_off,
        &all_sets,
        &left_out,
        Means::without_search(&no_search),
    )?;
    if !tried.short(week, take_off).is_empty() {
        let short_of = passed_over(week, &left_out, options.watch);
        if !options.partial && !short_of.is_empty() {
            return Err(short_of);
        }
        left_out.extend(short_of);
    }
    let means = Means {
        limits: &options.limits,
        watch: options.watch,
        offers: options.offers,
        tail: options.tail,
    };
    let mut solved = attempt(week, take_off, &all_sets, &left_out, means)?;
    loop {
        // Stock that reaches may still be cut in no way that the search finds.
        let missing = solved.short(week, take_off);
        let Some(last) = missing.last() else {
            break;
        };
        if !options.partial {
            return Err(missing);
        }
        left_out.push(last.clone());
        solved = attempt(week, take_off, &all_sets, &left_out, means)?;
    }
    Ok(write(week, take_off, options, solved, left_out))
}

/// What the stock does not reach for beside what cannot be made anyway, so that all is told at once.
fn short_beside(
    week: &Week,
    take_off: &TakeOff,
    all_sets: &[SpliceSet],
    left_out: &[Impossible],
) -> Vec<Impossible> {
    let no_search = Limits {
        work: 0,
        time: None,
    };
    let means = Means::without_search(&no_search);
    match attempt(week, take_off, all_sets, left_out, means) {
        Ok(tried) if !tried.short(week, take_off).is_empty() => {
            passed_over(week, left_out, &NoWatch)
        }
        _ => Vec::new(),
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

fn write(
    week: &Week,
    take_off: &TakeOff,
    options: &PlanOptions<'_>,
    solved: Solved,
    left_out: Vec<Impossible>,
) -> Plan {
    let Solved {
        parts,
        sets,
        pools,
        work,
        mut answers,
        mut whole,
        taken_from,
    } = solved;
    let (gates, extras) = worked(week, take_off, &left_out);
    let owners = owners(week, &gates, &extras);
    let references = references(week, take_off, &pools, &parts, &sets, &work);
    earn(week, &pools, &work.problem, &mut answers, whole.as_mut());
    let uncut = uncut(week, &pools, &answers);
    let (mut wanted, mut made) = wants(week, take_off, &work, &sets, &answers, &owners);
    let placed = sequence(&answers, &mut wanted);
    let mut joints = lay(week, take_off, &pools, &owners, &placed);
    slide_on_joints(week, &pools, &sets, &mut made, &mut joints);
    super::rewrite::rewrite(&work, &pools, &joints, &sets, &made, &uncut, &mut answers);
    let kept = tag(week, &mut joints);
    made.extend(as_handed_out(week, take_off, &sets));
    let spliced = welded(week, take_off, &sets, &made);
    let pipes = outcomes(&pools, &answers, &joints, &uncut);
    let buy = buy(week, &joints, &uncut);
    let fees = fees(week, &pools, &joints, &uncut);
    let ledger = ledger(&Books {
        week,
        pools: &pools,
        joints: &joints,
        spliced: &spliced,
        buy: &buy,
        fees: &fees,
        kept: &kept,
        uncut: &uncut,
    });
    let mut plan = Plan {
        number: number(week, &joints),
        revision: options.revision,
        date: options.date.clone(),
        left_out,
        spares: spares(week, &pools),
        buy,
        fees,
        uncut,
        kept,
        waste: waste(&joints),
        done: done(take_off, &owners, &joints),
        sittings: sittings(week, &joints),
        minutes: minutes(week, take_off, &joints, &spliced),
        kits: advise(week, take_off, &gates),
        references,
        gate_costs: Vec::new(),
        total: ledger.map(|l| l.total()),
        ledger,
        pipes,
        pools,
        splice_sets: sets,
        nest: NestWork {
            problem: work.problem,
            answers,
            whole,
            taken_from,
            groups: work.groups,
        },
        joints,
        spliced,
    };
    plan.gate_costs = gate_costs(week, take_off, &plan);
    plan
}

/// The lines that stay, of gates that are planned.
fn as_handed_out(week: &Week, take_off: &TakeOff, sets: &[SpliceSet]) -> Vec<Made> {
    let made = |line: &BegunLine| {
        let mut parts = take_off.parts.iter();
        let part = parts.position(|p| p.mark == line.mark)?;
        let (set, place) = line_of_set(sets, part)?;
        Some(Made {
            set,
            line: place,
            copy: line.copy,
            pieces: line.pieces.iter().map(|l| l.ticks()).collect(),
        })
    };
    week.begun.lines.iter().filter_map(made).collect()
}

/// Gates (with a frame and a count) and extra parts that are planned.
fn worked(week: &Week, take_off: &TakeOff, left_out: &[Impossible]) -> (Vec<usize>, Vec<usize>) {
    let gates = take_off
        .frames
        .iter()
        .map(|f| f.gate)
        .filter(|g| week.gates.get(*g).is_some_and(|o| o.count > 0))
        .filter(|g| !left_out.iter().any(|i| i.gate == Some(*g)))
        .collect();
    let extras = (0..week.extras.len())
        .filter(|e| week.extras[*e].count > 0)
        .filter(|e| !left_out.iter().any(|i| i.extra == Some(*e)))
        .collect();
    (gates, extras)
}

/// The two hand references; nobody begins a week that is half cut down the list.
fn references(
    week: &Week,
    take_off: &TakeOff,
    pools: &[PoolSource],
    parts: &[usize],
    sets: &[SpliceSet],
    work: &Work,
) -> Vec<Reference> {
    let pooled = pooled(week, pools, work);
    if !week.begun.none() {
        return vec![pooled];
    }
    vec![down_the_list(week, take_off, pools, parts, sets), pooled]
}
