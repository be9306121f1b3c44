//! Each joint by itself: its number, where it comes from, running marks, what is left, what is kept.

use std::collections::{BTreeMap, BTreeSet};

use super::form::{Joint, Source};
use super::papers::{HALF_CENT, Papers, money, within};
use crate::check::Rule;
use crate::check::docket::Docket;

/// Judges every joint and the list of kept drops.
pub(super) fn judge(papers: &Papers<'_>, docket: &mut Docket) {
    for (number, joint) in (1u32..).zip(&papers.plan.joints) {
        let name = format!("joint {number}");
        docket.same(joint.number, number, Rule::FileNumbers, &name);
        running(papers, joint, &name, docket);
        remainder(papers, joint, &name, docket);
        keeping(papers, joint, &name, docket);
    }
    sources(papers, docket);
    kept(papers, docket);
}

fn running(papers: &Papers<'_>, joint: &Joint, name: &str, docket: &mut Docket) {
    let mut at = joint.near_trim.ticks;
    for piece in &joint.pieces {
        docket.same(piece.start.ticks, at, Rule::FileRunning, name);
        let end = piece.start.ticks + piece.saw_length.ticks;
        docket.same(piece.end.ticks, end, Rule::FileRunning, name);
        at = piece.end.ticks + papers.plan.kerf.ticks;
    }
}

fn remainder(papers: &Papers<'_>, joint: &Joint, name: &str, docket: &mut Docket) {
    let kerf = papers.plan.kerf.ticks;
    let between = i64::try_from(joint.pieces.len()).unwrap_or(i64::MAX) - 1;
    let sound = between >= 0
        && [joint.near_trim, joint.far_trim, joint.hold_back]
            .iter()
            .all(|t| t.ticks >= 0);
    docket.demand(sound, Rule::FileRemainder, name, || {
        "nothing is cut from it, or a trim is under nothing".to_owned()
    });
    let pieces: i64 = joint.pieces.iter().map(|p| p.saw_length.ticks).sum();
    let trims = joint.near_trim.ticks + joint.far_trim.ticks + joint.hold_back.ticks;
    let leftover = joint.length.ticks - trims - pieces - kerf.saturating_mul(between);
    let rest = leftover + joint.far_trim.ticks + joint.hold_back.ticks;
    let last_cut = rest.clamp(0, kerf);
    let own = [
        leftover,
        last_cut,
        (leftover - kerf).max(0),
        rest - last_cut,
    ];
    let said = [joint.leftover, joint.last_cut, joint.drop, joint.floor].map(|l| l.ticks);
    docket.same(said, own, Rule::FileRemainder, name);
    docket.demand(leftover >= 0, Rule::FileRemainder, name, || {
        "more is cut from it than it holds".to_owned()
    });
}

fn keeping(papers: &Papers<'_>, joint: &Joint, name: &str, docket: &mut Docket) {
    let Some((pool, _)) = papers.pool(joint.pipe) else {
        return;
    };
    let kept = joint.drop.ticks >= pool.credit.keep;
    let said = (joint.kept, joint.keep_tag.is_some());
    docket.same(said, (kept, kept), Rule::FileKept, name);
    let feet = joint.drop.ticks.max(0) / pool.credit.foot.max(1);
    let credit = i128::from(pool.credit.per_foot) * i128::from(if kept { feet } else { 0 });
    let agrees = joint
        .credit
        .is_some_and(|said| within(said, money(credit), HALF_CENT));
    docket.demand(agrees, Rule::FileKept, name, || {
        format!("a credit of {:?}, {} found", joint.credit, money(credit))
    });
}

/// A bought joint names its quote and a rack piece its tag; one quote is one joint; trims are the saw's own.
fn sources(papers: &Papers<'_>, docket: &mut Docket) {
    let plan = papers.plan;
    let mut quotes = BTreeMap::new();
    let bought = plan.joints.iter().find(|j| j.source == Source::Bought);
    for joint in &plan.joints {
        let name = format!("joint {}", joint.number);
        let named = match joint.source {
            Source::Bought => joint.quote.is_some() && joint.rack_tag.is_none(),
            Source::Rack => joint.quote.is_none() && joint.rack_tag.is_some(),
        };
        docket.demand(named, Rule::FileSource, &name, || {
            "a bought joint has a quote, a rack piece its tag".to_owned()
        });
        let trims = [joint.near_trim, joint.far_trim, joint.hold_back].map(|t| t.ticks);
        if let Some(first) = bought {
            let own = [first.near_trim, first.far_trim, first.hold_back].map(|t| t.ticks);
            let clean = joint.source == Source::Rack;
            let mut pairs = trims.iter().zip(own);
            let fits = pairs.all(|(t, own)| *t == own || (clean && *t == 0));
            docket.demand(fits, Rule::FileSource, &name, || {
                format!("trims of {trims:?} ticks; the saw's are {own:?}")
            });
        }
        if let Some(quote) = joint.quote {
            let own = (joint.pipe, joint.length.ticks);
            let first = *quotes.entry(quote).or_insert(own);
            docket.same(own, first, Rule::FileSource, &name);
            let line = plan.buy.iter().find(|b| b.quote == quote);
            let fits = line.is_some_and(|b| b.pipe == own.0 && b.joint.ticks >= own.1);
            docket.demand(fits, Rule::FileSource, &name, || {
                format!(
                    "quote {quote} is not on the buy list, or of a shorter joint or another pipe"
                )
            });
        }
    }
}

/// The list of kept drops is that of the joints, in their order, each under a tag of its own.
fn kept(papers: &Papers<'_>, docket: &mut Docket) {
    let plan = papers.plan;
    let joints: Vec<&Joint> = plan.joints.iter().filter(|j| j.kept).collect();
    docket.same(plan.kept.len(), joints.len(), Rule::FileKept, "kept");
    let mut tags: BTreeSet<&str> = BTreeSet::new();
    let rack = plan.joints.iter().filter_map(|j| j.rack_tag.as_deref());
    let rack: BTreeSet<&str> = rack.collect();
    for (row, joint) in plan.kept.iter().zip(joints) {
        let tag = row.tag.as_str();
        let own = tags.insert(tag) && !rack.contains(tag) && joint.keep_tag.as_deref() == Some(tag);
        docket.demand(own, Rule::FileKept, tag, || {
            "it is painted on another piece, or on another joint".to_owned()
        });
        let said = (row.joint, row.pipe, row.credited.ticks, row.floor.ticks);
        let found = (
            joint.number,
            joint.pipe,
            joint.drop.ticks,
            joint.floor.ticks,
        );
        docket.same(said, found, Rule::FileKept, tag);
        // Cents are dealt out so that the list adds up: up to a cent from the joint's own.
        let near = match (row.credit, joint.credit) {
            (Some(a), Some(b)) => within(a, b, 0.010_1),
            _ => false,
        };
        docket.demand(near, Rule::FileKept, tag, || {
            format!(
                "a credit of {:?}, on its joint {:?}",
                row.credit, joint.credit
            )
        });
    }
}
