//! A gate's peak beside the yield of its horizontals' pipe.

use rust_decimal::prelude::ToPrimitive;

use super::{Envelope, envelope, model};
use crate::gate::Frame;
use crate::measure::{FaultCode, Units};
use crate::order::{Fault, Severity, Week};

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

/// "Ask an engineer" when a gate's computed peak passes the setting's share of the yield given; else nothing.
pub fn engineer(week: &Week, frame: &Frame) -> Option<String> {
    let found = envelope(&model(week, frame)).ok()?;
    let share = share_of_yield(week, frame.gate, &found)?;
    let over = week.shop.fabric.engineer_over;
    (share > over.to_f64()?).then(|| {
        format!(
            "Ask an engineer: own weight and fabric alone stress this gate to {share:.2} of the \
             yield given for its horizontals' pipe, over {over}."
        )
    })
}

/// One warning for every gate to ask an engineer about.
pub fn stress_notices(week: &Week, frames: &[Frame]) -> Vec<Fault> {
    let notice = |frame: &Frame| {
        let order = week.gates.get(frame.gate).filter(|o| o.count > 0)?;
        let words = engineer(week, frame)?;
        Some(Fault {
            severity: Severity::Warning,
            code: FaultCode::Caution,
            file: order.origin.file.clone(),
            sheet: None,
            line: Some(order.origin.line),
            cell: None,
            column: Some("mark".to_owned()),
            value: Some(order.mark.clone()),
            what: words.trim_end_matches('.').to_owned(),
            mend: "a heavier pipe for its horizontals, or an engineer's word".to_owned(),
        })
    };
    frames.iter().filter_map(notice).collect()
}
