//! Lines that may be spliced and of which a piece is made: they stay as they were handed out.

use std::collections::BTreeMap;

use crate::measure::Length;
use crate::order::{BegunLine, PieceId, Week};
use crate::part::TakeOff;
use crate::splice::{SpliceSet, sets};
use crate::yard::{PieceStand, WeekStand};

/// (part's mark, copy) → piece number → saw length, of the pieces that a plan handed out or a saw made.
type HandedOut<'a> = BTreeMap<(&'a str, u32), BTreeMap<u32, (&'a PieceId, &'a PieceStand)>>;

/// Every line of every gate copy of which one line has a piece made, where they still fit their gate.
pub(super) fn begun(week: &Week, take_off: &TakeOff, known: &WeekStand) -> Vec<BegunLine> {
    let mut handed_out = HandedOut::new();
    for (id, piece) in &known.pieces {
        if piece.wanted || piece.made() {
            let line = handed_out.entry((id.mark.as_str(), id.copy)).or_default();
            if id.serial == 1 {
                line.insert(id.piece.unwrap_or(1), (id, piece));
            }
        }
    }
    let (sets, _) = sets(week, take_off);
    let mut out = Vec::new();
    for set in &sets {
        let count = week.gates.get(set.gate).map_or(0, |g| g.count);
        for copy in 1..=count {
            out.extend(of_copy(week, take_off, set, copy, &handed_out).unwrap_or_default());
        }
    }
    out
}

/// The lines of one copy as they were handed out; `None`: none is begun, or they are another gate's by now.
fn of_copy(
    week: &Week,
    take_off: &TakeOff,
    set: &SpliceSet,
    copy: u32,
    handed_out: &HandedOut<'_>,
) -> Option<Vec<BegunLine>> {
    let mut lines = Vec::new();
    let mut begun = false;
    for line in &set.lines {
        let mark = take_off.parts.get(line.part)?.mark.as_str();
        let pieces = handed_out.get(&(mark, copy))?;
        begun |= pieces.values().any(|(_, p)| p.made());
        let lengths: Vec<Length> = pieces.values().map(|(_, p)| p.saw).collect();
        let numbered = pieces
            .keys()
            .copied()
            .eq(1..=u32::try_from(lengths.len()).ok()?);
        let pipe = week.pipe(take_off.parts[line.part].pipe).key();
        let same_pipe = pieces.values().all(|(_, p)| p.pipe == pipe);
        if !numbered || !same_pipe || !comes_to(week, line, &lengths) {
            return None;
        }
        lines.push(BegunLine {
            mark: mark.to_owned(),
            copy,
            pieces: lengths,
        });
    }
    begun.then_some(lines)
}

/// Whether pieces of these lengths make the line: whole, or welded with the root gap.
fn comes_to(week: &Week, line: &crate::splice::SpliceLine, pieces: &[Length]) -> bool {
    if let [whole] = pieces {
        return *whole == line.whole;
    }
    let splices = i64::try_from(pieces.len()).unwrap_or(i64::MAX) - 1;
    let metal: Length = pieces.iter().copied().sum();
    let wanted = line.long - week.shop.splice.root_gap * splices;
    metal == wanted.down_to(week.shop.saw.mark)
}
