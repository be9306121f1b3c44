//! Any gate either comes out whole and within its limits, or is refused with a reason; nothing panics.

use crate::tiny;
use longpoint::gate::{Role, strictly_under};
use longpoint::measure::{INCH, Length};
use longpoint::order::{Bays, CutMethod, GateOrder, Lean, PipeId, Variant, Week};
use longpoint::part::{gate_weight, take_off};
use proptest::prelude::*;

fn length() -> impl Strategy<Value = Length> {
    prop_oneof![
        (0..200_000_i64).prop_map(Length::from_64ths),
        (-3..50_i64).prop_map(Length::from_ticks),
        Just(Length::MAX),
        Just(Length::ZERO),
    ]
}

fn bays() -> impl Strategy<Value = Bays> {
    prop_oneof![
        3 => Just(Bays::Least),
        1 => (0..40_u32).prop_map(Bays::Count),
        1 => prop::collection::vec(length(), 0..6).prop_map(Bays::Lines),
        1 => any::<u32>().prop_map(Bays::Count),
    ]
}

fn order() -> impl Strategy<Value = GateOrder> {
    let leaf = prop_oneof![
        5 => (100.0..600.0_f64).prop_map(|x| x * INCH),
        1 => Just(f64::NAN),
        1 => any::<f64>(),
    ];
    let height = prop_oneof![4 => (2_000..8_000_i64).prop_map(Length::from_64ths), 1 => length()];
    let pipes = prop::array::uniform5(0..4_usize);
    (
        leaf,
        height,
        bays(),
        pipes,
        0..5_u32,
        any::<bool>(),
        any::<bool>(),
    )
        .prop_map(|(leaf, height, bays, pipes, barbed, sway, usual)| {
            let mut gate = tiny::gate("A1");
            (gate.leaf, gate.height, gate.bays) = (leaf, height, bays);
            (gate.barbed, gate.sway) = (barbed, sway);
            if !usual {
                let p = &mut gate.pipes;
                p.horizontal = PipeId(pipes[0]);
                p.latch_post = PipeId(pipes[1]);
                p.tail_post = PipeId(pipes[2]);
                p.vertical = PipeId(pipes[3]);
                p.diagonal = PipeId(pipes[4]);
            }
            gate
        })
}

fn weeks() -> impl Strategy<Value = Week> {
    let switches = prop::array::uniform5(any::<bool>());
    let offset = prop_oneof![3 => Just(0.0), 1 => 0.0..12.0_f64];
    (prop::collection::vec(order(), 1..4), switches, offset).prop_map(|(gates, s, offset)| {
        let mut week = tiny::week(gates);
        week.pipes.push(tiny::pipe("2-7/8 SS40", "2.875", "0.203"));
        week.pipes.push(tiny::pipe("1-5/8 SS40", "1.660", "0.140"));
        let std = &mut week.shop.gate;
        std.landing_offset = tiny::inches(offset);
        if s[0] {
            std.variant = Variant::Through;
        }
        if s[1] {
            std.lean = Lean::HeadToLatch;
        }
        if s[2] {
            std.diagonal_cut = CutMethod::Radial;
        }
        (std.barbed_risers, std.roller_on_top) = (s[3], s[4]);
        week
    })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(250) })]

    #[test]
    fn whole_or_refused(week in weeks()) {
        let (t, no) = take_off(&week);
        for i in &no {
            prop_assert!(!i.reason.is_empty() && !i.change.is_empty());
        }
        let refused: Vec<usize> = no.iter().filter_map(|i| i.gate).collect();
        for gate in 0..week.gates.len() {
            let built = t.frames.iter().any(|f| f.gate == gate);
            prop_assert!(built != refused.contains(&gate));
        }
        for frame in &t.frames {
            for bay in &frame.bays {
                prop_assert!(strictly_under(bay.to - bay.from, week.shop.gate.bay_limit.geometric()));
                prop_assert!(strictly_under(bay.to - bay.from, frame.axis_height));
            }
            for m in frame.members.iter().filter(|m| !matches!(m.role, Role::SwayBrace | Role::Standoff)) {
                let flat = (m.end.x - m.start.x).hypot(m.end.y - m.start.y);
                prop_assert!((m.axis - flat).abs() < 1e-6 * INCH);
            }
            let of_gate = t.parts.iter().filter(|p| p.gate == Some(frame.gate));
            let pieces: u32 = of_gate.map(|p| p.per_gate).sum();
            prop_assert_eq!(pieces as usize, frame.members.len());
            let w = gate_weight(&week, &t, frame.gate).expect("built");
            prop_assert!(w.pipe > 0.0 && w.centre_of_gravity.x.is_finite());
        }
        for p in &t.parts {
            prop_assert!(p.throat_exact > 0.0 && p.long_exact >= p.throat_exact - 1e-6);
            prop_assert!(p.long_exact <= p.axis + 1e-6 * INCH);
        }
    }
}
