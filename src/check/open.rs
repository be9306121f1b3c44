//! What of the take-off is still to be cut, by the judge's own count: the pieces made are struck off one by one.

use std::collections::{BTreeMap, BTreeSet};

use super::case::Case;
use crate::measure::Length;
use crate::order::BegunLine;

/// (copy, serial, piece of a line or 0) of one part.
type Place = (u32, u32, u32);

/// Pieces made and lines that stay, by part.
#[derive(Default)]
pub(super) struct Open<'a> {
    made: BTreeMap<usize, BTreeSet<Place>>,
    lines: BTreeMap<usize, Vec<&'a BegunLine>>,
}

impl<'a> Open<'a> {
    /// Reads what the week says is made.
    pub(super) fn of(case: &Case<'a>) -> Open<'a> {
        let mut open = Open::default();
        let begun = &case.week.begun;
        if begun.none() {
            return open;
        }
        let parts = case.take_off.parts.iter().enumerate();
        let index: BTreeMap<&str, usize> = parts.map(|(i, p)| (p.mark.as_str(), i)).collect();
        for id in &begun.made {
            if let Some(part) = index.get(id.mark.as_str()) {
                let place = (id.copy, id.serial, id.piece.unwrap_or(0));
                open.made.entry(*part).or_default().insert(place);
            }
        }
        for line in &begun.lines {
            if let Some(part) = index.get(line.mark.as_str()) {
                open.lines.entry(*part).or_default().push(line);
            }
        }
        open
    }

    /// Whether a piece is made.
    pub(super) fn made(&self, part: usize, place: Place) -> bool {
        self.made.get(&part).is_some_and(|m| m.contains(&place))
    }

    /// The line of a part of one copy, where it stays as it was handed out.
    pub(super) fn line(&self, part: usize, copy: u32) -> Option<&'a BegunLine> {
        let mut lines = self.lines.get(&part)?.iter();
        lines.find(|l| l.copy == copy).copied()
    }

    /// How many pieces of a part are still to be cut whole, lines that stay left out.
    pub(super) fn plain(&self, case: &Case<'_>, part: usize) -> u32 {
        let taken = &case.take_off.parts[part];
        let stay = self.lines.get(&part).map_or(0, Vec::len);
        let stay = u32::try_from(stay).unwrap_or(u32::MAX);
        let whole = |(copy, _, piece): &&Place| *piece == 0 && self.line(part, *copy).is_none();
        let made = self.made.get(&part);
        let made = made.map_or(0, |m| m.iter().filter(whole).count());
        let made = u32::try_from(made).unwrap_or(u32::MAX);
        let gone = stay.saturating_mul(taken.per_gate).saturating_add(made);
        taken.count.saturating_sub(gone)
    }

    /// Lengths still to be cut of a part's lines that stay.
    pub(super) fn of_lines(&self, part: usize) -> impl Iterator<Item = Length> + use<'_, 'a> {
        let lines = self.lines.get(&part).into_iter().flatten();
        lines.flat_map(move |line| {
            let spliced = line.pieces.len() > 1;
            let numbered = (1u32..).zip(&line.pieces);
            numbered.filter_map(move |(n, length)| {
                let number = if spliced { n } else { 0 };
                (!self.made(part, (line.copy, 1, number))).then_some(*length)
            })
        })
    }
}
