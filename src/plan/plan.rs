//! `Plan`: the answer to a week, as data.

use serde::Serialize;

use crate::measure::{Length, Money};
use crate::nest::{PoolAnswer, Problem, Status, StopReason, Whole};
use crate::order::{Impossible, PipeId};
use crate::splice::{ReachForm, SpliceSet, WindowClass};
use crate::stock::PoolSource;

use super::{Fee, GateCost, KitAdvice, Ledger, Uncut};

/// Where a joint comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum JointSource {
    /// Bought: index into `Week::quotes`.
    Bought(usize),
    /// Off the rack: index into `Week::rack`, and which of its pieces (0-based).
    Rack(usize, u32),
}

/// One piece on a joint.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PieceCut {
    /// Index into `TakeOff::parts`.
    pub part: usize,
    /// Which copy of the gate (1..count); 0 for an extra part.
    pub copy: u32,
    /// Which of the gate's pieces of this part (1..per_gate); extras: 1..count.
    pub serial: u32,
    /// Which piece of a spliced line from the latch end (1..m+1); `None` when not spliced.
    pub piece: Option<u32>,
    /// The piece's printed mark (`A3.2-V`, `A3.1-HB/2`).
    pub mark: String,
    /// Saw length.
    pub saw: Length,
    /// From the tape end (the raw near end of the joint) to the piece's start, exact.
    pub start: Length,
    /// From the tape end to the piece's end, exact: the running mark before its one rounding.
    pub end: Length,
}

/// One joint as it is to be cut. `length = Σ saw + kerfs + near trim + floor`, where the kerfs are
/// k between neighbours and the last cut `min(k, u + b + h)` when u + b + h > 0.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PlannedJoint {
    /// Joint number, 1.. in cutting order over the week.
    pub number: u32,
    /// Pipe.
    pub pipe: PipeId,
    /// Source.
    pub source: JointSource,
    /// Planning length (bought) or measured length (rack).
    pub length: Length,
    /// Near trim a of this joint (0 where the end wants none).
    pub near: Length,
    /// Far trim b of this joint.
    pub far: Length,
    /// Hold-back h.
    pub hold: Length,
    /// Pieces in cutting order from the tape end.
    pub pieces: Vec<PieceCut>,
    /// Leftover u = U − Σℓ − k(n − 1).
    pub leftover: Length,
    /// Last cut.
    pub last_cut: Length,
    /// Credited drop = max(0, u − k).
    pub drop: Length,
    /// What lies on the floor = u + b + h − last cut.
    pub floor: Length,
    /// Kept (drop ≥ keep length), else scrap.
    pub kept: bool,
    /// Tag of a kept drop (`K3`), painted on it.
    pub keep_tag: Option<String>,
    /// Credit of the kept drop.
    pub credit: Money,
    /// u under the measure-first limit.
    pub measure_first: bool,
}

/// One splice as it is to be welded.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Splice {
    /// Centre p from the line's latch-end long point, exact ticks (geometry).
    pub centre: f64,
    /// Centre x from the latch end post's outside face, ticks (geometry); `None` on a sway brace, an arc
    /// that is measured along itself from its own latch-end tip.
    pub x: Option<f64>,
    /// Bay 1..n.
    pub bay: u32,
    /// Distance to the bay line on the latch side, along the line itself, ticks (geometry).
    pub from_latch_side: f64,
    /// Distance to the bay line on the tail side, along the line itself, ticks (geometry).
    pub from_tail_side: f64,
    /// The window it lies in (lo, hi as p).
    pub window: (Length, Length),
    /// Roller bay of this horizontal.
    pub roller_bay: bool,
    /// Stands in the tolerated reach: warn.
    pub tolerated: bool,
    /// Class.
    pub class: WindowClass,
    /// Stress at the splice ÷ gate peak, when the envelope was computed.
    pub rel: Option<f64>,
}

/// One spliced horizontal of one gate copy.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SplicedLine {
    /// Index into `TakeOff::parts`.
    pub part: usize,
    /// Copy of the gate, 1..count.
    pub copy: u32,
    /// Which of the gate's pieces of this part (1..per_gate).
    pub serial: u32,
    /// Piece lengths from the latch end.
    pub pieces: Vec<Length>,
    /// It stays as an earlier plan handed it out, which counts its splices in its money.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub stays: bool,
    /// Gap as made G, ticks (geometry).
    pub gap: f64,
    /// Splices from the latch end.
    pub splices: Vec<Splice>,
    /// Form of rule 3 used.
    pub form: ReachForm,
}

/// What to buy of one quote.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Bought {
    /// Index into `Week::quotes`.
    pub quote: usize,
    /// Joints for the plan, those left whole too.
    pub joints: u32,
    /// Nominal length billed, all joints.
    pub nominal: Length,
    /// Weight of all joints by nominal length, lb or kg.
    pub weight: f64,
    /// Money of the line before tax, rounded once to cents; `None` without a price.
    pub money: Option<Money>,
    /// Tax of the line, rounded once to cents; `None` without a price.
    pub tax: Option<Money>,
}

/// Spare joints bought on top (setting), shown apart.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Spare {
    /// Index into `Week::quotes`: the cheapest per nominal foot of that pipe.
    pub quote: usize,
    /// Joints.
    pub joints: u32,
    /// Money before tax, rounded once to cents.
    pub money: Option<Money>,
    /// Tax, rounded once to cents.
    pub tax: Option<Money>,
}

/// A kept drop.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Kept {
    /// Tag.
    pub tag: String,
    /// Joint it comes from.
    pub joint: u32,
    /// Pipe.
    pub pipe: PipeId,
    /// Credited length (drop).
    pub drop: Length,
    /// On the floor.
    pub floor: Length,
    /// Credit.
    pub credit: Money,
}

/// Waste by definition, lengths over one pipe or the week.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Waste {
    /// Taken: planning length of bought joints cut + measured length of rack pieces cut.
    pub taken: Length,
    /// In gates and extra parts: Σ saw lengths.
    pub in_parts: Length,
    /// All-in = taken − in_parts.
    pub all_in: Length,
    /// Lost for good = kerf + trims + scrap drops.
    pub lost: Length,
    /// Kept drops (floor length).
    pub kept: Length,
}

/// A hand reference beside the plan: joints and money of the same work done another way.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Reference {
    /// `down the list` or `longest first, pooled`.
    pub name: String,
    /// Joints bought and taken off the rack.
    pub joints: u32,
    /// Landed money less credits, on the plan's own terms; `None` when unpriced.
    pub money: Option<Money>,
    /// Splices it makes.
    pub splices: u32,
    /// Whether the way of working could do the week at all; else why not.
    pub failed: Option<String>,
}

/// One pipe's outcome.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PipeOutcome {
    /// Pipe.
    pub pipe: PipeId,
    /// Status of money.
    pub status: Status,
    /// Why the search ended.
    pub stop: StopReason,
    /// Cost (1/1000 cent): stocks − credits + splices and charges.
    pub cost: i64,
    /// Certified bound (1/1000 cent).
    pub bound: i64,
    /// Pipe money before credits (1/1000 cent), the base of the gap's percentage.
    pub pipe_money: i64,
    /// Money known.
    pub priced: bool,
    /// Joints bought, those left whole too.
    pub bought: u32,
    /// Pieces taken off the rack.
    pub from_rack: u32,
    /// Waste.
    pub waste: Waste,
}

/// When a gate's last piece has been cut.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct GateDone {
    /// Index into `Week::gates`.
    pub gate: usize,
    /// Copy, 1..count.
    pub copy: u32,
    /// Complete after this joint number (0: nothing of it is cut here).
    pub after_joint: u32,
}

/// The cutting of the week split over saws or crews.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Sitting {
    /// Saw or crew, 1...
    pub saw: u32,
    /// Joint numbers.
    pub joints: Vec<u32>,
    /// Estimated minutes.
    pub minutes: f64,
}

/// The nest problem and its answer, carried so that anyone can re-verify the bound.
#[derive(Clone, Debug, Serialize)]
pub struct NestWork {
    /// Problem; pool i belongs to `Plan::pools[i]`.
    pub problem: Problem,
    /// Answers; pool i. Where charges couple the pools, cost, bound and status of each are its own.
    pub answers: Vec<PoolAnswer>,
    /// What all pools with all charges come to; `None` without charges.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub whole: Option<Whole>,
    /// The change of the week whose plan was taken, as the search alone came to no plan so cheap.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub taken_from: Option<String>,
    /// Per pool, per nest group: the splice sets it stands for (indices into `Plan::splice_sets`).
    /// Sets of one shape (equal but for gate, count and part indices) are one group, their counts
    /// added, so that splitting a row's count or moving rows changes nothing.
    pub groups: Vec<Vec<Vec<usize>>>,
}

/// Estimated minutes of the week (the shop's figures, common practice, no source).
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Minutes {
    /// Handling joints.
    pub joints: f64,
    /// Cuts, trims and last cuts included.
    pub cuts: f64,
    /// Coping ends.
    pub copes: f64,
    /// Splices.
    pub splices: f64,
}

/// The plan of a week.
#[derive(Clone, Debug, Serialize)]
pub struct Plan {
    /// Plan number: a digest of the week's data and of its joints; one number, one plan.
    pub number: String,
    /// Revision as given (`--revision`), default 0.
    pub revision: u32,
    /// Date as given (`--date`).
    pub date: Option<String>,
    /// What could not be done (only with `--partial`; else the week was refused).
    pub left_out: Vec<Impossible>,
    /// Stock side, in pool order.
    pub pools: Vec<PoolSource>,
    /// Splice sets, in week order; `NestWork::groups` says which nest group stands for which sets.
    pub splice_sets: Vec<SpliceSet>,
    /// Nest problem and answer.
    pub nest: NestWork,
    /// Joints in cutting order.
    pub joints: Vec<PlannedJoint>,
    /// Spliced horizontals, week order, copies in order.
    pub spliced: Vec<SplicedLine>,
    /// What to buy.
    pub buy: Vec<Bought>,
    /// What the orders cost beyond their joints.
    pub fees: Vec<Fee>,
    /// Spares on top.
    pub spares: Vec<Spare>,
    /// Joints bought and left whole.
    pub uncut: Vec<Uncut>,
    /// Kept drops in joint order.
    pub kept: Vec<Kept>,
    /// Per pipe, in pool order.
    pub pipes: Vec<PipeOutcome>,
    /// Waste of the week.
    pub waste: Waste,
    /// Gates in the order they finish.
    pub done: Vec<GateDone>,
    /// Split over saws.
    pub sittings: Vec<Sitting>,
    /// Estimated minutes of the week.
    pub minutes: Minutes,
    /// Advice for the kit gates' horizontals, in week order.
    pub kits: Vec<KitAdvice>,
    /// Hand references: down the list, longest first pooled.
    pub references: Vec<Reference>,
    /// Money of each gate order and extra part, gates first, in week order; empty when any pool is
    /// unpriced.
    pub gate_costs: Vec<GateCost>,
    /// Money by what it is for, each line rounded once to cents; `None` when any pool is unpriced.
    pub ledger: Option<Ledger>,
    /// Total landed money less credits plus splices: the sum of the ledger's lines; `None` when any pool
    /// is unpriced.
    pub total: Option<Money>,
}
