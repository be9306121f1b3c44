//! What `--partial` left out of the plan: asked by every sheet.

use crate::order::Impossible;
use crate::part::Part;

/// Marks named in a head before the rest are counted.
const NAMED: usize = 8;

/// Whether a gate order is left out.
pub(super) fn gate_out(left_out: &[Impossible], gate: usize) -> bool {
    left_out.iter().any(|i| i.gate == Some(gate))
}

/// Whether a part belongs to what is left out.
pub(super) fn part_out(left_out: &[Impossible], part: &Part) -> bool {
    let same = |i: &Impossible| {
        (i.gate.is_some() && i.gate == part.gate) || (i.extra.is_some() && i.extra == part.extra)
    };
    left_out.iter().any(same)
}

/// The marks left out, for the head of a sheet: `Z2, Z3`; empty when nothing is.
pub(super) fn marks_out(left_out: &[Impossible]) -> String {
    let mut marks: Vec<&str> = Vec::new();
    for item in left_out {
        if !marks.contains(&item.mark.as_str()) {
            marks.push(&item.mark);
        }
    }
    let more = marks.len().saturating_sub(NAMED);
    marks.truncate(NAMED);
    let mut words = super::table::clean(&marks.join(", "));
    if more > 0 {
        words.push_str(&format!(" and {more} more"));
    }
    words
}
