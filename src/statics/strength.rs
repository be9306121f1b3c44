//! A gate's peak beside the yield of its horizontals' pipe.

use rust_decimal::prelude::ToPrimitive;

use super::Envelope;
use crate::measure::Units;
use crate::order::Week;

/// psi in one MPa.
pub const PSI_PER_MPA: f64 = 145.037_737_7;

/// A gate's peak as a share of the yield given for its horizontals' pipe; `None` when no yield is
/// given. Never a pass or a fail: own weight and fabric only, no wind, ice or people.
pub fn share_of_yield(week: &Week, gate: usize, envelope: &Envelope) -> Option<f64> {
    let pipe = week.pipe(week.gates.get(gate)?.pipes.horizontal);
    let given = pipe.yield_strength?.to_f64().filter(|y| *y > 0.0)?;
    let psi = match week.shop.units {
        Units::Inch => given,
        Units::Metric => given * PSI_PER_MPA,
    };
    Some(envelope.peak() / psi)
}
