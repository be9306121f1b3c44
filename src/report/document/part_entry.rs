//! Parts and their ends.

use serde::Serialize;

use crate::order::{Impossible, Paperwork, Week};
use crate::part::{CopeEnd, Part, TakeOff};

use super::super::cope_kind::{CopeKinds, acute, clock};
use super::super::cope_sheet::method;
use super::super::figures::Figures;
use super::super::job::role_name;
use super::super::left_out::part_out;
use super::quantity::{Exact, Geometric, degrees, exact, geometric, rounded};

/// One kind of part.
#[derive(Serialize)]
pub(super) struct PartEntry<'a> {
    mark: &'a str,
    gate: Option<usize>,
    role: &'static str,
    pipe: usize,
    per_gate: u32,
    count: u32,
    saw_length: Exact,
    axis: Geometric,
    long_point: Geometric,
    throat: Exact,
    throat_exact: Geometric,
    top_line: Option<Geometric>,
    under_line: Option<Geometric>,
    cut: &'static str,
    ends: Vec<EndEntry>,
    swaps_in_last_bay: bool,
    weight_each: Option<f64>,
    ours: bool,
    /// Belongs to what `left_out` names: in no joint.
    left_out: bool,
    /// Of a plain part; a gate's stands with the gate.
    #[serde(skip_serializing_if = "Option::is_none")]
    paperwork: Option<&'a Paperwork>,
    file: &'a str,
    line: u32,
}

/// One end: square, or coped by a numbered profile.
#[derive(Serialize)]
pub(super) struct EndEntry {
    cope: Option<usize>,
    capped: bool,
    /// Along the axis from the foot: at the long point, and at the throat.
    setback_least: Option<Geometric>,
    setback_largest: Option<Geometric>,
    cutback: Option<Geometric>,
    feather: bool,
    blunted: Option<Geometric>,
    meets: Vec<MeetEntry>,
}

/// A pipe that an end meets.
#[derive(Serialize)]
pub(super) struct MeetEntry {
    pipe: usize,
    member: &'static str,
    angle_deg: Option<f64>,
    clock_deg: Option<f64>,
}

/// Every part of the week, in take-off order; other entries refer to them by index.
pub(super) fn parts<'a>(
    week: &'a Week,
    take_off: &'a TakeOff,
    left_out: &[Impossible],
) -> Vec<PartEntry<'a>> {
    let kinds = CopeKinds::of(take_off, left_out);
    let parts = take_off.parts.iter().enumerate();
    parts
        .map(|(i, p)| PartEntry {
            left_out: part_out(left_out, p),
            ..part(week, &kinds, i, p)
        })
        .collect()
}

fn part<'a>(week: &'a Week, kinds: &CopeKinds, index: usize, part: &'a Part) -> PartEntry<'a> {
    let figures = Figures::of(week);
    let origin = match (part.gate, part.extra) {
        (Some(gate), _) => Some(&week.gates[gate].origin),
        (None, Some(extra)) => Some(&week.extras[extra].origin),
        (None, None) => None,
    };
    PartEntry {
        mark: &part.mark,
        gate: part.gate,
        role: role_name(part.role),
        pipe: part.pipe.0,
        per_gate: part.per_gate,
        count: part.count,
        saw_length: exact(figures, part.saw),
        axis: geometric(figures, part.axis),
        long_point: geometric(figures, part.long_exact),
        throat: exact(figures, part.throat),
        throat_exact: geometric(figures, part.throat_exact),
        top_line: part.top_line.map(|l| geometric(figures, l)),
        under_line: part.under_line.map(|l| geometric(figures, l)),
        cut: method(part.cut),
        ends: (0..2)
            .map(|e| end(figures, &part.ends[e], kinds.at(index, e).map(|k| k.number)))
            .collect(),
        swaps_in_last_bay: part.swaps_in_last_bay,
        weight_each: rounded(part.weight, 4),
        ours: part.ours,
        left_out: false,
        paperwork: part
            .extra
            .map(|extra| &week.extras[extra].paperwork)
            .filter(|p| !p.none()),
        file: origin.map_or("", |o| &o.file),
        line: origin.map_or(0, |o| o.line),
    }
}

fn end(figures: Figures<'_>, end: &CopeEnd, number: Option<usize>) -> EndEntry {
    match end {
        CopeEnd::Square { capped } => EndEntry {
            cope: None,
            capped: *capped,
            setback_least: None,
            setback_largest: None,
            cutback: None,
            feather: false,
            blunted: None,
            meets: Vec::new(),
        },
        CopeEnd::Coped(cope) => EndEntry {
            cope: number,
            capped: false,
            setback_least: Some(geometric(figures, cope.cut.s_long)),
            setback_largest: Some(geometric(figures, cope.cut.s_short)),
            cutback: Some(geometric(figures, cope.cut.cutback)),
            feather: cope.cut.feather,
            blunted: cope.blunted.map(|b| geometric(figures, b)),
            meets: cope
                .meets
                .iter()
                .map(|m| MeetEntry {
                    pipe: m.pipe.0,
                    member: role_name(Some(m.role)),
                    angle_deg: degrees(acute(m.phi)),
                    clock_deg: degrees(clock(m)),
                })
                .collect(),
        },
    }
}
