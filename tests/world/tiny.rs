//! A tiny world: DESIGN's default shop and its worked gate, changed by copy in each test.
#![allow(dead_code, reason = "a binary may use only some of it")]

use longpoint::measure::{Dimension, Length, Money, Units};
use longpoint::order::*;
use rust_decimal::Decimal;

/// 2.375 × 0.154 in the standard week.
pub const HEAVY: PipeId = PipeId(1);
/// 1.900 × 0.145.
pub const LIGHT: PipeId = PipeId(0);

/// Exact decimal from its text.
pub fn dec(text: &str) -> Decimal {
    text.parse().expect("decimal")
}

/// Whole 64ths from inches.
pub fn inches(x: f64) -> Length {
    Length::nearest_tick(x * 8128.0)
}

/// Feet and inches.
pub fn feet(ft: i64, inch: f64) -> Length {
    Length::FOOT * ft + inches(inch)
}

/// A pipe in inches.
pub fn pipe(name: &str, od: &str, wall: &str) -> Pipe {
    Pipe {
        name: name.into(),
        od: Dimension::inch(dec(od)),
        wall: Dimension::inch(dec(wall)),
        standard: "ASTM F1083".into(),
        grade: String::new(),
        finish: "galvanized".into(),
        yield_strength: None,
    }
}

/// A pipe in millimetres.
pub fn pipe_mm(name: &str, od: &str, wall: &str) -> Pipe {
    Pipe {
        od: Dimension::mm(dec(od)),
        wall: Dimension::mm(dec(wall)),
        ..pipe(name, "1", "0.1")
    }
}

/// DESIGN's worked gate: 12 ft opening, 6 ft high.
pub fn gate(mark: &str) -> GateOrder {
    GateOrder {
        mark: mark.into(),
        count: 1,
        opening: feet(12, 0.0),
        height: feet(6, 0.0),
        hand: Hand::Left,
        seen_from: None,
        latch_overlap: inches(6.0),
        roller_overlap: inches(6.0),
        tail: inches(72.0).geometric(),
        leaf: inches(228.0).geometric(),
        tail_by_rule: true,
        bays: Bays::Least,
        pipes: GatePipes {
            horizontal: HEAVY,
            latch_post: HEAVY,
            tail_post: HEAVY,
            vertical: LIGHT,
            diagonal: LIGHT,
            sway: LIGHT,
        },
        due: None,
        barbed: 0,
        sway: false,
        automated: false,
        kit: false,
        brackets: Vec::new(),
        excluded_bays: Vec::new(),
        rolling: Rolling::default(),
        high_stress: false,
        paperwork: Default::default(),
        note: String::new(),
        origin: Origin {
            file: "orders.csv".into(),
            line: 2,
        },
    }
}

/// A week of the given gates in the default shop.
pub fn week(gates: Vec<GateOrder>) -> Week {
    Week {
        shop: shop(),
        pipes: vec![
            pipe("1-7/8 SS40", "1.900", "0.145"),
            pipe("2-3/8 SS40", "2.375", "0.154"),
        ],
        gates,
        extras: Vec::new(),
        quotes: Vec::new(),
        suppliers: Vec::new(),
        rack: Vec::new(),
        begun: Begun::default(),
        notices: Vec::new(),
    }
}

/// DESIGN's defaults.
pub fn shop() -> Shop {
    Shop {
        name: "Tiny shop (invented)".into(),
        units: Units::Inch,
        gate: gate_standards(),
        fabric: FabricRules {
            weight_per_area: None,
            hardware: None,
            zinc_percent: None,
            load_factor: Decimal::ONE,
            engineer_over: dec("0.60"),
        },
        sway: SwayRules {
            expected_over: feet(25, 0.0),
            review_over: feet(30, 0.0),
            rise: inches(12.0),
            end_allowance: inches(2.0),
            pipe: LIGHT,
        },
        kit: KitRules {
            local_joints: vec![feet(20, 0.0), feet(21, 0.0), feet(24, 0.0), feet(40, 0.0)],
            trim: inches(0.25),
            kerf: inches(0.125),
            carrier_limit: None,
        },
        saw: Saw {
            piece_tolerance: Length::ZERO,
            kerf_entered: inches(0.1),
            kerf: Length::from_64ths(7),
            near_trim: inches(0.25),
            far_trim: inches(0.25),
            hold_back: Length::ZERO,
            mark: Length::from_64ths(4),
            measure_first_under: inches(0.125),
            tape: None,
            saws: 1,
        },
        splice: splice_rules(),
        money: MoneyRules {
            currency: "$".into(),
            keep_length: inches(36.0),
            credit_rate: dec("0.5"),
            spares: Vec::new(),
            held_credits: Vec::new(),
        },
        buying: BuyingRules::default(),
        minutes: MinuteRules {
            joint: dec("2.0"),
            cut: dec("1.2"),
            cope: dec("3"),
            splice: dec("25"),
            day_hours: dec("8"),
        },
        finisher: Finisher::PipeBoughtCoated,
    }
}

fn gate_standards() -> GateStandards {
    GateStandards {
        height: HeightMeaning::Outside,
        clearance: None,
        latch_overlap: inches(6.0),
        roller_overlap: inches(6.0),
        tail: TailRule::Fraction {
            fraction: dec("0.5"),
            least: feet(4, 0.0),
        },
        tail_warning: dec("0.40"),
        bay_limit: inches(60.0),
        lean: Lean::HeadToTail,
        landing_offset: Length::ZERO,
        variant: Variant::PostsRunPast,
        stop_rise: inches(4.0),
        post_drop: inches(0.5),
        barbed_pitch: inches(4.0),
        barbed_risers: false,
        roller_on_top: true,
        horizontal: HEAVY,
        end_post: HEAVY,
        vertical: LIGHT,
        diagonal: LIGHT,
        horizontal_cut: CutMethod::TrueSaddle,
        vertical_cut: CutMethod::TrueSaddle,
        diagonal_cut: CutMethod::TrueSaddle,
        carrier: Carrier::Bottom,
        roller_spacing: dec("0.85"),
        lead: None,
    }
}

fn splice_rules() -> SpliceRules {
    SpliceRules {
        policy: SplicePolicy::AsFewAsNeeded,
        most_extra: 1,
        root_gap: Length::from_64ths(6),
        leg: Length::from_64ths(12),
        clear_ods: dec("1.5"),
        clear_least_ods: dec("1.0"),
        clear_least: inches(2.0),
        parked_clear: inches(12.0),
        roller_bay_reach: dec("0.20"),
        tolerated_reach: dec("0.25"),
        allow_tolerated: false,
        roller_bay_from: dec("0.35"),
        charge_over: dec("0.35"),
        refuse_over: dec("0.60"),
        stagger: inches(24.0),
        same_bay: false,
        least_piece: inches(36.0),
        three_within: feet(10, 0.0),
        cost: Money(dec("40")),
        class_charge: Money(dec("1")),
        high_stress_charge: Money(dec("40")),
        brackets: Vec::new(),
        bracket_half_width: Length::ZERO,
    }
}

/// Every bay of a gate, by number: none is left to splice in.
pub fn every_bay(week: &Week, gate: usize) -> Vec<u32> {
    let (taken, _) = longpoint::part::take_off(week);
    let frame = taken.frames.iter().find(|f| f.gate == gate);
    let lines = frame.expect("a frame").bay_lines.len();
    (1..u32::try_from(lines).expect("few")).collect()
}
