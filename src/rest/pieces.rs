//! Finished pieces: each counts for the part that it was cut for as long as that part is as it was.

use std::collections::{BTreeMap, BTreeSet};

use crate::measure::Length;
use crate::order::{BegunLine, PieceId, Week};
use crate::part::{CopeEnd, Part, TakeOff};
use crate::yard::{PieceStand, PieceState, WeekStand};

/// A finished piece that nothing of the week wants as it is now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unneeded {
    /// Its name.
    pub id: PieceId,
    /// Mark painted on it.
    pub mark: String,
    /// Its length.
    pub length: Length,
}

/// Pieces that are cut no more, and finished ones that fit their part no more.
///
/// A piece that was measured off and awaits the foreman's word is not cut again meanwhile. Of a copy that is not
/// wanted any more nothing is cut.
pub(super) fn made(
    week: &Week,
    take_off: &TakeOff,
    known: &WeekStand,
    lines: &[BegunLine],
) -> (BTreeSet<PieceId>, Vec<Unneeded>) {
    let parts = take_off.parts.iter().filter(|p| p.ours);
    let parts: BTreeMap<&str, &Part> = parts.map(|p| (p.mark.as_str(), p)).collect();
    let mut made = BTreeSet::new();
    let mut unneeded = Vec::new();
    for (id, piece) in &known.pieces {
        let PieceState::Made { length, .. } = piece.state else {
            continue;
        };
        let part = parts.get(id.mark.as_str()).copied();
        if part.is_some_and(|p| fits((week, known), p, (id, piece), lines)) {
            made.insert(id.clone());
        } else {
            unneeded.push(Unneeded {
                id: id.clone(),
                mark: piece.mark.clone(),
                length,
            });
        }
    }
    (made, unneeded)
}

/// Whether a piece is still one of its part's.
fn fits(
    (week, known): (&Week, &WeekStand),
    part: &Part,
    (id, piece): (&PieceId, &PieceStand),
    lines: &[BegunLine],
) -> bool {
    let copies = match part.gate {
        Some(gate) => 1..=week.gates.get(gate).map_or(0, |g| g.count),
        None => 0..=0,
    };
    if !copies.contains(&id.copy) || id.serial > part.per_gate {
        return false;
    }
    let mut lines = lines.iter();
    let line = lines.find(|l| l.mark == part.mark && l.copy == id.copy);
    if id.piece.is_some() || line.is_some() {
        let place = usize::try_from(id.piece.unwrap_or(1)).unwrap_or(usize::MAX);
        let own = line.and_then(|l| l.pieces.get(place.checked_sub(1)?));
        return own == Some(&piece.saw);
    }
    let off = (piece.saw - part.saw).max(part.saw - piece.saw);
    let coped = |end: &&CopeEnd| matches!(end, CopeEnd::Coped(_));
    let copes = part.ends.iter().filter(coped).count();
    week.pipe(part.pipe).key() == piece.pipe
        && off <= known.tolerance
        && usize::try_from(piece.copes) == Ok(copes)
}
