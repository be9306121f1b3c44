//! A good plan spoiled in one place at a time; the judge names each.

mod judge;
mod tiny;
mod tiny_week;

use judge::{names, planned, print};
use longpoint::check::{check, violations};
use longpoint::measure::{Length, Money};
use longpoint::order::{Impossible, PipeId, Week};
use longpoint::part::TakeOff;
use longpoint::plan::{JointSource, Plan};
use longpoint::splice::{ReachForm, WindowClass};
use tiny_week::week;

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

/// A change to a sound plan.
type Spoil = fn(&mut Plan, &mut Week, &mut TakeOff);

/// One saw mark.
const MARK: Length = Length::from_64ths(4);

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

/// Where the first splice of a spliced horizontal stands, from the latch face.
fn at(plan: &Plan, line: usize) -> f64 {
    plan.spliced[line].splices[0].x.expect("a horizontal")
}

/// Moves metal from the second piece of the first spliced line to its first, everywhere.
fn move_splice(plan: &mut Plan, by: Length) {
    let line = &mut plan.spliced[0];
    line.pieces[0] += by;
    line.pieces[1] -= by;
    line.splices[0].centre += by.geometric();
    let x = line.splices[0].x.as_mut();
    *x.expect("a horizontal") += by.geometric();
    line.splices[0].from_latch_side += by.geometric();
    line.splices[0].from_tail_side -= by.geometric();
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

const SPLICES: [(&str, Spoil); 34] = [
    ("splice-clear-of-toes", |p, _, _| {
        // Onto the nearer vertical.
        let splice = &p.spliced[0].splices[0];
        let by = if splice.from_latch_side < splice.from_tail_side {
            -splice.from_latch_side
        } else {
            splice.from_tail_side
        };
        move_splice(p, Length::nearest_mark(by, MARK));
    }),
    ("splice-roller-bay-reach", |p, _, _| {
        // To mid-bay.
        let s = &p.spliced[0].splices[0];
        let by = (s.from_tail_side - s.from_latch_side) / 2.0;
        move_splice(p, Length::nearest_mark(by, MARK));
    }),
    ("splice-end-bay", |p, _, _| {
        let x = at(p, 0);
        move_splice(
            p,
            Length::nearest_mark(tiny::inches(30.0).geometric() - x, MARK),
        );
    }),
    ("splice-least-piece", |p, _, _| {
        let x = at(p, 0);
        move_splice(
            p,
            Length::nearest_mark(tiny::inches(30.0).geometric() - x, MARK),
        );
    }),
    ("splice-excluded-bay", |p, w, _| {
        w.gates[0].excluded_bays = vec![p.spliced[0].splices[0].bay];
    }),
    ("splice-parked-roller", |p, w, _| {
        let x = at(p, 0);
        let front = w.gates[0].latch_overlap.geometric();
        w.gates[0].rolling.spacing = Some(Length::nearest_tick(x - front));
    }),
    ("splice-clear-of-bracket", |p, w, _| {
        w.shop.splice.brackets = vec![Length::nearest_tick(at(p, 0))];
    }),
    ("splice-stagger", |p, _, _| {
        // The bottom's splice over the top's, whatever the windows say.
        let by = at(p, 1) - at(p, 0);
        move_splice(p, Length::nearest_mark(by, MARK));
    }),
    ("splice-shared-bay", |p, _, _| {
        let bay = p.spliced[1].splices[0].bay;
        p.spliced[0].splices[0].bay = bay;
    }),
    ("splice-count", |p, _, _| {
        let line = &mut p.spliced[0];
        let half = Length::from_64ths(4 * 600);
        line.pieces[0] -= half;
        line.pieces.insert(0, half);
        let second = line.splices[0].clone();
        line.splices.insert(0, second);
    }),
    ("splice-piece-mark", |p, _, _| {
        move_splice(p, Length::from_64ths(1))
    }),
    ("splice-pieces-sum", |p, _, _| {
        p.spliced[0].pieces[0] += MARK
    }),
    ("splice-gap", |p, _, _| p.spliced[0].gap += 10.0),
    ("splice-centre", |p, _, _| {
        p.spliced[0].splices[0].centre += 10.0
    }),
    ("splice-x", |p, _, _| {
        p.spliced[0].splices[0].x = Some(at(p, 0) + 10.0);
    }),
    ("splice-bay", |p, _, _| p.spliced[0].splices[0].bay += 1),
    ("splice-bay-lines", |p, _, _| {
        p.spliced[0].splices[0].from_latch_side += 10.0;
    }),
    ("splice-window", |p, _, _| {
        p.spliced[0].splices[0].window.1 += Length::FOOT;
    }),
    ("splice-tolerated", |p, _, _| {
        p.spliced[0].splices[0].tolerated ^= true
    }),
    ("splice-roller-bay", |p, _, _| {
        p.spliced[0].splices[0].roller_bay ^= true
    }),
    ("splice-class", |p, _, _| {
        p.spliced[0].splices[0].class = WindowClass::ByOrder;
    }),
    ("splice-reach-form", |p, _, _| {
        p.spliced[0].form = ReachForm::EveryInteriorBay
    }),
    ("splice-reach-form", |p, _, _| {
        p.splice_sets[0].form = ReachForm::EveryInteriorBay;
    }),
    ("splice-stress", |p, _, _| {
        let rel = &mut p.spliced[0].splices[0].rel;
        *rel = rel.map(|r| r - 0.01);
    }),
    ("splice-stress", |p, _, _| {
        p.spliced[0].splices[0].rel = None
    }),
    ("splice-class", |p, _, _| {
        let window = &mut p.splice_sets[0].lines[0].windows[0];
        window.class = match window.class {
            WindowClass::Plain => WindowClass::Charged,
            _ => WindowClass::Plain,
        };
    }),
    ("splice-needed", |p, _, _| {
        p.spliced.remove(0);
    }),
    ("splice-not-needed", |p, _, t| {
        let part = t.parts.iter().position(|x| x.mark == "A2-HB");
        p.spliced[0].part = part.expect("A2 has a bottom horizontal");
    }),
    ("spliced-line-twice", |p, _, _| {
        let again = p.spliced[0].clone();
        p.spliced.push(again);
    }),
    ("splice-piece-count", |p, _, _| p.spliced[0].splices.clear()),
    ("splice-windows", |p, _, _| {
        p.splice_sets[0].lines[0].windows[0].hi += Length::FOOT;
    }),
    ("splice-cap", |p, _, _| p.splice_sets[0].lines[0].most += 1),
    ("splice-fewest", |p, _, _| {
        p.splice_sets[0].lines[0].least = 0
    }),
    ("splice-set-missing", |p, _, _| p.splice_sets.clear()),
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

const KITS: [(&str, Spoil); 14] = [
    ("kit-missing", |p, _, _| p.kits.clear()),
    ("kit-joints", |p, _, _| {
        p.kits[0].options.pop();
    }),
    ("kit-usable", |p, _, _| p.kits[0].options[0].usable += MARK),
    ("kit-count", |p, _, _| {
        p.kits[0].options[0].joints_per_gate += 1
    }),
    ("kit-refused", |p, _, _| {
        p.kits[0].options[0].refused = Some("no".into());
    }),
    ("kit-impossible", |p, w, _| {
        w.gates[2].excluded_bays = tiny::every_bay(w, 2);
        let advised = p.kits[0].options.iter().filter(|o| !o.lines.is_empty());
        assert!(advised.count() > 0);
    }),
    ("kit-piece-start", |p, _, _| {
        p.kits[0].options[0].cuts[0].pieces[0].start += MARK
    }),
    ("kit-piece-end", |p, _, _| {
        p.kits[0].options[0].cuts[0].pieces[0].end += MARK
    }),
    ("kit-floor", |p, _, _| {
        p.kits[0].options[0].cuts[0].floor += MARK
    }),
    ("kit-joint-empty", |p, _, _| {
        p.kits[0].options[0].cuts[0].pieces.clear()
    }),
    ("kit-pieces", |p, _, _| {
        p.kits[0].options[0].cuts.pop();
    }),
    ("kit-overfull", |p, _, _| {
        let more = p.kits[0].options[0].cuts[0].pieces.clone();
        p.kits[0].options[0].cuts[1].pieces.extend(more.clone());
        p.kits[0].options[0].cuts[1].pieces.extend(more);
    }),
    ("splice-centre", |p, _, _| {
        p.kits[0].options[0].lines[0].splices[0].centre += 10.0;
    }),
    ("splice-shared-bay", |p, _, _| {
        let bay = p.kits[0].options[0].lines[1].splices[0].bay;
        p.kits[0].options[0].lines[0].splices[0].bay = bay;
    }),
];

fn all_named(list: &[(&str, Spoil)]) {
    let good = week();
    let (take_off, plan) = planned(&good);
    let mut missed = String::new();
    for (number, (rule, spoil)) in list.iter().enumerate() {
        let (mut week, mut take_off, mut plan) = (good.clone(), take_off.clone(), plan.clone());
        spoil(&mut plan, &mut week, &mut take_off);
        let found = violations(&week, &take_off, &plan);
        if !names(&found, rule) {
            missed += &format!("{number}: {rule} not named in:\n{}\n", print(&found));
        }
        assert!(check(week, take_off, plan).is_err(), "{rule}");
    }
    assert!(missed.is_empty(), "{missed}");
}

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
fn spoiled_splices_are_named() {
    all_named(&SPLICES);
}

#[test]
fn spoiled_kit_advice_is_named() {
    all_named(&KITS);
}

#[test]
fn a_problem_that_is_not_the_weeks_is_named() {
    all_named(&NEST);
}
