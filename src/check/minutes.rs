//! Estimated minutes of the week, from the shop's own figures.

use super::case::Case;
use super::docket::Docket;
use super::lane::fraction;
use super::rule::Rule;
use crate::measure::Length;
use crate::part::CopeEnd;
use crate::plan::{PieceCut, PlannedJoint};

/// Minutes: far under any printed digit.
const WITHIN: f64 = 1e-6;

/// Judges the week's minutes and each saw's.
pub(super) fn judge(case: &Case<'_>, docket: &mut Docket) {
    let (plan, rules) = (case.plan, &case.week.shop.minutes);
    let cuts: usize = plan.joints.iter().map(cuts).sum();
    let copes: usize = case.cuts().map(|(_, piece)| copes(case, piece)).sum();
    let splices: usize = plan.spliced.iter().map(|l| l.splices.len()).sum();
    let said = &plan.minutes;
    let times = |each, n: usize| fraction(each) * number(n);
    let name = "week";
    let joints = times(rules.joint, plan.joints.len());
    docket.near(said.joints, joints, WITHIN, Rule::Minutes, name);
    docket.near(
        said.cuts,
        times(rules.cut, cuts),
        WITHIN,
        Rule::Minutes,
        name,
    );
    docket.near(
        said.copes,
        times(rules.cope, copes),
        WITHIN,
        Rule::Minutes,
        name,
    );
    docket.near(
        said.splices,
        times(rules.splice, splices),
        WITHIN,
        Rule::Minutes,
        name,
    );
    for sitting in &plan.sittings {
        let own: f64 = plan
            .joints
            .iter()
            .filter(|j| sitting.joints.contains(&j.number))
            .map(|j| times(rules.joint, 1) + times(rules.cut, self::cuts(j)))
            .sum();
        let name = format!("saw {}", sitting.saw);
        docket.near(sitting.minutes, own, WITHIN, Rule::SittingMinutes, &name);
    }
}

fn number(n: usize) -> f64 {
    u32::try_from(n).map_or(f64::INFINITY, f64::from)
}

/// Between neighbours, the near trim, the last cut.
fn cuts(joint: &PlannedJoint) -> usize {
    let between = joint.pieces.len().saturating_sub(1);
    let ends = [joint.near, joint.last_cut];
    between + ends.iter().filter(|l| **l > Length::ZERO).count()
}

/// Coped ends of a piece: of a spliced line only the first and the last have one.
fn copes(case: &Case<'_>, piece: &PieceCut) -> usize {
    let part = &case.take_off.parts[piece.part];
    let coped = |i: usize| usize::from(matches!(part.ends[i], CopeEnd::Coped(_)));
    let Some(number) = piece.piece else {
        return coped(0) + coped(1);
    };
    let line = case
        .plan
        .spliced
        .iter()
        .find(|l| l.part == piece.part && l.copy == piece.copy);
    let last = line.and_then(|l| u32::try_from(l.pieces.len()).ok());
    let first = if number == 1 { coped(0) } else { 0 };
    first + if Some(number) == last { coped(1) } else { 0 }
}
