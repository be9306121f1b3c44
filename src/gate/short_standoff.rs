//! Warnings of standoffs too short to be worth cutting.

use super::frame::Frame;
use super::sway::sway;
use crate::measure::{FaultCode, Length};
use crate::order::{Fault, Severity, Week};

/// Rises tried, in steps of the least part of one: a foot and a half in inches.
const MOST_STEPS: i64 = 36;

/// One warning for every gate with a sway brace some standoff of which is shorter than its pipe is wide: the
/// brace all but touches the vertical there.
pub fn standoff_notices(week: &Week, frames: &[Frame]) -> Vec<Fault> {
    frames.iter().filter_map(|f| notice(week, f)).collect()
}

fn notice(week: &Week, frame: &Frame) -> Option<Fault> {
    let order = week.gates.get(frame.gate).filter(|o| o.count > 0)?;
    let least = 2.0 * week.pipe(order.pipes.sway).radius();
    let short = |standoffs: &[(usize, f64)]| -> Vec<(usize, f64)> {
        let short = standoffs.iter().filter(|(_, length)| *length < least);
        short.copied().collect()
    };
    let found = short(&frame.sway.as_ref()?.standoffs);
    let (_, shortest) = *found.iter().min_by(|a, b| a.1.total_cmp(&b.1))?;
    let print = |length: Length| length.print_with_unit(week.shop.units);
    let enough = (1..=MOST_STEPS).find_map(|n| {
        let mut changed = week.clone();
        changed.shop.sway.rise = week.shop.sway.rise + Length::INCH * n;
        let tried = sway(&changed, order, &frame.bay_lines);
        short(&tried.standoffs)
            .is_empty()
            .then_some(changed.shop.sway.rise)
    });
    let lines: Vec<String> = found.iter().map(|(line, _)| line.to_string()).collect();
    Some(Fault {
        severity: Severity::Warning,
        code: FaultCode::Caution,
        file: order.origin.file.clone(),
        sheet: None,
        line: Some(order.origin.line),
        cell: None,
        column: Some("sway".to_owned()),
        value: Some(order.mark.clone()),
        what: format!(
            "the sway brace stands off bay line {} by less than its pipe is wide (shortest standoff {})",
            lines.join(", "),
            print(Length::nearest_mark(shortest, week.shop.saw.mark))
        ),
        mend: match enough {
            Some(rise) => format!("rise = {} or more under [sway] in shop.toml", print(rise)),
            None => "a larger rise under [sway] in shop.toml".to_owned(),
        },
    })
}
