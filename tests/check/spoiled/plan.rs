//! A good plan spoiled in one place at a time; the judge names each.

use super::spoil::{MARK, Spoil, all_named};
use crate::judge::{planned, print};
use crate::tiny;
use crate::tiny_week::week;
use longpoint::check::{Rule, check, violations};
use longpoint::measure::{Length, Money};
use longpoint::nest::{Status, StopReason};
use longpoint::order::{Impossible, PipeId};
use longpoint::plan::{JointSource, Plan};

#[test]
fn the_plan_itself_passes_and_is_rich_enough_to_spoil() {
    let week = week();
    let (take_off, plan) = planned(&week);
    let found = violations(&week, &take_off, &plan);
    assert!(found.is_empty(), "{}", print(&found));
    assert!(
        plan.spliced.len() >= 4,
        "{} spliced lines",
        plan.spliced.len()
    );
    assert!(plan.joints.iter().any(|j| j.kept));
    assert!(plan.joints.iter().any(|j| j.pieces.len() > 1));
    assert!(
        plan.joints
            .iter()
            .any(|j| matches!(j.source, JointSource::Rack(..)))
    );
    assert_eq!(plan.spares.len(), 1);
    let sealed = check(week, take_off, plan).expect("the same plan, sealed");
    assert_eq!(sealed.week().gates.len(), 3);
}

fn kept(plan: &mut Plan) -> &mut longpoint::plan::PlannedJoint {
    let joint = plan.joints.iter_mut().find(|j| j.kept);
    joint.expect("the plan keeps a drop")
}

fn rack(plan: &mut Plan) -> &mut longpoint::plan::PlannedJoint {
    let from_rack =
        |j: &&mut longpoint::plan::PlannedJoint| matches!(j.source, JointSource::Rack(..));
    let joint = plan.joints.iter_mut().find(from_rack);
    joint.expect("the plan uses the rack")
}

pub const JOINTS: &[(Rule, Spoil)] = &[
    (Rule::Index, |p, _, _| p.joints[0].pieces[0].part = 999),
    (Rule::Magnitude, |p, _, _| {
        p.joints[0].length = Length::from_ticks(1 << 41)
    }),
    (Rule::PieceNotOurs, |p, _, t| {
        let part = t.parts.iter().position(|x| !x.ours);
        p.joints[0].pieces[0].part = part.expect("a kit's horizontal");
    }),
    (Rule::PieceMissing, |p, _, _| {
        p.joints[0].pieces.pop();
    }),
    (Rule::PieceTwice, |p, _, _| {
        let again = p.joints[0].pieces[0].clone();
        p.joints[1].pieces.push(again);
    }),
    (Rule::PieceUnknown, |p, _, _| p.joints[0].pieces[0].copy = 9),
    (Rule::PieceMark, |p, _, _| {
        p.joints[0].pieces[0].mark.push('x')
    }),
    (Rule::PieceSaw, |p, _, _| p.joints[0].pieces[0].saw += MARK),
    (Rule::PieceStart, |p, _, _| {
        p.joints[0].pieces[0].start += MARK
    }),
    (Rule::PieceEnd, |p, _, _| p.joints[0].pieces[0].end += MARK),
    (Rule::PiecePipe, |p, _, _| {
        p.joints[0].pipe = PipeId(1 - p.joints[0].pipe.0)
    }),
    (Rule::JointPipe, |p, _, _| {
        p.joints[0].pipe = PipeId(1 - p.joints[0].pipe.0)
    }),
    (Rule::JointEmpty, |p, _, _| p.joints[0].pieces.clear()),
    (Rule::JointOverfull, |p, _, _| {
        let more = p.joints[0].pieces.clone();
        for _ in 0..9 {
            p.joints[0].pieces.extend(more.clone());
        }
    }),
    (Rule::JointLength, |p, _, _| {
        p.joints[0].length += Length::FOOT
    }),
    (Rule::JointNearTrim, |p, _, _| p.joints[0].near += MARK),
    (Rule::JointFarTrim, |p, _, _| {
        rack(p).far = Length::from_64ths(16)
    }),
    (Rule::JointHoldBack, |p, _, _| {
        p.joints[0].hold = Length::INCH
    }),
    (Rule::JointLeftover, |p, _, _| p.joints[0].leftover += MARK),
    (Rule::JointLastCut, |p, _, _| {
        p.joints[0].last_cut = Length::ZERO
    }),
    (Rule::JointDrop, |p, _, _| kept(p).drop += MARK),
    (Rule::JointFloor, |p, _, _| kept(p).floor -= MARK),
    (Rule::JointIdentity, |p, _, _| kept(p).floor -= MARK),
    (Rule::JointKept, |p, _, _| kept(p).kept = false),
    (Rule::KeepTag, |p, _, _| kept(p).keep_tag = None),
    (Rule::JointCredit, |p, _, _| kept(p).credit = Money::ZERO),
    (Rule::MeasureFirst, |p, _, _| {
        p.joints[0].measure_first ^= true
    }),
    (Rule::JointNumber, |p, _, _| p.joints[0].number = 7),
];

pub const SUPPLY: &[(Rule, Spoil)] = &[
    (Rule::RackPieceTwice, |p, _, _| {
        let source = rack(p).source;
        let other = p.joints.iter_mut().find(|j| j.source != source);
        other.expect("another joint").source = source;
    }),
    (Rule::RackPieceMissing, |p, _, _| {
        rack(p).source = JointSource::Rack(0, 2)
    }),
    (Rule::OverAvailable, |_, w, _| {
        for quote in &mut w.quotes {
            quote.available = Some(1);
        }
    }),
    (Rule::BuyJoints, |p, _, _| p.buy[0].joints += 1),
    (Rule::BuyJoints, |p, _, _| {
        p.buy.pop();
    }),
    (Rule::BuyFeet, |p, _, _| p.buy[0].nominal += Length::FOOT),
    (Rule::BuyWeight, |p, _, _| p.buy[0].weight += 0.01),
    (Rule::BuyMoney, |p, _, _| {
        p.buy[0].money = p.buy[0].money.map(|m| m + Money::from_millicents(1000));
    }),
    (Rule::SpareJoints, |p, _, _| p.spares[0].joints += 1),
    (Rule::SpareJoints, |p, _, _| p.spares.clear()),
    (Rule::SpareMoney, |p, _, _| p.spares[0].money = None),
    (Rule::SpareQuote, |_, w, _| {
        let mut cheaper = w.quotes[2].clone();
        cheaper.price = Some(Money(tiny::dec("30")));
        w.quotes.push(cheaper);
    }),
    (Rule::TotalMoney, |p, _, _| {
        p.total = p.total.map(|m| m + Money::from_millicents(1000));
    }),
    (Rule::OutcomeCost, |p, _, _| p.pipes[0].cost -= 1),
    (Rule::OutcomeBought, |p, _, _| p.pipes[0].bought += 1),
    (Rule::OutcomeRack, |p, _, _| p.pipes[0].from_rack += 1),
    (Rule::OutcomePipeMoney, |p, _, _| p.pipes[0].pipe_money += 1),
    (Rule::OutcomeBound, |p, _, _| p.pipes[0].bound += 1),
    (Rule::OutcomeMissing, |p, _, _| {
        p.pools.remove(1);
    }),
    (Rule::PoolTwice, |p, _, _| {
        let again = p.pools[0].clone();
        p.pools.push(again);
    }),
    (Rule::OutcomeOrder, |p, _, _| p.pipes.reverse()),
    (Rule::OutcomePriced, |p, _, _| p.pipes[0].priced ^= true),
    (Rule::OutcomeStatus, |p, _, _| {
        p.pipes[0].status = Status::Within
    }),
    (Rule::OutcomeStatus, |p, _, _| {
        p.pipes[0].stop = match p.pipes[0].stop {
            StopReason::Closed => StopReason::WorkBudget,
            _ => StopReason::Closed,
        };
    }),
    (Rule::ShortUnnamed, |p, _, _| {
        p.nest.answers[0].short.push((0, 1));
    }),
    (Rule::SpareTwice, |p, _, _| {
        let again = p.spares[0].clone();
        p.spares.push(again);
    }),
    (Rule::WasteTaken, |p, _, _| p.waste.taken += MARK),
    (Rule::WasteLost, |p, _, _| p.pipes[0].waste.lost += MARK),
    (Rule::WasteAllIn, |p, _, _| p.waste.all_in += MARK),
    (Rule::WasteInParts, |p, _, _| p.waste.in_parts += MARK),
    (Rule::WasteKept, |p, _, _| p.waste.kept += MARK),
    (Rule::KeptList, |p, _, _| {
        p.kept.pop();
    }),
];

pub const SEQUENCE: &[(Rule, Spoil)] = &[
    (Rule::Minutes, |p, _, _| p.minutes.cuts += 1.2),
    (Rule::SittingMinutes, |p, _, _| p.sittings[0].minutes -= 1.0),
    (Rule::ReferenceFailed, |p, _, _| {
        let done = p.references.iter_mut().find(|r| r.money.is_some());
        done.expect("a reference with money").failed = Some("no way".into());
    }),
    (Rule::SittingMinutes, |p, _, _| p.sittings[0].minutes = -1.0),
    (Rule::ReferenceUnderBound, |p, _, _| {
        p.references[0].money = Some(Money::ZERO);
    }),
    (Rule::PlanOverReference, |p, _, _| {
        let pooled = p
            .references
            .iter_mut()
            .find(|r| r.name.starts_with("longest first"));
        pooled.expect("two references").money = Some(Money::ZERO);
    }),
    (Rule::GateCompleteAfter, |p, _, _| {
        p.done[0].after_joint += 1
    }),
    (Rule::GateCompleteMissing, |p, _, _| {
        p.done.pop();
    }),
    (Rule::GateCompleteOrder, |p, _, _| p.done.reverse()),
    (Rule::DueOrder, |_, w, _| {
        // What was due first is now due last.
        w.gates[1].due = Some(jiff::civil::date(2026, 4, 1));
    }),
    (Rule::SittingJoints, |p, _, _| {
        p.sittings[0].joints.pop();
    }),
    (Rule::SittingSaw, |p, _, _| p.sittings[0].saw = 2),
    (Rule::GateForgotten, |_, _, t| t.frames.clear()),
    (Rule::LeftOutUnexplained, |p, _, _| {
        p.left_out.push(Impossible {
            gate: Some(1),
            extra: None,
            mark: "A2".into(),
            part: None,
            reason: String::new(),
            change: String::new(),
        });
    }),
];

#[test]
fn spoiled_joints_are_named() {
    all_named(week, JOINTS);
}

#[test]
fn spoiled_supply_and_money_are_named() {
    all_named(week, SUPPLY);
}

#[test]
fn a_spoiled_sequence_is_named() {
    all_named(week, SEQUENCE);
}
