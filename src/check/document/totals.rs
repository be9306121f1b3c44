//! What is counted and added up: joints, splices, kept drops, waste.

use super::form::{Joint, Source, Waste};
use super::papers::{Papers, number, wide, within};
use crate::check::Rule;
use crate::check::docket::Docket;

/// Judges the figures of every pipe and of the week.
pub(super) fn judge(papers: &Papers<'_>, docket: &mut Docket) {
    let plan = papers.plan;
    let (mut bought, mut racked) = (0, 0);
    for outcome in &plan.outcomes {
        let name = plan.pipes[outcome.pipe].title.as_str();
        let count = |source| number(papers.joints_of(outcome.pipe, source).count());
        let mine = |u: &&super::form::Uncut| papers.pipe_of_quote(u.quote) == Some(outcome.pipe);
        let uncut = plan.uncut.iter().filter(mine).map(|u| i128::from(u.joints));
        let own = (
            count(Source::Bought) + uncut.sum::<i128>(),
            count(Source::Rack),
        );
        let said = (outcome.bought.into(), outcome.from_rack.into());
        docket.same(said, own, Rule::FileCounts, name);
        (bought, racked) = (bought + own.0, racked + own.1);
        let joints = plan.joints.iter().filter(|j| j.pipe == outcome.pipe);
        waste(
            papers,
            &outcome.waste,
            &joints.collect::<Vec<_>>(),
            name,
            docket,
        );
    }
    let totals = &plan.totals;
    let splices: usize = plan.spliced.iter().map(|l| l.splices.len()).sum();
    let said = (totals.joints, totals.splices, totals.kept);
    let own = (plan.joints.len(), splices, plan.kept.len());
    docket.same(said, own, Rule::FileCounts, "totals");
    let said = (totals.bought.into(), totals.from_rack.into());
    docket.same(said, (bought, racked), Rule::FileCounts, "totals");
    let joints: Vec<&Joint> = plan.joints.iter().collect();
    waste(papers, &totals.waste, &joints, "totals", docket);
}

fn waste(papers: &Papers<'_>, said: &Waste, joints: &[&Joint], name: &str, docket: &mut Docket) {
    let kerf = papers.plan.kerf.ticks;
    let (mut taken, mut in_parts, mut lost, mut kept) = (0i64, 0i64, 0i64, 0i64);
    for joint in joints {
        let between = i64::try_from(joint.pieces.len()).unwrap_or(0) - 1;
        taken += joint.length.ticks;
        in_parts += joint.pieces.iter().map(|p| p.saw_length.ticks).sum::<i64>();
        lost += kerf.saturating_mul(between) + joint.last_cut.ticks + joint.near_trim.ticks;
        *(if joint.kept { &mut kept } else { &mut lost }) += joint.floor.ticks;
    }
    let own = [taken, in_parts, taken - in_parts, lost, kept];
    let lengths = [said.taken, said.in_parts, said.all_in, said.lost, said.kept];
    docket.same(lengths.map(|l| l.ticks), own, Rule::FileWaste, name);
    let shares = [said.all_in_percent, said.lost_percent, said.kept_percent];
    for (share, part) in shares.into_iter().zip([taken - in_parts, lost, kept]) {
        let own = (taken > 0).then(|| 100.0 * wide(part.into()) / wide(taken.into()));
        let agrees = match (share, own) {
            (Some(share), Some(own)) => within(share, own, 0.005_1),
            (share, own) => share.is_none() && own.is_none(),
        };
        docket.demand(agrees, Rule::FileWaste, name, || {
            format!("{share:?} per cent, {own:?} found")
        });
    }
}
