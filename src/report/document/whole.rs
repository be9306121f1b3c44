//! The whole document.

use serde::Serialize;

use crate::order::{Fault, Impossible, Week};
use crate::part::TakeOff;
use crate::plan::NestWork;

use super::super::figures::Figures;
use super::super::job::Job;
use super::gate_entry::{GateEntry, PipeEntry, gates, pipes};
use super::joint_entry::{
    DoneEntry, JointEntry, KeptEntry, RackEntry, SittingEntry, done, joints, kept, rack, sittings,
};
use super::kit_entry::{KitEntry, kits};
use super::money_entry::{
    BuyEntry, FeeEntry, GateCostEntry, LedgerEntry, OutcomeEntry, ReferenceEntry, SpareEntry,
    UncutEntry, WasteEntry, buy, costs, fees, ledger, outcomes, references, spares, uncut, waste,
};
use super::opening::{Opening, opening};
use super::part_entry::{PartEntry, parts};
use super::quantity::{Exact, exact, money, rounded};
use super::splice_entry::{LineEntry, lines};

/// `format` of a plan's document.
pub(in super::super) const PLAN_FORMAT: &str = "longpoint plan";

#[derive(Serialize)]
struct PlanDocument<'a> {
    #[serde(flatten)]
    opening: Opening<'a>,
    plan: &'a str,
    keep_length: Exact,
    piece_tolerance: Exact,
    revision: u32,
    date: Option<&'a str>,
    files: &'a [String],
    totals: Totals,
    pipes: Vec<PipeEntry<'a>>,
    gates: Vec<GateEntry<'a>>,
    parts: Vec<PartEntry<'a>>,
    joints: Vec<JointEntry<'a>>,
    spliced: Vec<LineEntry>,
    buy: Vec<BuyEntry<'a>>,
    fees: Vec<FeeEntry<'a>>,
    ledger: Option<LedgerEntry>,
    uncut: Vec<UncutEntry>,
    spares: Vec<SpareEntry<'a>>,
    kept: Vec<KeptEntry<'a>>,
    rack: Vec<RackEntry<'a>>,
    gate_costs: Vec<GateCostEntry>,
    outcomes: Vec<OutcomeEntry>,
    references: Vec<ReferenceEntry<'a>>,
    done: Vec<DoneEntry>,
    sittings: Vec<SittingEntry<'a>>,
    minutes: MinutesEntry,
    kits: Vec<KitEntry<'a>>,
    left_out: &'a [Impossible],
    notices: &'a [Fault],
    nest: &'a NestWork,
}

/// Totals of the week.
#[derive(Serialize)]
struct Totals {
    joints: usize,
    bought: u32,
    from_rack: u32,
    splices: usize,
    kept: usize,
    money: Option<f64>,
    waste: WasteEntry,
}

#[derive(Serialize)]
struct MinutesEntry {
    joints: Option<f64>,
    cuts: Option<f64>,
    copes: Option<f64>,
    splices: Option<f64>,
}

#[derive(Serialize)]
struct TakeOffDocument<'a> {
    #[serde(flatten)]
    opening: Opening<'a>,
    pipes: Vec<PipeEntry<'a>>,
    gates: Vec<GateEntry<'a>>,
    parts: Vec<PartEntry<'a>>,
    left_out: &'a [Impossible],
    notices: &'a [Fault],
}

/// The plan's document, indented, ending in a line break. `files` names the results folder's files.
///
/// # Errors
/// When a figure cannot be written as JSON, which no checked plan holds.
pub(in super::super) fn plan_document(
    job: Job<'_>,
    files: &[String],
) -> Result<String, serde_json::Error> {
    let plan = job.plan;
    let minutes = &plan.minutes;
    let figures = Figures::of(job.week);
    let document = PlanDocument {
        opening: opening(job.week, PLAN_FORMAT),
        plan: &plan.number,
        keep_length: exact(figures, job.week.shop.money.keep_length),
        piece_tolerance: exact(figures, job.week.shop.saw.piece_tolerance),
        revision: plan.revision,
        date: plan.date.as_deref(),
        files,
        totals: totals(job),
        pipes: pipes(job.week),
        gates: gates(job.week, job.take_off),
        parts: parts(job.week, job.take_off, &plan.left_out),
        joints: joints(job),
        spliced: lines(job),
        buy: buy(job),
        fees: fees(job),
        ledger: ledger(job),
        uncut: uncut(job),
        spares: spares(job),
        kept: kept(job),
        rack: rack(job),
        gate_costs: costs(job),
        outcomes: outcomes(job),
        references: references(job),
        done: done(job),
        sittings: sittings(job),
        minutes: MinutesEntry {
            joints: rounded(minutes.joints, 1),
            cuts: rounded(minutes.cuts, 1),
            copes: rounded(minutes.copes, 1),
            splices: rounded(minutes.splices, 1),
        },
        kits: kits(job),
        left_out: &plan.left_out,
        notices: &job.week.notices,
        nest: &plan.nest,
    };
    Ok(serde_json::to_string_pretty(&document)? + "\n")
}

fn totals(job: Job<'_>) -> Totals {
    let plan = job.plan;
    Totals {
        joints: plan.joints.len(),
        bought: plan.pipes.iter().map(|p| p.bought).sum(),
        from_rack: plan.pipes.iter().map(|p| p.from_rack).sum(),
        splices: plan.spliced.iter().map(|l| l.splices.len()).sum(),
        kept: plan.kept.len(),
        money: money(plan.total),
        waste: waste(Figures::of(job.week), &plan.waste),
    }
}

/// The take-off's document: parts only.
///
/// # Errors
/// As [`plan_document`].
pub(in super::super) fn take_off_document(
    week: &Week,
    take_off: &TakeOff,
    left_out: &[Impossible],
) -> Result<String, serde_json::Error> {
    let document = TakeOffDocument {
        opening: opening(week, "longpoint take-off"),
        pipes: pipes(week),
        gates: gates(week, take_off),
        parts: parts(week, take_off, &[]),
        left_out,
        notices: &week.notices,
    };
    Ok(serde_json::to_string_pretty(&document)? + "\n")
}
