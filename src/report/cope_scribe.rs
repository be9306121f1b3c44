//! Where a template goes on each part: with its own scribe edge on the part's scribe line, or half round
//! from it. One template serves both ends of a diagonal, which look the other way; laid on without the
//! half turn it makes both of the diagonal's lines wrong.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use crate::gate::Meeting;
use crate::part::{Cope, CopeEnd, Part, TakeOff};

use super::cope_kind::{CopeKind, clock};
use super::cope_sheet::end_name;

/// How to read the column, on every sheet that has it.
pub(super) const SCRIBE_AT: &str = "SCRIBE AT: where the template's edge lies on the pipe, from the part's one scribe \
     line: 0° on it, 180° half round. Turned the wrong way an end makes both lines of a diagonal wrong: check top \
     line and under line before welding.";

/// Where the template's edge lies on the part's pipe.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Scribe {
    /// On the part's scribe line.
    On,
    /// Half round from it.
    Opposite,
}

impl Scribe {
    /// Of an end that uses a kind's template. A lone right-angled saddle looks the same from both
    /// sides and is never turned.
    pub fn of(kind: &CopeKind, cope: &Cope) -> Scribe {
        Scribe::between(&kind.meets, &cope.meets)
    }

    /// The same by the pipes that the template's first end and this end meet.
    pub fn between(first: &[Meeting], other: &[Meeting]) -> Scribe {
        let (Some(a), Some(b)) = (first.first(), other.first()) else {
            return Scribe::On;
        };
        let plain = first.len() == 1 && (a.phi - FRAC_PI_2).abs() < 1e-9;
        let between = (clock(b) - clock(a)).rem_euclid(TAU);
        match !plain && (between - PI).abs() < FRAC_PI_2 {
            true => Scribe::Opposite,
            false => Scribe::On,
        }
    }

    /// Degrees round from the scribe line.
    pub fn degrees(self) -> u32 {
        match self {
            Scribe::On => 0,
            Scribe::Opposite => 180,
        }
    }

    /// As it prints: `0°`, `180°`.
    pub fn words(self) -> String {
        format!("{}°", self.degrees())
    }
}

/// The ends of one name that take a template one way.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct ScribeRow {
    /// Where the template's edge lies.
    pub scribe: Scribe,
    /// `foot`, `head`, `latch end`, `tail end`.
    pub end: &'static str,
    /// Index into `TakeOff::parts` with the ends to cut in the week.
    pub parts: Vec<(usize, u32)>,
}

impl ScribeRow {
    /// Ends to cut in the week.
    pub fn ends(&self) -> u32 {
        let counts = self.parts.iter().map(|p| p.1);
        counts.fold(0, u32::saturating_add)
    }
}

/// A part's cope at an end.
fn cope_at(part: &Part, end: usize) -> Option<&Cope> {
    match part.ends.get(end)? {
        CopeEnd::Coped(cope) => Some(cope),
        CopeEnd::Square { .. } => None,
    }
}

/// Every way a kind's template is laid on, with who takes it so: in the shop, or, where a gate is named, of the
/// parts that its customer cuts. A kit's horizontals are the customer's to cope.
pub(super) fn scribe_rows(
    take_off: &TakeOff,
    kind: &CopeKind,
    gate: Option<usize>,
) -> Vec<ScribeRow> {
    let mut rows: Vec<ScribeRow> = Vec::new();
    for &(index, end) in &kind.uses {
        let part = &take_off.parts[index];
        let Some(cope) = cope_at(part, end) else {
            continue;
        };
        let wanted = match gate {
            None => part.ours,
            Some(_) => part.gate == gate && !part.ours,
        };
        if !wanted {
            continue;
        }
        let (scribe, name) = (Scribe::of(kind, cope), end_name(part.role, end));
        let same = |r: &&mut ScribeRow| (r.scribe, r.end) == (scribe, name);
        match rows.iter_mut().find(same) {
            Some(row) => row.parts.push((index, part.count)),
            None => rows.push(ScribeRow {
                scribe,
                end: name,
                parts: vec![(index, part.count)],
            }),
        }
    }
    rows.sort_by_key(|r| r.scribe);
    rows
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cope::{Main, setback};
    use crate::gate::{Role, branch_of, method_of};
    use crate::measure::INCH;
    use crate::order::Week;
    use crate::report::cope_kind::CopeKinds;
    use crate::report::cope_sheet::cope_sheet;
    use crate::report::print_text::print_text;
    use crate::report::world::world;

    /// Setback that a kind's template gives a part's surface line at a clock, its edge laid `at` degrees
    /// from the part's scribe line.
    fn as_laid(week: &Week, kind: &CopeKind, at: u32, theta: f64) -> f64 {
        let mains: Vec<Main> = kind
            .meets
            .iter()
            .map(|m| Main {
                radius: week.pipe(m.pipe).radius(),
                phi: m.phi,
                beta: m.beta,
                offset: m.offset,
                station: m.station,
            })
            .collect();
        let branch = branch_of(week, kind.branch);
        let from_edge = theta - f64::from(at).to_radians();
        setback(&branch, &mains, method_of(kind.cut), from_edge).expect("a line that touches")
    }

    /// What the sheet says makes the lines that the part has; without the half turn both are off by
    /// more than 3/8 in, one long and one short. Lines: `part`, by the cope geometry held against
    /// outside references.
    #[test]
    fn a_diagonal_is_right_as_the_sheet_says_and_wrong_without_the_half_turn() {
        let world = world();
        let kinds = CopeKinds::of(&world.take_off, &[]);
        let (mut turned, mut parts) = (0, 0);
        for (index, part) in world.take_off.parts.iter().enumerate() {
            if part.role != Some(Role::Diagonal) {
                continue;
            }
            let ends = [0, 1].map(|end| {
                let kind = kinds.at(index, end).expect("coped");
                let rows = scribe_rows(&world.take_off, kind, None);
                let name = end_name(part.role, end);
                let of = |r: &&ScribeRow| r.end == name && r.parts.iter().any(|p| p.0 == index);
                (kind, rows.iter().find(of).expect("listed").scribe)
            });
            let line = |at: [u32; 2], theta: f64| {
                let short = |i: usize| as_laid(&world.week, ends[i].0, at[i], theta);
                part.axis - short(0) - short(1)
            };
            let (top, under) = (
                part.top_line.expect("a line"),
                part.under_line.expect("a line"),
            );
            let said = ends.map(|e| e.1.degrees());
            assert!((line(said, PI) - top).abs() < 1e-6 * INCH, "{}", part.mark);
            assert!(
                (line(said, 0.0) - under).abs() < 1e-6 * INCH,
                "{}",
                part.mark
            );
            parts += 1;
            if said != [0, 0] {
                turned += 1;
                let (long, short) = (line([0, 0], PI) - top, line([0, 0], 0.0) - under);
                assert!(
                    (long + short).abs() < 1e-6 * INCH,
                    "{}: one each way",
                    part.mark
                );
                assert!(long.abs() >= 0.375 * INCH, "{}: {}", part.mark, long / INCH);
            }
        }
        assert!(
            turned > 0 && turned == parts,
            "{turned} of {parts} diagonals"
        );
    }

    #[test]
    fn the_cope_sheet_says_where_to_scribe_every_end() {
        let world = world();
        let kinds = CopeKinds::of(&world.take_off, &[]);
        let text = print_text(&cope_sheet(world.job(), &kinds));
        assert!(text.contains("SCRIBE AT"), "{text}");
        for kind in &kinds.kinds {
            for row in scribe_rows(&world.take_off, kind, None) {
                for (index, _) in &row.parts {
                    let mark = &world.take_off.parts[*index].mark;
                    let said = |l: &&str| {
                        let name = l.contains(row.end) || l.contains("both");
                        l.contains(mark) && name && l.contains(&row.scribe.words())
                    };
                    assert!(text.lines().any(|l| said(&l)), "{mark} {row:?} in {text}");
                }
            }
        }
    }
}
