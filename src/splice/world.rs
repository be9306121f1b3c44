//! A tiny world for tests: two pipes, 2.375 horizontals and posts with 1.900 webs, 21 ft joints,
//! DESIGN's defaults; gates by opening and height in inches. Horizontals meet posts of their own OD
//! at the axis, so a horizontal is leaf − 2.375 long and its long point lies at x 1.1875.

use jiff::civil::Date;
use rust_decimal::Decimal;

use crate::gate::Frame;
use crate::measure::{Dimension, INCH, Length, Money, Units};
use crate::order::*;
use crate::part::TakeOff;

/// Inches as a length, for values whole in ticks.
pub(crate) fn inch(x: f64) -> Length {
    Length::nearest_tick(x * INCH)
}

/// A decimal from hundredths of a unit… `dec(150, 2)` is 1.50.
pub(crate) fn dec(n: i64, scale: u32) -> Decimal {
    Decimal::new(n, scale)
}

pub(crate) const CHORD: PipeId = PipeId(1);
pub(crate) const WEB: PipeId = PipeId(0);

fn origin(line: u32) -> Origin {
    Origin {
        file: "orders.csv".to_owned(),
        line,
    }
}

fn pipe(name: &str, od: i64, wall: i64) -> Pipe {
    Pipe {
        name: name.to_owned(),
        od: Dimension::inch(dec(od, 3)),
        wall: Dimension::inch(dec(wall, 3)),
        standard: "ASTM F1083".to_owned(),
        grade: String::new(),
        finish: "galvanized".to_owned(),
        yield_strength: None,
    }
}

/// DESIGN's defaults.
pub(crate) fn shop() -> Shop {
    Shop {
        name: "Test shop (invented)".to_owned(),
        units: Units::Inch,
        gate: gate_standards(),
        fabric: FabricRules {
            weight_per_area: None,
            hardware: None,
            zinc_percent: None,
            load_factor: Decimal::ONE,
            engineer_over: dec(60, 2),
        },
        sway: SwayRules {
            expected_over: Length::FOOT * 25,
            review_over: Length::FOOT * 30,
            rise: inch(10.0),
            end_allowance: inch(2.0),
            pipe: WEB,
        },
        kit: KitRules {
            local_joints: [20, 21, 24, 40].map(|f| Length::FOOT * f).to_vec(),
            trim: inch(0.25),
            kerf: inch(0.125),
            carrier_limit: None,
        },
        saw: Saw {
            piece_tolerance: Length::ZERO,
            kerf_entered: inch(0.1),
            kerf: Length::from_64ths(7),
            near_trim: inch(0.25),
            far_trim: inch(0.25),
            hold_back: Length::ZERO,
            mark: Length::from_64ths(4),
            measure_first_under: inch(0.125),
            tape: None,
            saws: 1,
        },
        splice: splice_rules(),
        money: MoneyRules {
            currency: "$".to_owned(),
            keep_length: inch(36.0),
            credit_rate: dec(50, 2),
            spares: Vec::new(),
            held_credits: Vec::new(),
        },
        buying: BuyingRules::default(),
        minutes: MinuteRules {
            joint: dec(20, 1),
            cut: dec(12, 1),
            cope: dec(3, 0),
            splice: dec(25, 0),
            day_hours: dec(8, 0),
        },
        finisher: Finisher::PipeBoughtCoated,
    }
}

fn gate_standards() -> GateStandards {
    GateStandards {
        height: HeightMeaning::Outside,
        clearance: None,
        latch_overlap: inch(6.0),
        roller_overlap: inch(6.0),
        tail: TailRule::Fraction {
            fraction: dec(5, 1),
            least: Length::FOOT * 4,
        },
        tail_warning: dec(40, 2),
        bay_limit: inch(60.0),
        lean: Lean::HeadToTail,
        landing_offset: Length::ZERO,
        variant: Variant::PostsRunPast,
        stop_rise: inch(4.0),
        post_drop: inch(0.5),
        barbed_pitch: inch(4.0),
        barbed_risers: false,
        roller_on_top: true,
        horizontal: CHORD,
        end_post: CHORD,
        vertical: WEB,
        diagonal: WEB,
        horizontal_cut: CutMethod::TrueSaddle,
        vertical_cut: CutMethod::TrueSaddle,
        diagonal_cut: CutMethod::TrueSaddle,
        carrier: Carrier::Bottom,
        roller_spacing: dec(85, 2),
        lead: None,
    }
}

fn splice_rules() -> SpliceRules {
    SpliceRules {
        policy: SplicePolicy::AsFewAsNeeded,
        most_extra: 1,
        root_gap: Length::from_64ths(6),
        leg: inch(0.1875),
        clear_ods: dec(15, 1),
        clear_least_ods: dec(1, 0),
        clear_least: inch(2.0),
        parked_clear: inch(12.0),
        roller_bay_reach: dec(20, 2),
        tolerated_reach: dec(25, 2),
        allow_tolerated: false,
        roller_bay_from: dec(35, 2),
        charge_over: dec(35, 2),
        refuse_over: dec(60, 2),
        stagger: inch(24.0),
        same_bay: false,
        least_piece: inch(36.0),
        three_within: Length::FOOT * 10,
        cost: Money(dec(40, 0)),
        class_charge: Money(dec(1, 0)),
        high_stress_charge: Money(dec(40, 0)),
        brackets: Vec::new(),
        bracket_half_width: inch(2.0),
    }
}

/// A week of these gates: (mark, opening in, height in, count, due day of January 2027).
pub(crate) fn week(gates: &[(&str, f64, f64, u32, i8)]) -> Week {
    let quotes = [(CHORD, 21, 7_350), (WEB, 21, 5_040)];
    Week {
        shop: shop(),
        pipes: vec![
            pipe("1-7/8 SS40", 1_900, 145),
            pipe("2-3/8 SS40", 2_375, 154),
        ],
        gates: gates
            .iter()
            .zip(2u32..)
            .map(|(g, line)| order(*g, line))
            .collect(),
        extras: Vec::new(),
        quotes: quotes
            .into_iter()
            .zip(2u32..)
            .map(|((pipe, feet, cents), line)| quote(pipe, feet, Some(cents), line))
            .collect(),
        suppliers: Vec::new(),
        rack: Vec::new(),
        begun: Begun::default(),
        notices: Vec::new(),
    }
}

pub(crate) fn quote(pipe: PipeId, feet: i64, cents: Option<i64>, line: u32) -> Quote {
    Quote {
        pipe,
        supplier: String::new(),
        nominal: Length::FOOT * feet,
        planning: Length::FOOT * feet,
        price: cents.map(|c| Money(dec(c, 2))),
        quoted: None,
        available: None,
        terms: QuoteTerms::default(),
        origin: Origin {
            file: "stock.csv".to_owned(),
            line,
        },
    }
}

fn order((mark, opening, height, count, due): (&str, f64, f64, u32, i8), line: u32) -> GateOrder {
    let tail = (opening / 2.0).max(48.0);
    GateOrder {
        mark: mark.to_owned(),
        count,
        opening: inch(opening),
        height: inch(height),
        hand: Hand::Left,
        seen_from: None,
        latch_overlap: inch(6.0),
        roller_overlap: inch(6.0),
        tail: tail * INCH,
        leaf: (opening + 12.0 + tail) * INCH,
        tail_by_rule: true,
        bays: Bays::Least,
        pipes: GatePipes {
            horizontal: CHORD,
            latch_post: CHORD,
            tail_post: CHORD,
            vertical: WEB,
            diagonal: WEB,
            sway: WEB,
        },
        due: (due > 0).then(|| Date::constant(2027, 1, due)),
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
        origin: origin(line),
    }
}

/// Frames and parts of every gate, by the real rooms; every gate can be made.
pub(crate) fn take_off(week: &Week) -> TakeOff {
    let (take_off, impossible) = crate::part::take_off(week);
    assert_eq!(impossible, []);
    take_off
}

/// The frame of one gate.
pub(crate) fn frame(week: &Week, gate: usize) -> Frame {
    crate::gate::build(week, gate).expect("the tiny world's gates can be made")
}
