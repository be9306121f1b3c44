//! Make the plan of a week.

use super::advise::advise;
use super::buy::{buy, spares};
use super::clock::Clock;
use super::down_the_list::down_the_list;
use super::earn::earn;
use super::fee::fees;
use super::floor::{done, minutes, sittings};
use super::gate_cost::gate_costs;
use super::lay::{lay, tag};
use super::ledger::{Books, ledger};
use super::number::number;
use super::offered::Offered;
use super::outcome::{outcomes, waste};
use super::owner::{Made, owners, wants};
use super::pooled::pooled;
use super::problem::Work;
use super::search::{Solved, search, short_beside};
use super::sequence::sequence;
use super::slide_yard::slide_on_joints;
use super::still::line_of_set;
use super::tail::TailJoint;
use super::too_long::too_long;
use super::uncut::uncut;
use super::welded::welded;
use super::{NestWork, Plan, Reference};
use crate::nest::{Limits, NoWatch, Watch};
use crate::order::{BegunLine, Impossible, Week};
use crate::part::TakeOff;
use crate::splice::{SpliceSet, sets};
use crate::stock::PoolSource;

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
    let clocks = Clock::pair(&options.limits, options.watch);
    let (all_sets, unspliceable) = sets(week, take_off);
    let mut left_out = options.left_out.clone();
    left_out.extend(unspliceable.iter().cloned());
    left_out.extend(too_long(week, take_off, &all_sets, &unspliceable));
    if !options.partial && !left_out.is_empty() {
        match crate::stock::pools(week, take_off) {
            Err(faults) => left_out.extend(faults),
            Ok(_) => left_out.extend(short_beside(
                week,
                take_off,
                (&all_sets, &left_out),
                &clocks,
            )),
        }
        return Err(left_out);
    }
    // Whether the stock reaches is asked before the search: a week that it does not reach for is
    // refused, or built in due order as far as it goes.
    let solved = search(week, take_off, options, (&all_sets, &mut left_out), &clocks)?;
    Ok(write(week, take_off, options, solved, left_out))
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
