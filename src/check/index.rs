//! First of all: every index points at something and every number is of a size that can be added.
//! After this rule has passed the other rules may index and add freely.

use super::case::Case;
use super::docket::Docket;
use super::rule::Rule;
use crate::measure::Length;
use crate::plan::JointSource;

/// Judges indices and magnitudes of the take-off and the plan.
pub(super) fn judge(case: &Case<'_>, docket: &mut Docket) {
    take_off(case, docket);
    joints(case, docket);
    lines(case, docket);
    lists(case, docket);
}

fn known(docket: &mut Docket, index: usize, len: usize, what: &str, subject: &str) {
    docket.demand(index < len, Rule::Index, subject, || {
        format!("{what} number {index} does not exist; there are {len}")
    });
}

fn sane(docket: &mut Docket, length: Length, what: &str, subject: &str) {
    docket.demand(
        length.ticks().unsigned_abs() <= Length::MAX.ticks().unsigned_abs(),
        Rule::Magnitude,
        subject,
        || format!("{what} of {} ticks is past 2^40", length.ticks()),
    );
}

fn take_off(case: &Case<'_>, docket: &mut Docket) {
    let week = case.week;
    for frame in &case.take_off.frames {
        known(docket, frame.gate, week.gates.len(), "gate", "frame");
        for member in &frame.members {
            known(docket, member.pipe.0, week.pipes.len(), "pipe", "frame");
        }
    }
    for part in &case.take_off.parts {
        known(docket, part.pipe.0, week.pipes.len(), "pipe", &part.mark);
        sane(docket, part.saw, "saw length", &part.mark);
        if let Some(gate) = part.gate {
            known(docket, gate, week.gates.len(), "gate", &part.mark);
        }
        if let Some(extra) = part.extra {
            known(docket, extra, week.extras.len(), "extra part", &part.mark);
        }
        docket.demand(
            part.gate.is_some() != part.extra.is_some(),
            Rule::Index,
            &part.mark,
            || "a part belongs to one gate or to one row of extra parts".to_owned(),
        );
    }
}

fn joints(case: &Case<'_>, docket: &mut Docket) {
    let week = case.week;
    for joint in &case.plan.joints {
        let name = super::case::joint_name(joint);
        known(docket, joint.pipe.0, week.pipes.len(), "pipe", &name);
        match joint.source {
            JointSource::Bought(q) => known(docket, q, week.quotes.len(), "quote", &name),
            JointSource::Rack(r, _) => known(docket, r, week.rack.len(), "rack piece", &name),
        }
        for (length, what) in [
            (joint.length, "length"),
            (joint.near, "near trim"),
            (joint.far, "far trim"),
            (joint.hold, "hold-back"),
            (joint.leftover, "leftover"),
            (joint.last_cut, "last cut"),
            (joint.drop, "drop"),
            (joint.floor, "floor piece"),
        ] {
            sane(docket, length, what, &name);
        }
        for piece in &joint.pieces {
            known(docket, piece.part, case.take_off.parts.len(), "part", &name);
            sane(docket, piece.saw, "saw length", &name);
            sane(docket, piece.start, "start", &name);
            sane(docket, piece.end, "end", &name);
        }
    }
}

fn lines(case: &Case<'_>, docket: &mut Docket) {
    let kits = case.plan.kits.iter().flat_map(|k| &k.options);
    let advised = kits.clone().flat_map(|o| &o.lines);
    for piece in kits.flat_map(|o| &o.cuts).flat_map(|j| &j.pieces) {
        known(docket, piece.part, case.take_off.parts.len(), "part", "kit");
        sane(docket, piece.saw, "saw length", "kit");
        sane(docket, piece.start, "start", "kit");
        sane(docket, piece.end, "end", "kit");
    }
    for kit in &case.plan.kits {
        known(docket, kit.gate, case.week.gates.len(), "gate", "kit");
    }
    for line in case.plan.spliced.iter().chain(advised) {
        let subject = "spliced line";
        known(
            docket,
            line.part,
            case.take_off.parts.len(),
            "part",
            subject,
        );
        for piece in &line.pieces {
            sane(docket, *piece, "piece", subject);
        }
        for splice in &line.splices {
            sane(docket, splice.window.0, "window", subject);
            sane(docket, splice.window.1, "window", subject);
        }
    }
    for set in &case.plan.splice_sets {
        known(
            docket,
            set.gate,
            case.week.gates.len(),
            "gate",
            "splice set",
        );
        for line in &set.lines {
            known(
                docket,
                line.part,
                case.take_off.parts.len(),
                "part",
                "splice set",
            );
        }
    }
}

fn lists(case: &Case<'_>, docket: &mut Docket) {
    let (week, plan) = (case.week, case.plan);
    for bought in &plan.buy {
        known(docket, bought.quote, week.quotes.len(), "quote", "buy list");
        sane(docket, bought.nominal, "nominal length", "buy list");
    }
    for whole in &case.plan.uncut {
        known(docket, whole.quote, week.quotes.len(), "quote", "uncut");
    }
    for spare in &plan.spares {
        known(docket, spare.quote, week.quotes.len(), "quote", "spares");
    }
    for kept in &plan.kept {
        known(docket, kept.pipe.0, week.pipes.len(), "pipe", &kept.tag);
        sane(docket, kept.drop, "drop", &kept.tag);
        sane(docket, kept.floor, "floor piece", &kept.tag);
    }
    for outcome in &plan.pipes {
        known(docket, outcome.pipe.0, week.pipes.len(), "pipe", "outcome");
    }
    for pool in &plan.pools {
        known(docket, pool.pipe.0, week.pipes.len(), "pipe", "pool");
    }
    for done in &plan.done {
        known(docket, done.gate, week.gates.len(), "gate", "gates done");
    }
    for left in &plan.left_out {
        if let Some(gate) = left.gate {
            known(docket, gate, week.gates.len(), "gate", &left.mark);
        }
        if let Some(extra) = left.extra {
            known(docket, extra, week.extras.len(), "extra part", &left.mark);
        }
    }
}
