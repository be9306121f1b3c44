//! Each coped end as the cope sheet prints it: setbacks, cutback, clocks, the pipes it meets.

use std::f64::consts::TAU;

use super::docket::Docket;
use super::piece::Piece;
use super::rule::Rule;
use super::seat::Seated;
use crate::measure::INCH;
use crate::part::{Cope, CopeEnd, Part};

/// 1e-5 in.
const WITHIN: f64 = 1e-5 * INCH;
/// Radians between two clocks or two angles.
const ANGLE_WITHIN: f64 = 1e-9;

/// Judges both ends of a part against a piece laid the same way.
pub(super) fn judge(part: &Part, piece: &Piece, docket: &mut Docket) {
    for (end, own) in part.ends.iter().zip(&piece.ends) {
        match (end, own) {
            (CopeEnd::Square { .. }, None) => {}
            (CopeEnd::Coped(cope), Some(own)) => one(&part.mark, cope, own, docket),
            (_, own) => docket.say(
                Rule::CopeEnd,
                &part.mark,
                format!(
                    "an end is coped on one paper only (coped: {})",
                    own.is_some()
                ),
            ),
        }
    }
}

fn one(mark: &str, cope: &Cope, own: &Seated, docket: &mut Docket) {
    let (cut, seat) = (&cope.cut, &own.seat);
    docket.near(cut.s_long, seat.least, WITHIN, Rule::CopeSetback, mark);
    docket.near(cut.s_short, seat.largest, WITHIN, Rule::CopeSetback, mark);
    let cutback = seat.largest - seat.least;
    docket.near(cut.cutback, cutback, WITHIN, Rule::CopeCutback, mark);
    docket.near(cope.at_zero, seat.at_zero, WITHIN, Rule::CopeSetback, mark);
    docket.near(cope.at_pi, seat.at_pi, WITHIN, Rule::CopeSetback, mark);
    let (long, short) = (own.at(cut.theta_long), own.at(cut.theta_short));
    docket.near(long, seat.least, WITHIN, Rule::CopeClock, mark);
    docket.near(short, seat.largest, WITHIN, Rule::CopeClock, mark);
    docket.same(cope.meets.len(), own.mets.len(), Rule::CopeMeets, mark);
    for meeting in &cope.meets {
        // At right angles the clock of the plane makes no difference to the curve but for half a turn.
        let found = own.mets.iter().any(|m| {
            let turn = (meeting.beta - m.beta).rem_euclid(TAU);
            let faces = turn.min(TAU - turn) < ANGLE_WITHIN;
            let angle = (meeting.phi - m.phi).abs() < ANGLE_WITHIN;
            let place = (meeting.station - m.station).abs() < WITHIN;
            angle && place && meeting.offset == 0.0 && (faces || m.phi.cos().abs() < ANGLE_WITHIN)
        });
        docket.demand(found, Rule::CopeMeets, mark, || {
            format!(
                "no pipe stands at {:.6} rad, clock {:.6}",
                meeting.phi, meeting.beta
            )
        });
    }
}
