//! Each joint by itself: pieces in place, the fit, leftover, last cut, drop, floor, identity
//! (DESIGN §7).

use super::case::{Case, joint_name};
use super::docket::Docket;
use super::rule::Rule;
use super::tariff::Tariff;
use crate::measure::{Length, Money};
use crate::plan::PlannedJoint;

/// What a joint holds and leaves, by the judge's own arithmetic.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Remainder {
    usable: Length,
    filled: Length,
    leftover: Length,
    last_cut: Length,
    drop: Length,
    floor: Length,
}

/// Judges every joint.
pub(super) fn judge(case: &Case<'_>, tariff: &Tariff, docket: &mut Docket) {
    for joint in &case.plan.joints {
        pieces(case, joint, docket);
        remainder(case, joint, docket);
        keeping(case, tariff, joint, docket);
    }
}

fn pieces(case: &Case<'_>, joint: &PlannedJoint, docket: &mut Docket) {
    let name = joint_name(joint);
    docket.demand(!joint.pieces.is_empty(), Rule::JointEmpty, &name, || {
        "nothing is cut from it".to_owned()
    });
    let mut at = joint.near;
    for piece in &joint.pieces {
        let subject = format!("{name}, {}", piece.mark);
        let part = &case.take_off.parts[piece.part];
        docket.same(part.pipe, joint.pipe, Rule::PiecePipe, &subject);
        docket.demand(piece.saw > Length::ZERO, Rule::PieceSaw, &subject, || {
            "a piece must be longer than nothing".to_owned()
        });
        docket.same(piece.start, at, Rule::PieceStart, &subject);
        docket.same(piece.end, piece.start + piece.saw, Rule::PieceEnd, &subject);
        at = at + piece.saw + case.week.shop.saw.kerf;
    }
}

fn derive(case: &Case<'_>, joint: &PlannedJoint) -> Remainder {
    let kerf = case.week.shop.saw.kerf;
    let usable = joint.length - joint.near - joint.far - joint.hold;
    let between = i64::try_from(joint.pieces.len().saturating_sub(1)).unwrap_or(i64::MAX);
    let filled = joint.pieces.iter().map(|p| p.saw).sum::<Length>() + kerf * between;
    let leftover = usable - filled;
    let raw = leftover + joint.far + joint.hold;
    let last_cut = if raw > Length::ZERO {
        kerf.min(raw)
    } else {
        Length::ZERO
    };
    Remainder {
        usable,
        filled,
        leftover,
        last_cut,
        drop: (leftover - kerf).max(Length::ZERO),
        floor: raw - last_cut,
    }
}

fn remainder(case: &Case<'_>, joint: &PlannedJoint, docket: &mut Docket) {
    let name = joint_name(joint);
    let own = derive(case, joint);
    docket.demand(own.filled <= own.usable, Rule::JointOverfull, &name, || {
        format!("{} is cut out of a usable {}", own.filled, own.usable)
    });
    docket.same(joint.leftover, own.leftover, Rule::JointLeftover, &name);
    docket.same(joint.last_cut, own.last_cut, Rule::JointLastCut, &name);
    docket.same(joint.drop, own.drop, Rule::JointDrop, &name);
    docket.same(joint.floor, own.floor, Rule::JointFloor, &name);
    let kerf = case.week.shop.saw.kerf;
    let between = i64::try_from(joint.pieces.len().saturating_sub(1)).unwrap_or(i64::MAX);
    let parts: Length = joint.pieces.iter().map(|p| p.saw).sum();
    let sum = parts + kerf * between + joint.last_cut + joint.near + joint.floor;
    docket.same(joint.length, sum, Rule::JointIdentity, &name);
}

fn keeping(case: &Case<'_>, tariff: &Tariff, joint: &PlannedJoint, docket: &mut Docket) {
    let name = joint_name(joint);
    let own = derive(case, joint);
    let keep = own.drop >= case.week.shop.money.keep_length;
    docket.same(joint.kept, keep, Rule::JointKept, &name);
    docket.same(joint.keep_tag.is_some(), keep, Rule::KeepTag, &name);
    let credit = tariff.credit(case.week, joint.pipe, own.drop);
    docket.same(
        joint.credit,
        Money::from_millicents(credit),
        Rule::JointCredit,
        &name,
    );
    let first = own.leftover < case.week.shop.saw.measure_first_under;
    docket.same(joint.measure_first, first, Rule::MeasureFirst, &name);
}
