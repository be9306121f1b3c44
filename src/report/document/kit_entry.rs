//! Advice for kits.

use serde::Serialize;

use crate::plan::{KitJoint, KitOption};

use super::super::figures::Figures;
use super::super::job::Job;
use super::quantity::{Exact, exact, left, marked};
use super::splice_entry::{LineEntry, entry};

/// One kit gate order.
#[derive(Serialize)]
pub(super) struct KitEntry<'a> {
    gate: usize,
    options: Vec<OptionEntry<'a>>,
}

/// One local joint length.
#[derive(Serialize)]
pub(super) struct OptionEntry<'a> {
    joint: Exact,
    joints_per_gate: u32,
    cuts: Vec<KitJointEntry<'a>>,
    lines: Vec<LineEntry>,
    refused: Option<&'a str>,
}

/// One local joint.
#[derive(Serialize)]
pub(super) struct KitJointEntry<'a> {
    pieces: Vec<KitPieceEntry<'a>>,
    floor: Exact,
}

/// One piece of a local joint.
#[derive(Serialize)]
pub(super) struct KitPieceEntry<'a> {
    mark: &'a str,
    part: usize,
    piece: Option<u32>,
    saw_length: Exact,
    start: Exact,
    end: Exact,
}

/// Every kit gate order.
pub(super) fn kits(job: Job<'_>) -> Vec<KitEntry<'_>> {
    let figures = Figures::of(job.week);
    let kits = job.plan.kits.iter().map(|kit| KitEntry {
        gate: kit.gate,
        options: kit
            .options
            .iter()
            .map(|o| option(job, figures, o))
            .collect(),
    });
    kits.collect()
}

fn option<'a>(job: Job<'_>, figures: Figures<'_>, option: &'a KitOption) -> OptionEntry<'a> {
    let lines = option.lines.iter().map(|line| {
        let part = &job.take_off.parts[line.part];
        entry(figures, line).marked(part.mark.clone())
    });
    OptionEntry {
        joint: exact(figures, option.joint),
        joints_per_gate: option.joints_per_gate,
        cuts: option.cuts.iter().map(|c| cut(figures, c)).collect(),
        lines: lines.collect(),
        refused: option.refused.as_deref(),
    }
}

fn cut<'a>(figures: Figures<'_>, joint: &'a KitJoint) -> KitJointEntry<'a> {
    let pieces = joint.pieces.iter().map(|p| KitPieceEntry {
        mark: &p.mark,
        part: p.part,
        piece: p.piece,
        saw_length: exact(figures, p.saw),
        start: marked(figures, p.start),
        end: marked(figures, p.end),
    });
    KitJointEntry {
        pieces: pieces.collect(),
        floor: left(figures, joint.floor, false),
    }
}
