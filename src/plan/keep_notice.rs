//! Warnings of drops that the plan keeps and nothing of the week could be cut from.

use crate::measure::{FaultCode, Length};
use crate::order::{Fault, Pipe, PipeId, Severity, Week};
use crate::part::TakeOff;

use super::Plan;

/// One warning for every pipe of which the plan keeps drops shorter than its shortest part of the week:
/// the keep length lies under that part.
pub fn keep_notices(week: &Week, take_off: &TakeOff, plan: &Plan) -> Vec<Fault> {
    let pipes = (0..week.pipes.len()).map(PipeId);
    let notice = |pipe: PipeId| {
        let shortest = shortest(take_off, plan, pipe)?;
        let kept = plan.kept.iter().filter(|k| k.pipe == pipe);
        let idle = kept.filter(|k| k.drop < shortest).count();
        (idle > 0).then(|| fault(week, week.pipe(pipe), shortest, idle))
    };
    pipes.filter_map(notice).collect()
}

/// The shortest length of a pipe that the week cuts: a part, or the least piece of a spliced line.
fn shortest(take_off: &TakeOff, plan: &Plan, pipe: PipeId) -> Option<Length> {
    let lines = || plan.splice_sets.iter().flat_map(|s| &s.lines);
    let out = |gate: Option<usize>| {
        plan.left_out
            .iter()
            .any(|i| gate.is_some() && i.gate == gate)
    };
    let parts = take_off.parts.iter().enumerate();
    let ours = parts.filter(|(_, p)| p.pipe == pipe && p.ours && p.count > 0 && !out(p.gate));
    let least = |(index, part): (usize, &crate::part::Part)| {
        let line = lines().find(|l| l.part == index);
        line.map_or(part.saw, |l| l.least_piece.min(part.saw))
    };
    ours.map(least).min()
}

fn fault(week: &Week, pipe: &Pipe, shortest: Length, idle: usize) -> Fault {
    let units = week.shop.units;
    let said = |length: Length| length.print_with_unit(units);
    let drops = match idle {
        1 => "a drop".to_owned(),
        n => format!("{n} drops"),
    };
    Fault {
        severity: Severity::Warning,
        code: FaultCode::ValueUnusual,
        file: "shop.toml".to_owned(),
        sheet: None,
        line: None,
        cell: None,
        column: Some("money.keep_length".to_owned()),
        value: Some(said(week.shop.money.keep_length)),
        what: format!(
            "the plan keeps {drops} of {} under its shortest part of this week, {}: nothing like this \
             week's work can be cut from that",
            pipe.title(),
            said(shortest)
        ),
        mend: "a longer keep_length under [money] (it holds for every pipe) where such drops only \
               gather; nothing where other work takes them"
            .to_owned(),
    }
}
