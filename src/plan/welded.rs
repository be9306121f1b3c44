//! Spliced lines as they are welded: centres, bays, distances to the bay lines.

use super::owner::Made;
use super::still::stays;
use super::{Splice, SplicedLine};
use crate::measure::Length;
use crate::order::Week;
use crate::part::TakeOff;
use crate::splice::{SpliceLine, SpliceSet, Track, Window, track_of};

/// Every line made of more than one piece, in week order, copies in order.
pub(crate) fn welded(
    week: &Week,
    take_off: &TakeOff,
    sets: &[SpliceSet],
    made: &[Made],
) -> Vec<SplicedLine> {
    let mut order: Vec<&Made> = made.iter().filter(|m| m.pieces.len() > 1).collect();
    order.sort_by_key(|m| (m.set, m.copy, m.line));
    order
        .into_iter()
        .filter_map(|m| {
            let set = &sets[m.set];
            let pieces = m.pieces.iter().map(|p| Length::from_ticks(*p)).collect();
            weld(week, take_off, set, m.line, m.copy, pieces)
        })
        .collect()
}

/// One spliced line; `None` when the gate's frame is missing (never for a set made from it).
pub(crate) fn weld(
    week: &Week,
    take_off: &TakeOff,
    set: &SpliceSet,
    line: usize,
    copy: u32,
    pieces: Vec<Length>,
) -> Option<SplicedLine> {
    let frame = take_off.frames.iter().find(|f| f.gate == set.gate)?;
    let spec = &set.lines[line];
    let part = &take_off.parts[spec.part];
    let mut track = track_of(week, &week.gates[set.gate], frame, part);
    track.bending = set.bending.clone().zip(spec.horizontal);
    let m = i64::try_from(pieces.len()).ok()? - 1;
    let metal: Length = pieces.iter().copied().sum();
    let slack = (spec.long - metal).ticks();
    let mut before = 0;
    let mut splices = Vec::new();
    for (j, piece) in (1..=m).zip(&pieces) {
        before += piece.ticks();
        let twice_m = 2 * m * before + (2 * j - 1) * slack;
        splices.push(splice(spec, &track, m, twice_m));
    }
    Some(SplicedLine {
        part: spec.part,
        copy,
        serial: 1,
        stays: stays(week, take_off, spec.part, copy),
        gap: ratio(slack, m.max(1)),
        pieces,
        splices,
        form: set.form,
    })
}

/// Exact quotient as geometry's `f64` (both well under 2^53).
fn ratio(a: i64, b: i64) -> f64 {
    Length::from_ticks(a).geometric() / Length::from_ticks(b).geometric()
}

/// The window a centre lies in, the centre given × 2m; a plain one before a tolerated one.
pub(crate) fn window_of(line: &SpliceLine, m: i64, centre: i64) -> Option<&Window> {
    line.windows
        .iter()
        .filter(|w| w.lo.ticks() * 2 * m <= centre && centre <= w.hi.ticks() * 2 * m)
        .min_by_key(|w| (w.class, w.tolerated))
}

fn splice(spec: &SpliceLine, track: &Track, m: i64, twice_m: i64) -> Splice {
    let centre = ratio(twice_m, 2 * m);
    let station = track.long_at + centre;
    let window = window_of(spec, m, twice_m);
    let bay = window.map_or(0, |w| w.bay);
    let line_at = |i: u32| {
        usize::try_from(i)
            .ok()
            .and_then(|i| track.lines.get(i))
            .copied()
            .unwrap_or(f64::NAN)
    };
    Splice {
        centre,
        x: spec.horizontal.map(|_| station),
        bay,
        from_latch_side: station - line_at(bay.saturating_sub(1)),
        from_tail_side: line_at(bay) - station,
        window: window.map_or((Length::ZERO, Length::ZERO), |w| (w.lo, w.hi)),
        roller_bay: window.is_some_and(|w| w.roller_bay),
        tolerated: window.is_some_and(|w| w.tolerated),
        class: window.map_or(crate::splice::WindowClass::ByOrder, |w| w.class),
        rel: track
            .bending
            .as_ref()
            .map(|(envelope, line)| envelope.rel(*line, station)),
    }
}
