//! `Lane`: one line that may be spliced, by the judge's own arithmetic from the order: stations of
//! bay lines along it, its long point, what its welds and rollers forbid.
//!
//! Stations are x on a horizontal and the arc length from the latch end on a sway brace; p is the
//! station less that of the latch-end long point.

use std::sync::Arc;

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::outline::Outline;
use super::piece;
use crate::gate::Role;
use crate::measure::Length;
use crate::order::{Carrier, GateOrder, Lean, PipeId, Week};
use crate::statics::{Envelope, Line};

/// What a bay line's welds take of the pipe, from the vertical's centre line (ticks).
#[derive(Clone, Copy, Debug)]
pub(super) struct Toe {
    /// Toward the latch end.
    pub(super) before: f64,
    /// Toward the tail.
    pub(super) behind: f64,
}

/// One line by stations.
#[derive(Clone, Debug)]
pub(super) struct Lane {
    /// Its pipe.
    pub(super) pipe: PipeId,
    /// Station of the latch-end long point.
    pub(super) long_at: f64,
    /// Stations of bay lines 0..=n.
    pub(super) lines: Vec<f64>,
    /// Welds at each bay line.
    pub(super) toes: Vec<Toe>,
    /// Brackets: station and half width.
    pub(super) brackets: Vec<(f64, f64)>,
    /// Clear distance from every toe.
    pub(super) clear: f64,
    /// Parked rollers.
    pub(super) parked: Vec<f64>,
    /// Rollers run along it.
    pub(super) carries: bool,
    /// The order permits splices over the refused share of the gate's peak.
    pub(super) high_stress: bool,
    /// Bays the order excludes.
    pub(super) excluded: Vec<u32>,
    /// The gate's bending and which of its lines this is; `None`: not computed, or a brace.
    pub(super) bending: Option<(Arc<Envelope>, Line)>,
}

/// A setting's fraction as geometry's number; NaN fails every rule that asks for it.
pub(super) fn fraction(d: Decimal) -> f64 {
    d.to_f64().unwrap_or(f64::NAN)
}

impl Lane {
    /// The lane of a gate's horizontal or sway brace; `None` for any other role.
    pub(super) fn of(
        week: &Week,
        order: &GateOrder,
        own: &Outline,
        role: Role,
        bending: Option<&Arc<Envelope>>,
    ) -> Option<Lane> {
        match role {
            Role::TopHorizontal | Role::BottomHorizontal => {
                let lane = horizontal(week, order, own, role)?;
                let bending = bending.cloned().zip(Line::of(role));
                Some(Lane { bending, ..lane })
            }
            Role::SwayBrace => Some(brace(week, order, own)),
            _ => None,
        }
    }

    /// Whether a bay (1..n) is a roller bay (DESIGN §8 rule 3).
    pub(super) fn roller_bay(&self, week: &Week, bay: u32) -> bool {
        let Some((envelope, line)) = &self.bending else {
            return self.carries;
        };
        let bay = usize::try_from(bay).unwrap_or(0);
        let limit = fraction(week.shop.splice.roller_bay_from);
        envelope.bay_peak(*line, bay) >= limit * envelope.peak()
    }

    /// Stress at a station as a share of the gate's peak, when it is computed.
    pub(super) fn rel(&self, x: f64) -> Option<f64> {
        let (envelope, line) = self.bending.as_ref()?;
        Some(envelope.rel(*line, x))
    }

    /// One bay, the longest of the lane: a piece is never shorter.
    pub(super) fn longest_bay(&self) -> f64 {
        let widths = self.lines.windows(2).map(|w| w[1] - w[0]);
        widths.fold(0.0, f64::max)
    }

    /// Latch-side and tail-side bay line of bay 1..n.
    pub(super) fn bay(&self, bay: u32) -> Option<(f64, f64)> {
        let bay = usize::try_from(bay).ok()?;
        Some((*self.lines.get(bay.checked_sub(1)?)?, *self.lines.get(bay)?))
    }

    /// Number of bays.
    pub(super) fn bays(&self) -> u32 {
        u32::try_from(self.lines.len().saturating_sub(1)).unwrap_or(u32::MAX)
    }
}

/// Rule 1: 1.5 OD, never less than the larger of 1 OD and 2 in.
fn clear(week: &Week, pipe: PipeId) -> f64 {
    let rules = &week.shop.splice;
    let od = week.pipe(pipe).diameter();
    let least = (fraction(rules.clear_least_ods) * od).max(rules.clear_least.geometric());
    (fraction(rules.clear_ods) * od).max(least)
}

fn horizontal(week: &Week, order: &GateOrder, own: &Outline, role: Role) -> Option<Lane> {
    let (pipes, rules) = (&order.pipes, &week.shop.splice);
    let bottom = role == Role::BottomHorizontal;
    // Its latch-end long point: end post's axis plus the least setback there; *through*: the end.
    let long_at = piece::horizontal_start(week, order, own)?;
    let plain = week.pipe(pipes.vertical).radius() + rules.leg.geometric();
    let landing = |bay: usize| {
        let offset = week.shop.gate.landing_offset.geometric();
        let alpha = own.alpha(bay, offset);
        let along = week.pipe(pipes.horizontal).diameter() / (2.0 * alpha.tan());
        let half = week.pipe(pipes.diagonal).radius() / alpha.sin();
        plain.max(along + half + rules.leg.geometric() + offset)
    };
    // The foot of a diagonal that leans its head to the tail stands at the latch side of its bay:
    // behind that bay's first line on the bottom, before its last line on the top.
    let behind_line = bottom == (own.lean == Lean::HeadToTail);
    let toes = (0..own.bay_lines.len())
        .map(|line| Toe {
            before: if !behind_line && line >= 1 {
                landing(line)
            } else {
                plain
            },
            behind: if behind_line && line < own.bays() {
                landing(line + 1)
            } else {
                plain
            },
        })
        .collect();
    let carrier = order.rolling.carrier.unwrap_or(week.shop.gate.carrier);
    let half = rules.bracket_half_width.geometric();
    Some(Lane {
        pipe: pipes.horizontal,
        long_at,
        lines: own.bay_lines.clone(),
        toes,
        brackets: rules
            .brackets
            .iter()
            .chain(&order.brackets)
            .map(|b| (b.geometric(), half))
            .collect(),
        clear: clear(week, pipes.horizontal),
        parked: own.rollers.to_vec(),
        carries: carrier == Carrier::Both || (carrier == Carrier::Bottom) == bottom,
        high_stress: order.high_stress,
        excluded: order.excluded_bays.clone(),
        bending: None,
    })
}

/// A sway brace along its arc, latch end at 0; standoffs stand at bay lines, no roller touches it.
fn brace(week: &Week, order: &GateOrder, own: &Outline) -> Lane {
    let arc = piece::Arc::of(week, own);
    let toe = week.pipe(order.pipes.sway).radius() + week.shop.splice.leg.geometric();
    let ends = week.shop.sway.end_allowance.geometric();
    let lines: Vec<f64> = own
        .bay_lines
        .iter()
        .map(|x| ends + arc.along(x - own.bay_lines[0]))
        .collect();
    Lane {
        pipe: order.pipes.sway,
        long_at: 0.0,
        toes: vec![
            Toe {
                before: toe,
                behind: toe
            };
            lines.len()
        ],
        lines,
        brackets: Vec::new(),
        clear: clear(week, order.pipes.sway),
        parked: Vec::new(),
        carries: false,
        high_stress: false,
        excluded: order.excluded_bays.clone(),
        bending: None,
    }
}

/// Least piece of a spliced line, whole marks: one bay or the setting, the larger.
pub(super) fn least_piece(week: &Week, lane: &Lane) -> Length {
    let mark = week.shop.saw.mark;
    let least = lane
        .longest_bay()
        .max(week.shop.splice.least_piece.geometric());
    Length::ceil_mark(least, mark).max(mark)
}
