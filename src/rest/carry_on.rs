//! Carrying on by the sheets at hand: every joint that is not cut to its end, with what it is cut from now.

use std::collections::{BTreeMap, BTreeSet};

use super::{Lot, pipe_of};
use crate::measure::Length;
use crate::order::{PieceId, Week};
use crate::plan::TailJoint;
use crate::stock::StockOrigin;
use crate::yard::{JointStand, LineStand, Source, WeekStand};

/// The joints of the sheets at hand, or why they cannot be followed to their end.
///
/// # Errors
/// The first joint that cannot be cut any more, or the first piece that no sheet makes.
pub(super) fn carry_on(
    rest: &Week,
    known: &WeekStand,
    lots: &[Lot],
) -> Result<Vec<TailJoint>, String> {
    let left = rest.rack.iter().enumerate();
    let mut left: BTreeMap<usize, u32> = left.map(|(row, r)| (row, r.count)).collect();
    let mut out = Vec::new();
    let open = known.joints.iter().filter(|(_, j)| !j.void && !j.over);
    for (number, joint) in open {
        let origin = origin((rest, known, lots), *number, joint, &mut left)?;
        let pieces = joint.pieces.iter().skip(joint.cut);
        let pieces: Vec<_> = pieces.map(|p| (p.id.clone(), p.saw)).collect();
        if let Some((id, _)) = pieces.iter().find(|(id, _)| rest.begun.made.contains(id)) {
            return Err(format!("joint {number} cuts {id}, which is made already"));
        }
        out.push(TailJoint { origin, pieces });
    }
    let on_sheets: BTreeSet<&PieceId> = out
        .iter()
        .flat_map(|j| j.pieces.iter().map(|(id, _)| id))
        .collect();
    let mut missing = known.pieces.iter().filter(|(_, p)| p.wanted && !p.made());
    match missing.find(|(id, _)| !on_sheets.contains(id)) {
        None => Ok(out),
        Some((_, piece)) => Err(format!("{} is on no sheet any more", piece.mark)),
    }
}

/// What a joint is cut from; one of it is then taken.
fn origin(
    (rest, known, lots): (&Week, &WeekStand, &[Lot]),
    number: u32,
    joint: &JointStand,
    left: &mut BTreeMap<usize, u32>,
) -> Result<StockOrigin, String> {
    let lies = |row: usize| left.get(&row).is_some_and(|n| *n > 0);
    let rows = || (0..lots.len()).filter(|row| lies(*row));
    let row = if joint.begun() {
        rows().find(|row| lots[*row] == Lot::Begun(number))
    } else {
        match &joint.source {
            Source::Remnant(id) => rows().find(|row| lots[*row] == Lot::Remnant(id.clone())),
            Source::Line(line) => {
                let long = |row: &usize| rest.rack[*row].length >= joint.least();
                let here = rows()
                    .filter(|row| lots[*row] == Lot::Here(*line))
                    .filter(long);
                let here = here.min_by_key(|row| {
                    let length = rest.rack[*row].length;
                    (length != joint.length, length)
                });
                here.or_else(|| rows().find(|row| lots[*row] == Lot::OnOrder(*line)))
            }
        }
    };
    if let Some(row) = row {
        left.entry(row).and_modify(|n| *n -= 1);
        return Ok(StockOrigin::Rack(row));
    }
    let line = match &joint.source {
        Source::Line(line) => known.lines.get(line),
        Source::Remnant(_) => None,
    };
    let quote = line
        .filter(|_| !joint.begun())
        .and_then(|line| quote_of(rest, line));
    quote.map(StockOrigin::Quote).ok_or_else(|| {
        format!(
            "joint {number} has no pipe of {} to be cut from",
            joint.least()
        )
    })
}

/// The joint on sale that a line orders, where some of it is still to be had.
fn quote_of(rest: &Week, line: &LineStand) -> Option<usize> {
    let pipe = pipe_of(rest, &line.pipe)?;
    rest.quotes.iter().position(|q| {
        q.pipe == pipe
            && q.nominal == line.nominal
            && q.supplier == line.supplier
            && q.planning >= line.planning
            && q.available.is_none_or(|n| n > 0)
            && line.to_order() > 0
            && q.planning > Length::ZERO
    })
}
