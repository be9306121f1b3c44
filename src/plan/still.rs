//! What of a part is still to be cut, beside the lines whose splices are open.

use std::collections::BTreeMap;

use crate::measure::Length;
use crate::order::{PieceId, PipeId, Week};
use crate::part::TakeOff;
use crate::splice::SpliceSet;

/// A piece of a line that stays as it was handed out, still to be cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Settled {
    pub part: usize,
    pub copy: u32,
    pub piece: Option<u32>,
    pub length: Length,
}

/// Pieces still to be cut of one copy's plain part: which of the like ones, 1...
pub(crate) fn serials(week: &Week, take_off: &TakeOff, part: usize, copy: u32) -> Vec<u32> {
    let part = &take_off.parts[part];
    let all = 1..=part.per_gate;
    if week.begun.none() {
        return all.collect();
    }
    if week.begun.line(&part.mark, copy).is_some() {
        return Vec::new();
    }
    let made = |serial: &u32| {
        week.begun.made.contains(&PieceId {
            mark: part.mark.clone(),
            copy,
            serial: *serial,
            piece: None,
        })
    };
    all.filter(|serial| !made(serial)).collect()
}

/// How many pieces of each plain part are still to be cut, by index; a part that is not in it: all.
pub(crate) fn counts(week: &Week, take_off: &TakeOff) -> BTreeMap<usize, u32> {
    if week.begun.none() {
        return BTreeMap::new();
    }
    let parts = take_off.parts.iter().enumerate();
    parts
        .map(|(index, part)| {
            let copies = match part.gate {
                Some(gate) => 1..=week.gates[gate].count,
                None => 0..=0,
            };
            let each = copies.map(|copy| serials(week, take_off, index, copy).len());
            (
                index,
                u32::try_from(each.sum::<usize>()).unwrap_or(u32::MAX),
            )
        })
        .collect()
}

/// As [`counts`], the lines that stay with them.
pub(crate) fn still_of(week: &Week, take_off: &TakeOff) -> BTreeMap<usize, u32> {
    let mut out = counts(week, take_off);
    for piece in settled(week, take_off, |_| true) {
        *out.entry(piece.part).or_default() += 1;
    }
    out
}

/// Pieces still to be cut of the lines of some pipes that stay as they were handed out, in week order.
pub(crate) fn settled(
    week: &Week,
    take_off: &TakeOff,
    of: impl Fn(PipeId) -> bool,
) -> Vec<Settled> {
    let mut out = Vec::new();
    for line in &week.begun.lines {
        let mine = |p: &crate::part::Part| p.mark == line.mark && p.ours && p.count > 0;
        let Some(part) = take_off.parts.iter().position(mine) else {
            continue;
        };
        if !of(take_off.parts[part].pipe) {
            continue;
        }
        for (number, length) in (1u32..).zip(&line.pieces) {
            let id = line.piece(number);
            if !week.begun.made.contains(&id) {
                out.push(Settled {
                    part,
                    copy: line.copy,
                    piece: id.piece,
                    length: *length,
                });
            }
        }
    }
    out.sort_by_key(|s| (s.part, s.copy, s.piece));
    out
}

/// Whether the line of a part of one copy stays as it was handed out.
pub(crate) fn stays(week: &Week, take_off: &TakeOff, part: usize, copy: u32) -> bool {
    let part = take_off.parts.get(part);
    part.is_some_and(|p| week.begun.line(&p.mark, copy).is_some())
}

/// The set and the place in it of a part's line.
pub(crate) fn line_of_set(sets: &[SpliceSet], part: usize) -> Option<(usize, usize)> {
    let mut sets = sets.iter().enumerate();
    sets.find_map(|(s, set)| Some((s, set.lines.iter().position(|l| l.part == part)?)))
}
