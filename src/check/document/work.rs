//! Gates as they are complete, and the split over saws.

use std::collections::{BTreeMap, BTreeSet};

use super::papers::{Papers, within};
use crate::check::Rule;
use crate::check::docket::Docket;

/// Judges both.
pub(super) fn judge(papers: &Papers<'_>, docket: &mut Docket) {
    done(papers, docket);
    sittings(papers, docket);
}

fn done(papers: &Papers<'_>, docket: &mut Docket) {
    let plan = papers.plan;
    let mut last: BTreeMap<(usize, u32), u32> = BTreeMap::new();
    for joint in &plan.joints {
        for piece in &joint.pieces {
            if let Some(gate) = plan.parts[piece.part].gate {
                let at = last.entry((gate, piece.copy)).or_default();
                *at = joint.number.max(*at);
            }
        }
    }
    let mut before = 0;
    for row in &plan.done {
        let mark = papers.copy_mark(row.gate, row.copy);
        let own = last.remove(&(row.gate, row.copy));
        let said = (row.mark.as_str(), Some(row.after_joint));
        docket.same(said, (mark.as_str(), own), Rule::FileDone, &row.mark);
        docket.demand(row.after_joint >= before, Rule::FileDone, &row.mark, || {
            "it is listed behind a gate that is complete later".to_owned()
        });
        before = row.after_joint;
    }
    docket.demand(last.is_empty(), Rule::FileDone, "done", || {
        format!("not said when they are complete: {:?}", last.keys())
    });
}

fn sittings(papers: &Papers<'_>, docket: &mut Docket) {
    let plan = papers.plan;
    let (mut saws, mut seen) = (BTreeSet::new(), BTreeSet::new());
    let mut minutes = 0.0;
    for sitting in &plan.sittings {
        let name = format!("saw {}", sitting.saw);
        let once = saws.insert(sitting.saw) && sitting.saw >= 1 && sitting.minutes >= 0.0;
        let joints = sitting.joints.iter().all(|j| seen.insert(*j));
        docket.demand(once && joints, Rule::FileSittings, &name, || {
            "a saw or a joint twice, or time under nothing".to_owned()
        });
        minutes += sitting.minutes;
    }
    let all: BTreeSet<u32> = plan.joints.iter().map(|j| j.number).collect();
    docket.demand(seen == all, Rule::FileSittings, "sittings", || {
        format!("{} of {} joints are given to saws", seen.len(), all.len())
    });
    let own = plan.minutes.joints + plan.minutes.cuts;
    // Each figure is rounded to a tenth.
    let apart = 0.05 * f64::from(u32::try_from(plan.sittings.len()).unwrap_or(u32::MAX)) + 0.11;
    docket.demand(
        within(minutes, own, apart),
        Rule::FileSittings,
        "sittings",
        || format!("{minutes} minutes at the saws, {own} in all"),
    );
}
