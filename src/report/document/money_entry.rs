//! What is bought, what each pipe comes to, and the references beside it.

use rust_decimal::prelude::ToPrimitive;
use serde::Serialize;

use crate::measure::{Length, Money};
use crate::nest::{Status, StopReason};
use crate::plan::{FeeKind, Reference, Waste};

use super::super::figures::Figures;
use super::super::gate_costs;
use super::super::job::Job;
use super::super::order_line::{order_lines, price_each};
use super::quantity::{Exact, exact, millicents, money, rounded};

/// An order line.
#[derive(Serialize)]
pub(super) struct BuyEntry<'a> {
    /// Number of the line over all orders of the plan.
    line: usize,
    quote: usize,
    pipe: usize,
    supplier: &'a str,
    joint: Exact,
    planning: Exact,
    joints: u32,
    billed: Exact,
    weight: Option<f64>,
    quoted: String,
    each: Option<f64>,
    money: Option<f64>,
    tax: Option<f64>,
    needed: Option<String>,
    expired: bool,
}

/// What an order costs beyond its joints.
#[derive(Serialize)]
pub(super) struct FeeEntry<'a> {
    name: &'a str,
    supplier: &'a str,
    kind: FeeKind,
    money: Option<f64>,
}

/// The fees.
pub(super) fn fees(job: Job<'_>) -> Vec<FeeEntry<'_>> {
    let fees = job.plan.fees.iter().map(|f| FeeEntry {
        name: &f.name,
        supplier: &f.supplier,
        kind: f.kind,
        money: money(Some(f.money)),
    });
    fees.collect()
}

/// Joints bought and left whole.
#[derive(Serialize)]
pub(super) struct UncutEntry {
    quote: usize,
    joints: u32,
    credit: Option<f64>,
}

/// The joints left whole.
pub(super) fn uncut(job: Job<'_>) -> Vec<UncutEntry> {
    let uncut = job.plan.uncut.iter().map(|u| UncutEntry {
        quote: u.quote,
        joints: u.joints,
        credit: money(Some(u.credit)),
    });
    uncut.collect()
}

/// Money by what it is for.
#[derive(Serialize)]
pub(super) struct LedgerEntry {
    pipe: Option<f64>,
    tax: Option<f64>,
    freight: Option<f64>,
    lifts: Option<f64>,
    minimum: Option<f64>,
    rack: Option<f64>,
    splices: Option<f64>,
    classes: Option<f64>,
    kept: Option<f64>,
    total: Option<f64>,
}

/// The ledger; `None` when a price is missing.
pub(super) fn ledger(job: Job<'_>) -> Option<LedgerEntry> {
    let l = job.plan.ledger?;
    let of = |m: Money| money(Some(m));
    Some(LedgerEntry {
        pipe: of(l.pipe),
        tax: of(l.tax),
        freight: of(l.freight),
        lifts: of(l.lifts),
        minimum: of(l.minimum),
        rack: of(l.rack),
        splices: of(l.splices),
        classes: of(l.classes),
        kept: of(l.kept),
        total: of(l.total()),
    })
}

/// Spares on top.
#[derive(Serialize)]
pub(super) struct SpareEntry<'a> {
    /// Number of the line over all orders of the plan, after those of `buy`.
    line: usize,
    quote: usize,
    pipe: usize,
    supplier: &'a str,
    joint: Exact,
    planning: Exact,
    joints: u32,
    money: Option<f64>,
    tax: Option<f64>,
}

/// One pipe's outcome.
#[derive(Serialize)]
pub(super) struct OutcomeEntry {
    pipe: usize,
    status: Status,
    stop: StopReason,
    priced: bool,
    cost_millicents: i64,
    bound_millicents: i64,
    pipe_money_millicents: i64,
    cost: Option<f64>,
    bound: Option<f64>,
    bought: u32,
    from_rack: u32,
    waste: WasteEntry,
}

/// Waste, each by its definition in the schema.
#[derive(Serialize)]
pub(super) struct WasteEntry {
    taken: Exact,
    in_parts: Exact,
    all_in: Exact,
    lost: Exact,
    kept: Exact,
    all_in_percent: Option<f64>,
    lost_percent: Option<f64>,
    kept_percent: Option<f64>,
}

/// A hand reference.
#[derive(Serialize)]
pub(super) struct ReferenceEntry<'a> {
    name: &'a str,
    joints: u32,
    splices: u32,
    money: Option<f64>,
    failed: Option<&'a str>,
}

/// A gate's share of the plan's money.
#[derive(Serialize)]
pub(super) struct GateCostEntry {
    gate: Option<usize>,
    extra: Option<usize>,
    mark: String,
    count: u32,
    pipe: Option<f64>,
    splices: Option<f64>,
    shared: Option<f64>,
    money: Option<f64>,
    each: Option<f64>,
    per_opening: Option<f64>,
}

/// What each gate costs.
pub(super) fn costs(job: Job<'_>) -> Vec<GateCostEntry> {
    let rows = job.plan.gate_costs.iter().map(|c| GateCostEntry {
        gate: c.gate,
        extra: c.extra,
        mark: gate_costs::mark(job, c),
        count: gate_costs::count(job, c),
        pipe: money(Some(c.pipe)),
        splices: money(Some(c.splices)),
        shared: money(Some(c.shared)),
        money: money(Some(c.total)),
        each: money(gate_costs::each(job, c)),
        per_opening: money(gate_costs::per_opening(job, c)),
    });
    rows.collect()
}

/// Order lines.
pub(super) fn buy(job: Job<'_>) -> Vec<BuyEntry<'_>> {
    let figures = Figures::of(job.week);
    let lines = (1..).zip(order_lines(job)).filter(|(_, l)| !l.spare);
    let lines = lines.map(|(line, l)| BuyEntry {
        line,
        quote: l.quote,
        pipe: l.of.pipe.0,
        supplier: &l.of.supplier,
        joint: exact(figures, l.of.nominal),
        planning: exact(figures, l.of.planning),
        joints: l.joints,
        billed: exact(figures, l.nominal),
        weight: rounded(l.weight, 1),
        quoted: l.of.quoted_words(),
        each: price_each(&l).and_then(|each| each.0.to_f64()),
        money: money(l.money),
        tax: money(l.tax),
        needed: l.needed.map(|day| day.to_string()),
        expired: l.expired.is_some(),
    });
    lines.collect()
}

/// Spares.
pub(super) fn spares(job: Job<'_>) -> Vec<SpareEntry<'_>> {
    let figures = Figures::of(job.week);
    let lines = (1..).zip(order_lines(job)).filter(|(_, l)| l.spare);
    let spares = lines.map(|(line, l)| SpareEntry {
        line,
        quote: l.quote,
        pipe: l.of.pipe.0,
        supplier: &l.of.supplier,
        joint: exact(figures, l.of.nominal),
        planning: exact(figures, l.of.planning),
        joints: l.joints,
        money: money(l.money),
        tax: money(l.tax),
    });
    spares.collect()
}

/// Outcomes in pool order.
pub(super) fn outcomes(job: Job<'_>) -> Vec<OutcomeEntry> {
    let figures = Figures::of(job.week);
    let pipes = job.plan.pipes.iter().map(|p| OutcomeEntry {
        pipe: p.pipe.0,
        status: p.status,
        stop: p.stop,
        priced: p.priced,
        cost_millicents: p.cost,
        bound_millicents: p.bound,
        pipe_money_millicents: p.pipe_money,
        cost: millicents(p.cost, p.priced),
        bound: millicents(p.bound, p.priced),
        bought: p.bought,
        from_rack: p.from_rack,
        waste: waste(figures, &p.waste),
    });
    pipes.collect()
}

/// Waste with its percentages of what was taken.
pub(super) fn waste(figures: Figures<'_>, w: &Waste) -> WasteEntry {
    let percent = |part: Length| {
        if w.taken > Length::ZERO {
            rounded(100.0 * part.geometric() / w.taken.geometric(), 2)
        } else {
            None
        }
    };
    WasteEntry {
        taken: exact(figures, w.taken),
        in_parts: exact(figures, w.in_parts),
        all_in: exact(figures, w.all_in),
        lost: exact(figures, w.lost),
        kept: exact(figures, w.kept),
        all_in_percent: percent(w.all_in),
        lost_percent: percent(w.lost),
        kept_percent: percent(w.kept),
    }
}

/// Hand references.
pub(super) fn references(job: Job<'_>) -> Vec<ReferenceEntry<'_>> {
    let references = job.plan.references.iter().map(reference);
    references.collect()
}

fn reference(r: &Reference) -> ReferenceEntry<'_> {
    ReferenceEntry {
        name: &r.name,
        joints: r.joints,
        splices: r.splices,
        money: money(r.money),
        failed: r.failed.as_deref(),
    }
}
