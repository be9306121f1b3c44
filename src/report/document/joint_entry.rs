//! Joints as they are cut, gates as they finish, kept drops.

use serde::Serialize;

use crate::plan::{JointSource, PieceCut, PlannedJoint};

use super::super::cope_kind::CopeKinds;
use super::super::figures::Figures;
use super::super::job::Job;
use super::super::joint_block::over_tape;
use super::super::piece_ends::piece_ends;
use super::super::planned_length::keep_from;
use super::super::remnants::credits;
use super::quantity::{Exact, exact, left, marked, money, rounded};

/// One joint.
#[derive(Serialize)]
pub(super) struct JointEntry<'a> {
    number: u32,
    pipe: usize,
    source: &'static str,
    quote: Option<usize>,
    rack_tag: Option<&'a str>,
    length: Exact,
    near_trim: Exact,
    far_trim: Exact,
    hold_back: Exact,
    pieces: Vec<PieceEntry<'a>>,
    leftover: Exact,
    last_cut: Exact,
    drop: Exact,
    floor: Exact,
    kept: bool,
    keep_tag: Option<&'a str>,
    keep_if_floor_from: Option<Exact>,
    credit: Option<f64>,
    measure_first: bool,
}

/// One piece on a joint.
#[derive(Serialize)]
pub(super) struct PieceEntry<'a> {
    mark: &'a str,
    part: usize,
    copy: u32,
    serial: u32,
    piece: Option<u32>,
    saw_length: Exact,
    throat: Exact,
    ends: [String; 2],
    start: Exact,
    end: Exact,
    over_tape: bool,
}

/// A kept drop.
#[derive(Serialize)]
pub(super) struct KeptEntry<'a> {
    tag: &'a str,
    joint: u32,
    pipe: usize,
    credited: Exact,
    floor: Exact,
    credit: Option<f64>,
}

/// A row of the rack as the plan found it.
#[derive(Serialize)]
pub(super) struct RackEntry<'a> {
    tag: &'a str,
    pipe: usize,
    length: Exact,
    count: u32,
    near_trim: bool,
    far_trim: bool,
}

/// The rack in file order.
pub(super) fn rack(job: Job<'_>) -> Vec<RackEntry<'_>> {
    let figures = Figures::of(job.week);
    let rows = job.week.rack.iter().map(|r| RackEntry {
        tag: &r.tag,
        pipe: r.pipe.0,
        length: exact(figures, r.length),
        count: r.count,
        near_trim: r.near_trim,
        far_trim: r.far_trim,
    });
    rows.collect()
}

/// A gate complete.
#[derive(Serialize)]
pub(super) struct DoneEntry {
    gate: usize,
    copy: u32,
    mark: String,
    after_joint: u32,
}

/// What one saw or crew cuts.
#[derive(Serialize)]
pub(super) struct SittingEntry<'a> {
    saw: u32,
    joints: &'a [u32],
    minutes: Option<f64>,
}

/// Every joint in cutting order.
pub(super) fn joints(job: Job<'_>) -> Vec<JointEntry<'_>> {
    let kinds = CopeKinds::of(job.take_off, &job.plan.left_out);
    let joints = job.plan.joints.iter();
    joints.map(|j| joint(job, &kinds, j)).collect()
}

fn joint<'a>(job: Job<'a>, kinds: &CopeKinds, joint: &'a PlannedJoint) -> JointEntry<'a> {
    let figures = Figures::of(job.week);
    let (source, quote, rack_tag) = match joint.source {
        JointSource::Bought(quote) => ("bought", Some(quote), None),
        JointSource::Rack(piece, _) => ("rack", None, Some(job.week.rack[piece].tag.as_str())),
    };
    JointEntry {
        number: joint.number,
        pipe: joint.pipe.0,
        source,
        quote,
        rack_tag,
        length: exact(figures, joint.length),
        near_trim: exact(figures, joint.near),
        far_trim: exact(figures, joint.far),
        hold_back: exact(figures, joint.hold),
        pieces: joint
            .pieces
            .iter()
            .map(|p| piece(job, figures, kinds, p))
            .collect(),
        leftover: exact(figures, joint.leftover),
        last_cut: exact(figures, joint.last_cut),
        drop: left(figures, joint.drop, joint.kept),
        floor: left(figures, joint.floor, joint.kept),
        kept: joint.kept,
        keep_tag: joint.keep_tag.as_deref(),
        keep_if_floor_from: keep_from(job.week, joint).map(|l| exact(figures, l)),
        credit: money(Some(joint.credit)),
        measure_first: joint.measure_first,
    }
}

fn piece<'a>(
    job: Job<'a>,
    figures: Figures<'_>,
    kinds: &CopeKinds,
    piece: &'a PieceCut,
) -> PieceEntry<'a> {
    let ends = piece_ends(job, kinds, piece);
    PieceEntry {
        mark: &piece.mark,
        part: piece.part,
        copy: piece.copy,
        serial: piece.serial,
        piece: piece.piece,
        saw_length: exact(figures, piece.saw),
        throat: exact(figures, ends.throat),
        ends: ends.words,
        start: marked(figures, piece.start),
        end: marked(figures, piece.end),
        over_tape: over_tape(job, piece.end),
    }
}

/// Kept drops in joint order.
pub(super) fn kept(job: Job<'_>) -> Vec<KeptEntry<'_>> {
    let figures = Figures::of(job.week);
    let kept = job.plan.kept.iter().zip(credits(job.plan));
    let kept = kept.map(|(k, credit)| KeptEntry {
        tag: &k.tag,
        joint: k.joint,
        pipe: k.pipe.0,
        credited: left(figures, k.drop, true),
        floor: left(figures, k.floor, true),
        credit: money(Some(credit)),
    });
    kept.collect()
}

/// Gates in the order they finish.
pub(super) fn done(job: Job<'_>) -> Vec<DoneEntry> {
    let done = job.plan.done.iter().map(|d| DoneEntry {
        gate: d.gate,
        copy: d.copy,
        mark: job.copy_mark(d.gate, d.copy),
        after_joint: d.after_joint,
    });
    done.collect()
}

/// The split over saws.
pub(super) fn sittings(job: Job<'_>) -> Vec<SittingEntry<'_>> {
    let sittings = job.plan.sittings.iter().map(|s| SittingEntry {
        saw: s.saw,
        joints: &s.joints,
        minutes: rounded(s.minutes, 1),
    });
    sittings.collect()
}
