//! Every figure of the plan's splice sets against the judge's own.

use super::case::Case;
use super::docket::Docket;
use super::pane::Pane;
use super::rule::Rule;
use super::splice_set::{Line, Set};
use crate::measure::{Length, Money};
use crate::splice::{SpliceLine, SpliceSet, WindowClass};

/// Judges one of the plan's sets against the judge's own.
pub(super) fn judge(case: &Case<'_>, plan: &SpliceSet, own: &Set, docket: &mut Docket) {
    let mark = &case.week.gates[own.gate].mark;
    docket.same(plan.gate, own.gate, Rule::SpliceSetGate, mark);
    docket.same(&plan.copies, &own.copies, Rule::SpliceSetGate, mark);
    docket.same(
        plan.apart,
        case.week.shop.splice.stagger,
        Rule::SpliceStagger,
        mark,
    );
    docket.same(
        plan.bays_exclusive,
        own.exclusive,
        Rule::SpliceSharedBay,
        mark,
    );
    docket.same(plan.form, own.form, Rule::SpliceReachForm, mark);
    docket.same(
        plan.lines.len(),
        own.lines.len(),
        Rule::SpliceSetLines,
        mark,
    );
    for (plan, own) in plan.lines.iter().zip(&own.lines) {
        compare_line(case, plan, own, docket);
    }
}

fn compare_line(case: &Case<'_>, plan: &SpliceLine, own: &Line, docket: &mut Docket) {
    let mark = &case.take_off.parts[own.part].mark;
    docket.same(plan.part, own.part, Rule::SpliceSetLines, mark);
    docket.same(plan.long, own.long, Rule::SpliceLineLong, mark);
    docket.same(plan.whole, own.whole, Rule::SpliceLineWhole, mark);
    let x_long = Length::nearest_tick(own.lane.long_at);
    docket.same(plan.x_long, x_long, Rule::SpliceLineX, mark);
    docket.same(plan.least, own.least, Rule::SpliceFewest, mark);
    docket.same(plan.most, own.most, Rule::SpliceCap, mark);
    docket.same(
        plan.least_piece,
        own.least_piece,
        Rule::SpliceLeastPiece,
        mark,
    );
    let mut theirs = Vec::new();
    for window in &plan.windows {
        theirs.push(Pane {
            lo: window.lo,
            hi: window.hi,
            bay: window.bay,
            roller_bay: window.roller_bay,
            tolerated: window.tolerated,
            class: window.class,
        });
        let charge = match window.class {
            WindowClass::Plain => Money::ZERO,
            WindowClass::Charged => case.week.shop.splice.class_charge,
            WindowClass::ByOrder => case.week.shop.splice.high_stress_charge,
        };
        docket.same(window.charge, charge, Rule::SpliceClass, mark);
    }
    theirs.sort_by_key(Pane::order);
    docket.same(&theirs, &own.panes, Rule::SpliceWindows, mark);
}
