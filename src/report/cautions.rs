//! Cautions on paper: short, on gate, splice and kit sheets.

use crate::gate::build;
use crate::order::{Finisher, GateOrder, HeightMeaning, Week, WideOpening};
use crate::statics::engineer;

/// On every splice sheet.
pub(super) fn splice_cautions(week: &Week) -> Vec<String> {
    let mut out = vec![
        "Complete-penetration splice by a qualified welder to a written procedure; ground flush \
         where rollers run."
            .to_owned(),
    ];
    out.extend(zinc(week));
    if week.shop.finisher == Finisher::AfterWelding {
        out.push(VENT.to_owned());
    }
    out.push(SIZING.to_owned());
    out.push(DECIDE.to_owned());
    out
}

/// On every gate and kit sheet.
pub(super) fn gate_cautions(week: &Week, gate: &GateOrder) -> Vec<String> {
    let mut out = vec![
        "Support and restrain the leaf when moving it; the weight is printed above.".to_owned(),
        "Positive stops at both ends before the gate is first rolled.".to_owned(),
    ];
    out.extend(zinc(week));
    if week.shop.finisher == Finisher::AfterWelding {
        out.push(VENT.to_owned());
    }
    out.extend(stressed(week, gate));
    out.extend(order_cautions(week, gate));
    out.push(
        "Entrapment and sphere rules: follow the gate and operator standards in force.".to_owned(),
    );
    out.push(SIZING.to_owned());
    out.push(DECIDE.to_owned());
    out
}

/// Where there may be zinc to weld through: all pipe but black pipe that is galvanised after welding.
fn zinc(week: &Week) -> Option<String> {
    let bare = week.shop.finisher == Finisher::AfterWelding
        && week
            .pipes
            .iter()
            .all(|p| p.finish.eq_ignore_ascii_case("black"));
    (!bare)
        .then(|| "Remove the zinc before welding; zinc fume: ventilate, wear the mask.".to_owned())
}

const VENT: &str = "Galvanised after welding: vent and drain every capped part; a sealed pipe \
                    bursts in the bath.";
const SIZING: &str = "This sheet does not size members for wind, ice or people.";
const DECIDE: &str = "Local codes and a licensed engineer decide.";

/// "Ask an engineer" when the gate's computed peak passes 0.6 of the yield given.
fn stressed(week: &Week, gate: &GateOrder) -> Option<String> {
    let index = week.gates.iter().position(|g| g.mark == gate.mark)?;
    engineer(week, &build(week, index).ok()?)
}

/// What this order alone asks for.
fn order_cautions(week: &Week, gate: &GateOrder) -> Vec<String> {
    let mut out = Vec::new();
    if gate.automated {
        out.push(
            "Automated: a 2-1/4 in (57 mm) sphere must not pass the leaf, nor the fence it slides \
             past, tail included."
                .to_owned(),
        );
    }
    if gate.barbed > 0 && week.shop.gate.height != HeightMeaning::Grade {
        out.push("Barbed wire: check its height above grade on site.".to_owned());
    }
    out.extend(gate.wide_opening(&week.shop).into_iter().map(|asked| {
        let words = match asked {
            WideOpening::NoBrace => {
                "A sway brace is expected on an opening this wide; none is ordered."
            }
            WideOpening::Review => {
                "Engineer's review needed: the opening is over the shop's limit."
            }
        };
        words.to_owned()
    }));
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::world::world;

    /// Common practice, no source: a brace over 25 ft, a review over 30 ft; over both, both are said.
    #[test]
    fn a_gate_over_both_limits_is_told_of_both() {
        let mut week = world().week;
        let said = |week: &Week| {
            let all = gate_cautions(week, &week.gates[0]);
            let has = |words: &str| all.iter().any(|c| c.contains(words));
            (has("sway brace is expected"), has("Engineer's review"))
        };
        for (feet, sway, expected) in [
            (25, false, (false, false)),
            (30, false, (true, false)),
            (31, false, (true, true)),
            (31, true, (false, true)),
        ] {
            week.gates[0].opening = crate::measure::Length::FOOT * feet;
            week.gates[0].sway = sway;
            assert_eq!(said(&week), expected, "{feet} ft, {sway}");
        }
    }

    #[test]
    fn black_pipe_galvanised_after_welding_has_no_zinc_to_remove() {
        let mut week = world().week;
        let said = |week: &Week| {
            let gate = gate_cautions(week, &week.gates[0]);
            let all = gate.into_iter().chain(splice_cautions(week));
            all.filter(|c| c.contains("Remove the zinc")).count()
        };
        assert_eq!(said(&week), 2);
        week.shop.finisher = Finisher::AfterWelding;
        for pipe in &mut week.pipes {
            pipe.finish = "black".to_owned();
        }
        assert_eq!(said(&week), 0);
        week.pipes[0].finish = "galvanized".to_owned();
        assert_eq!(said(&week), 2);
    }
}
