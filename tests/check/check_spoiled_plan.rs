//! A good plan spoiled in one place at a time; the judge names each.

use crate::judge::{planned, print};
use crate::spoil::{MARK, Spoil, all_named};
use crate::tiny;
use crate::tiny_week::week;
use longpoint::check::{check, violations};
use longpoint::measure::{Length, Money};
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

const JOINTS: [(&str, Spoil); 27] = [
    ("index", |p, _, _| p.joints[0].pieces[0].part = 999),
    ("magnitude", |p, _, _| {
        p.joints[0].length = Length::from_ticks(1 << 41)
    }),
    ("piece-missing", |p, _, _| {
        p.joints[0].pieces.pop();
    }),
    ("piece-twice", |p, _, _| {
        let again = p.joints[0].pieces[0].clone();
        p.joints[1].pieces.push(again);
    }),
    ("piece-unknown", |p, _, _| p.joints[0].pieces[0].copy = 9),
    ("piece-mark", |p, _, _| p.joints[0].pieces[0].mark.push('x')),
    ("piece-saw", |p, _, _| p.joints[0].pieces[0].saw += MARK),
    ("piece-start", |p, _, _| p.joints[0].pieces[0].start += MARK),
    ("piece-end", |p, _, _| p.joints[0].pieces[0].end += MARK),
    ("piece-pipe", |p, _, _| {
        p.joints[0].pipe = PipeId(1 - p.joints[0].pipe.0)
    }),
    ("joint-pipe", |p, _, _| {
        p.joints[0].pipe = PipeId(1 - p.joints[0].pipe.0)
    }),
    ("joint-empty", |p, _, _| p.joints[0].pieces.clear()),
    ("joint-overfull", |p, _, _| {
        let more = p.joints[0].pieces.clone();
        for _ in 0..9 {
            p.joints[0].pieces.extend(more.clone());
        }
    }),
    ("joint-length", |p, _, _| p.joints[0].length += Length::FOOT),
    ("joint-near-trim", |p, _, _| p.joints[0].near += MARK),
    ("joint-far-trim", |p, _, _| {
        rack(p).far = Length::from_64ths(16)
    }),
    ("joint-hold-back", |p, _, _| p.joints[0].hold = Length::INCH),
    ("joint-leftover", |p, _, _| p.joints[0].leftover += MARK),
    ("joint-last-cut", |p, _, _| {
        p.joints[0].last_cut = Length::ZERO
    }),
    ("joint-drop", |p, _, _| kept(p).drop += MARK),
    ("joint-floor", |p, _, _| kept(p).floor -= MARK),
    ("joint-identity", |p, _, _| kept(p).floor -= MARK),
    ("joint-kept", |p, _, _| kept(p).kept = false),
    ("keep-tag", |p, _, _| kept(p).keep_tag = None),
    ("joint-credit", |p, _, _| kept(p).credit = Money::ZERO),
    ("measure-first", |p, _, _| p.joints[0].measure_first ^= true),
    ("joint-number", |p, _, _| p.joints[0].number = 7),
];

const SUPPLY: [(&str, Spoil); 24] = [
    ("rack-piece-twice", |p, _, _| {
        let source = rack(p).source;
        let other = p.joints.iter_mut().find(|j| j.source != source);
        other.expect("another joint").source = source;
    }),
    ("rack-piece-missing", |p, _, _| {
        rack(p).source = JointSource::Rack(0, 2)
    }),
    ("over-available", |_, w, _| {
        for quote in &mut w.quotes {
            quote.available = Some(1);
        }
    }),
    ("buy-joints", |p, _, _| p.buy[0].joints += 1),
    ("buy-joints", |p, _, _| {
        p.buy.pop();
    }),
    ("buy-feet", |p, _, _| p.buy[0].nominal += Length::FOOT),
    ("buy-weight", |p, _, _| p.buy[0].weight += 0.01),
    ("buy-money", |p, _, _| {
        p.buy[0].money = p.buy[0].money.map(|m| m + Money::from_millicents(1000));
    }),
    ("spare-joints", |p, _, _| p.spares[0].joints += 1),
    ("spare-joints", |p, _, _| p.spares.clear()),
    ("spare-money", |p, _, _| p.spares[0].money = None),
    ("spare-quote", |_, w, _| {
        let mut cheaper = w.quotes[2].clone();
        cheaper.price = Some(Money(tiny::dec("30")));
        w.quotes.push(cheaper);
    }),
    ("total-money", |p, _, _| {
        p.total = p.total.map(|m| m + Money::from_millicents(1000));
    }),
    ("outcome-cost", |p, _, _| p.pipes[0].cost -= 1),
    ("outcome-bought", |p, _, _| p.pipes[0].bought += 1),
    ("outcome-rack", |p, _, _| p.pipes[0].from_rack += 1),
    ("outcome-pipe-money", |p, _, _| p.pipes[0].pipe_money += 1),
    ("outcome-bound", |p, _, _| p.pipes[0].bound += 1),
    ("waste-taken", |p, _, _| p.waste.taken += MARK),
    ("waste-lost", |p, _, _| p.pipes[0].waste.lost += MARK),
    ("waste-all-in", |p, _, _| p.waste.all_in += MARK),
    ("waste-in-parts", |p, _, _| p.waste.in_parts += MARK),
    ("waste-kept", |p, _, _| p.waste.kept += MARK),
    ("kept-list", |p, _, _| {
        p.kept.pop();
    }),
];

const SEQUENCE: [(&str, Spoil); 12] = [
    ("minutes", |p, _, _| p.minutes.cuts += 1.2),
    ("sitting-minutes", |p, _, _| p.sittings[0].minutes -= 1.0),
    ("reference-under-bound", |p, _, _| {
        p.references[0].money = Some(Money::ZERO);
    }),
    ("plan-over-reference", |p, _, _| {
        let pooled = p
            .references
            .iter_mut()
            .find(|r| r.name.starts_with("longest first"));
        pooled.expect("two references").money = Some(Money::ZERO);
    }),
    ("gate-complete-after", |p, _, _| p.done[0].after_joint += 1),
    ("gate-complete-missing", |p, _, _| {
        p.done.pop();
    }),
    ("gate-complete-order", |p, _, _| p.done.reverse()),
    ("due-order", |_, w, _| {
        // What was due first is now due last.
        w.gates[1].due = Some(jiff::civil::date(2026, 4, 1));
    }),
    ("sitting-joints", |p, _, _| {
        p.sittings[0].joints.pop();
    }),
    ("sitting-saw", |p, _, _| p.sittings[0].saw = 2),
    ("gate-forgotten", |_, _, t| t.frames.clear()),
    ("left-out-unexplained", |p, _, _| {
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

const NEST: [(&str, Spoil); 14] = [
    ("nest-items", |p, _, _| {
        p.nest.problem.pools[0].items[0].count += 1
    }),
    ("nest-items", |p, _, _| {
        p.nest.problem.pools[0].items[0].length -= 508
    }),
    ("nest-groups", |p, _, _| {
        let pool = p
            .nest
            .problem
            .pools
            .iter_mut()
            .find(|p| !p.groups.is_empty());
        let group = &mut pool.expect("a pool with groups").groups[0];
        group.lines[0].slots[0].lo += 508;
    }),
    ("nest-groups", |p, _, _| {
        let pool = p
            .nest
            .problem
            .pools
            .iter_mut()
            .find(|p| !p.groups.is_empty());
        pool.expect("a pool with groups").groups[0].apart = 0;
    }),
    ("nest-group-map", |p, _, _| {
        for map in p.nest.groups.iter_mut().flatten() {
            map.push(0);
        }
    }),
    ("nest-kerf", |p, _, _| p.nest.problem.pools[0].kerf = 0),
    ("nest-mark", |p, _, _| p.nest.problem.pools[0].mark = 1),
    ("nest-credit", |p, _, _| {
        p.nest.problem.pools[0].credit.per_foot += 1
    }),
    ("nest-stock-usable", |p, _, _| {
        p.nest.problem.pools[0].stocks[0].usable += 1
    }),
    ("nest-stock-cost", |p, _, _| {
        p.nest.problem.pools[0].stocks[0].cost += 1
    }),
    ("nest-stock-limit", |p, _, _| {
        p.nest.problem.pools[0].stocks[0].limit = Some(0);
    }),
    ("nest-stocks", |p, _, _| {
        p.nest.problem.pools[0].stocks.pop();
    }),
    ("nest-pools", |p, _, _| {
        p.nest.problem.pools.pop();
    }),
    ("nest-patterns", |p, _, _| {
        p.nest.answers[0].patterns[0].times += 1;
    }),
];

#[test]
fn spoiled_joints_are_named() {
    all_named(&JOINTS);
}

#[test]
fn spoiled_supply_and_money_are_named() {
    all_named(&SUPPLY);
}

#[test]
fn a_spoiled_sequence_is_named() {
    all_named(&SEQUENCE);
}

#[test]
fn a_problem_that_is_not_the_weeks_is_named() {
    all_named(&NEST);
}
