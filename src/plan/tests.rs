//! The plan end to end on the tiny world of `splice::world`.

use std::collections::BTreeSet;

use super::*;
use crate::measure::{Length, Money};
use crate::nest::{Limits, Status};
use crate::order::{ExtraPart, Origin, RackPiece, Week};
use crate::splice::world::{CHORD, WEB, dec, inch, quote, take_off, week};

pub(crate) fn options() -> PlanOptions<'static> {
    PlanOptions {
        limits: Limits {
            work: 300_000,
            time: None,
        },
        ..PlanOptions::default()
    }
}

pub(crate) fn plan(week: &Week) -> Plan {
    make(week, &take_off(week), &options()).expect("the week can be planned")
}

/// Two short gates, one long one, in two due weeks.
pub(crate) fn mixed() -> Week {
    week(&[
        ("A1", 144.0, 72.0, 2, 20),
        ("A2", 288.0, 72.0, 2, 12),
        ("A3", 180.0, 60.0, 1, 5),
    ])
}

pub(crate) fn origin() -> Origin {
    Origin {
        file: "rack.csv".to_owned(),
        line: 2,
    }
}

fn rack(length: f64, count: u32) -> RackPiece {
    RackPiece {
        tag: "R7".to_owned(),
        pipe: CHORD,
        length: inch(length),
        count,
        near_trim: false,
        far_trim: true,
        arrives: None,
        note: String::new(),
        origin: origin(),
    }
}

/// length = parts + kerf + near trim + floor piece, on every joint; pieces lie in order.
pub(crate) fn identity(week: &Week, plan: &Plan) {
    let k = week.shop.saw.kerf;
    for joint in &plan.joints {
        let parts: Length = joint.pieces.iter().map(|p| p.saw).sum();
        let gaps = k * (i64::try_from(joint.pieces.len()).expect("few") - 1);
        assert_eq!(
            joint.length,
            parts + gaps + joint.last_cut + joint.near + joint.floor,
            "joint {}",
            joint.number
        );
        assert!(joint.leftover >= Length::ZERO);
        let mut at = joint.near;
        for p in &joint.pieces {
            assert_eq!((p.start, p.end), (at, at + p.saw));
            at = p.end + k;
        }
    }
}

/// Every piece of every gate and extra part exactly once.
fn whole(week: &Week, plan: &Plan) {
    let take_off = take_off(week);
    let mut seen = BTreeSet::new();
    for p in plan.joints.iter().flat_map(|j| &j.pieces) {
        assert!(
            seen.insert((p.part, p.copy, p.serial, p.piece)),
            "twice: {}",
            p.mark
        );
    }
    let spliced: usize = plan.spliced.iter().map(|l| l.pieces.len() - 1).sum();
    let wanted: u32 = take_off
        .parts
        .iter()
        .filter(|p| p.ours)
        .map(|p| p.count)
        .sum();
    assert_eq!(seen.len(), usize::try_from(wanted).expect("few") + spliced);
}

#[test]
fn worked_gate_takes_three_joints_of_each_pipe_without_a_splice() {
    // DESIGN §5: 12 ft by 6 ft out of 21 ft joints: 3 joints of each pipe.
    let plan = plan(&week(&[("A1", 144.0, 72.0, 1, 5)]));
    for (pipe, outcome) in [WEB, CHORD].iter().zip(&plan.pipes) {
        assert_eq!((outcome.pipe, outcome.bought), (*pipe, 3));
    }
    assert_eq!(plan.spliced, []);
    assert_eq!(plan.joints.len(), 6);
    assert_eq!(plan.buy.iter().map(|b| b.joints).sum::<u32>(), 6);
    // 3 × 73.50 + 3 × 50.40 less the kept drops' credit.
    assert_eq!(plan.buy[0].money, Some(Money(dec(22_050, 2))));
    assert_eq!(plan.buy[1].money, Some(Money(dec(15_120, 2))));
}

#[test]
fn worked_gates_three_joints_are_proved() {
    // Without credits money is joints alone, and the root bound rounds up to whole joints.
    let mut week = week(&[("A1", 144.0, 72.0, 1, 5)]);
    week.shop.money.credit_rate = dec(0, 0);
    let plan = plan(&week);
    for outcome in &plan.pipes {
        assert_eq!((outcome.bought, outcome.status), (3, Status::Proved));
    }
}

#[test]
fn every_joint_adds_up_and_every_piece_is_cut_once() {
    let mut week = mixed();
    week.rack.push(rack(130.0, 2));
    week.extras.push(ExtraPart {
        mark: "H1".to_owned(),
        pipe: WEB,
        length: inch(40.0),
        count: 3,
        paperwork: Default::default(),
        note: String::new(),
        origin: origin(),
    });
    let plan = plan(&week);
    identity(&week, &plan);
    whole(&week, &plan);
    // A2 twice and A3 (279.625 in) once, top and bottom.
    assert_eq!(plan.spliced.len(), 6);
    for joint in plan
        .joints
        .iter()
        .filter(|j| j.source == JointSource::Rack(0, 0))
    {
        assert_eq!((joint.near, joint.length), (Length::ZERO, inch(130.0)));
    }
}

#[test]
fn total_is_what_is_bought_less_credits_plus_splices() {
    let week = mixed();
    let plan = plan(&week);
    let bought: Money = plan.buy.iter().filter_map(|b| b.money).sum();
    let credits: Money = plan.kept.iter().map(|k| k.credit).sum();
    let splices = plan.spliced.iter().map(|l| l.splices.len()).sum::<usize>();
    let splices = Money(dec(4_000 * i64::try_from(splices).expect("few"), 2));
    assert_eq!(plan.total, Some(bought - credits + splices));
}

#[test]
fn splices_stand_in_their_windows_and_pieces_sum_with_the_gaps() {
    let week = mixed();
    let plan = plan(&week);
    for line in &plan.spliced {
        let metal: Length = line.pieces.iter().copied().sum();
        let gaps = line.gap * (line.pieces.len() - 1) as f64;
        let part = &take_off(&week).parts[line.part];
        assert!((metal.geometric() + gaps - part.long_exact).abs() < 1.0);
        for s in &line.splices {
            let (lo, hi) = s.window;
            assert!(lo.geometric() <= s.centre && s.centre <= hi.geometric());
            assert!(s.bay > 1 && s.from_latch_side > 0.0 && s.from_tail_side > 0.0);
        }
    }
}

#[test]
fn gates_finish_in_due_order() {
    let week = mixed();
    let plan = plan(&week);
    let order: Vec<&str> = plan
        .done
        .iter()
        .map(|d| week.gates[d.gate].mark.as_str())
        .collect();
    assert_eq!(order, ["A3", "A2", "A2", "A1", "A1"]);
    let last = plan.done.last().map(|d| d.after_joint);
    assert_eq!(last, plan.joints.last().map(|j| j.number));
    assert!(
        plan.done
            .windows(2)
            .all(|w| w[0].after_joint <= w[1].after_joint)
    );
}

#[test]
fn waste_is_by_definition() {
    let week = mixed();
    let plan = plan(&week);
    let w = plan.waste;
    assert_eq!(w.taken, plan.joints.iter().map(|j| j.length).sum());
    assert_eq!(w.all_in, w.lost + w.kept);
    let kerfs_trims_scrap: Length = plan
        .joints
        .iter()
        .map(|j| {
            let n = i64::try_from(j.pieces.len()).expect("few");
            let scrap = if j.kept { Length::ZERO } else { j.floor };
            j.near + week.shop.saw.kerf * (n - 1) + j.last_cut + scrap
        })
        .sum();
    assert_eq!(w.lost, kerfs_trims_scrap);
}

#[test]
fn order_of_rows_and_split_counts_change_nothing() {
    let first = plan(&mixed());
    let shuffled = plan(&week(&[
        ("A3", 180.0, 60.0, 1, 5),
        ("A1", 144.0, 72.0, 2, 20),
        ("A2", 288.0, 72.0, 2, 12),
    ]));
    let cuts = |p: &Plan| {
        let joints = p.joints.iter();
        joints
            .map(|j| {
                let pieces = j.pieces.iter().map(|p| (p.mark.clone(), p.saw, p.start));
                (j.pipe, j.length, pieces.collect::<Vec<_>>())
            })
            .collect::<Vec<_>>()
    };
    assert_eq!(cuts(&first), cuts(&shuffled));
    assert_eq!(first.number, shuffled.number);
    assert_eq!(first.total, shuffled.total);
    let split = plan(&week(&[
        ("A1", 144.0, 72.0, 1, 20),
        ("A2", 288.0, 72.0, 1, 12),
        ("A3", 180.0, 60.0, 1, 5),
        ("A4", 288.0, 72.0, 1, 12),
        ("A5", 144.0, 72.0, 1, 20),
    ]));
    assert_eq!(
        first.nest.problem.pools[0].items,
        split.nest.problem.pools[0].items
    );
    assert_eq!(first.nest.answers, split.nest.answers);
    assert_eq!(first.total, split.total);
    assert_ne!(first.number, split.number);
}

#[test]
fn same_week_same_plan_to_the_byte() {
    let week = mixed();
    let json = |p: Plan| serde_json::to_string(&p).expect("a plan is JSON");
    assert_eq!(json(plan(&week)), json(plan(&week)));
}

#[test]
fn spares_are_bought_apart() {
    let mut week = mixed();
    week.quotes.push(quote(CHORD, 40, Some(12_800), 9));
    week.shop.money.spares = vec![(CHORD, 2)];
    let plan = plan(&week);
    // 128.00 / 40 ft is cheaper per foot than 73.50 / 21 ft.
    assert_eq!((plan.spares[0].quote, plan.spares[0].joints), (2, 2));
    assert_eq!(plan.spares[0].money, Some(Money(dec(25_600, 2))));
}

#[test]
fn the_plan_is_never_worse_than_either_hand_reference() {
    let plan = plan(&mixed());
    let total = plan.total.expect("priced");
    for reference in &plan.references {
        assert_eq!(reference.failed, None);
        assert!(
            total <= reference.money.expect("priced"),
            "{}",
            reference.name
        );
        assert_eq!(reference.splices, 6);
    }
    assert!(plan.pipes.iter().all(|p| p.status != Status::Short));
}

#[test]
fn sittings_share_the_joints_and_minutes_add_up() {
    let mut week = mixed();
    week.shop.saw.saws = 2;
    let plan = plan(&week);
    let joints: usize = plan.sittings.iter().map(|s| s.joints.len()).sum();
    assert_eq!((plan.sittings.len(), joints), (2, plan.joints.len()));
    let minutes: f64 = plan.sittings.iter().map(|s| s.minutes).sum();
    assert!((minutes - plan.minutes.joints - plan.minutes.cuts).abs() < 1e-9);
    assert!((plan.minutes.splices - 150.0).abs() < 1e-9);
}

#[test]
fn kits_get_advice_for_every_local_length() {
    let mut week = week(&[("A1", 288.0, 72.0, 3, 5)]);
    week.gates[0].kit = true;
    let plan = plan(&week);
    assert_eq!(plan.spliced, []);
    let options = &plan.kits[0].options;
    assert_eq!(options.len(), 4);
    for option in options.iter().filter(|o| o.refused.is_none()) {
        let pieces: usize = option.cuts.iter().map(|c| c.pieces.len()).sum();
        let splices: usize = option.lines.iter().map(|l| l.splices.len()).sum();
        assert_eq!(pieces, 2 + splices);
        assert_eq!(
            usize::try_from(option.joints_per_gate),
            Ok(option.cuts.len())
        );
    }
    // 36'-9 5/8" fits a 40 ft joint whole: one joint each.
    assert_eq!((options[3].joints_per_gate, options[3].lines.len()), (2, 0));
    // 21 ft: one splice each, at least 4 joints' worth less one: 883.25 in of pipe is 4 × 251.5 less.
    assert_eq!(options[1].joints_per_gate, 4);
}

#[test]
fn inches_and_millimetres_make_the_same_plan() {
    let inch = mixed();
    let mut metric = inch.clone();
    metric.shop.units = crate::measure::Units::Metric;
    for pipe in &mut metric.pipes {
        for d in [&mut pipe.od, &mut pipe.wall] {
            *d = crate::measure::Dimension::mm(d.exact_mm());
        }
    }
    let (a, b) = (plan(&inch), plan(&metric));
    assert_eq!(a.total, b.total);
    let cuts = |p: &Plan| {
        let pieces = p.joints.iter().flat_map(|j| &j.pieces);
        pieces
            .map(|p| (p.mark.clone(), p.start, p.saw))
            .collect::<Vec<_>>()
    };
    assert_eq!(cuts(&a), cuts(&b));
}

#[test]
fn a_sway_brace_longer_than_a_joint_is_spliced_by_itself() {
    let mut week = week(&[("A1", 288.0, 72.0, 2, 5)]);
    week.gates[0].sway = true;
    let plan = plan(&week);
    let parts = take_off(&week).parts;
    let braces: Vec<&SplicedLine> = plan
        .spliced
        .iter()
        .filter(|l| parts[l.part].role == Some(crate::gate::Role::SwayBrace))
        .collect();
    assert_eq!(braces.len(), 2);
    // Of 1.900 pipe, clear of its standoffs' toes: 0.95 + 3/16 + 1.5 × 1.900 in along the brace.
    for s in braces.iter().flat_map(|l| &l.splices) {
        let near = s.from_latch_side.min(s.from_tail_side);
        assert!(near >= 3.9875 * crate::measure::INCH - 1.0, "{near}");
        assert!(!s.roller_bay);
    }
    identity(&week, &plan);
    whole(&week, &plan);
}
