//! `[gate]`: the shop's gate standards.

use rust_decimal::Decimal;

use super::section::{Range, Rounding, Section};
use super::{Context, Standard, StandardPipes, feet, inches, mm, pipe_setting};
use crate::measure::{FaultCode, Length};
use crate::order::faults::{Faults, Spot};
use crate::order::pipe_book::PipeBook;
use crate::order::shop::CARRIERS;
use crate::order::{
    Carrier, CutMethod, GateStandards, HeightMeaning, Lean, PipeId, TailRule, Variant,
};
use crate::text::Value;

const LEANS: [(&str, Lean); 2] = [
    ("head to tail", Lean::HeadToTail),
    ("head to latch", Lean::HeadToLatch),
];
const VARIANTS: [(&str, Variant); 3] = [
    ("end posts run past", Variant::PostsRunPast),
    ("posts run past", Variant::PostsRunPast),
    ("through", Variant::Through),
];

/// Reads `[gate]`.
pub(super) fn read_gate(
    context: &Context<'_>,
    book: &mut PipeBook,
    faults: &mut Faults,
) -> (GateStandards, StandardPipes) {
    let mut s = context.section("gate", faults);
    let clearance = s.maybe_size("clearance", Range::From, Rounding::Nearest, faults);
    let height = read_height(&mut s, clearance, faults);
    let standards = read_standards(&mut s, book, faults);
    let or_first = |s: Standard| s.id.unwrap_or(PipeId(0));
    let (barbed_risers, roller_on_top) = read_risers(&mut s, faults);
    let gate = GateStandards {
        height,
        clearance,
        latch_overlap: s.size("latch_overlap", (inches(6), mm(150)), Range::From, faults),
        roller_overlap: s.size("roller_overlap", (inches(6), mm(150)), Range::From, faults),
        tail: read_tail(&mut s, faults),
        tail_warning: s
            .number("tail_warning", (Decimal::ZERO, Decimal::TEN), faults)
            .unwrap_or(Decimal::new(40, 2)),
        bay_limit: s.size("bay_limit", (inches(60), mm(1524)), Range::Over, faults),
        lean: s.word("lean", &LEANS, faults).unwrap_or(Lean::HeadToTail),
        landing_offset: s.size("landing_offset", (mm(0), mm(0)), Range::From, faults),
        variant: s
            .word("variant", &VARIANTS, faults)
            .unwrap_or(Variant::PostsRunPast),
        stop_rise: s.size("stop_rise", (inches(4), mm(100)), Range::From, faults),
        post_drop: s.size(
            "post_drop",
            (Length::from_64ths(32), mm(12)),
            Range::From,
            faults,
        ),
        barbed_pitch: s.size("barbed_pitch", (inches(4), mm(100)), Range::Over, faults),
        barbed_risers,
        roller_on_top,
        horizontal: or_first(standards.horizontal),
        end_post: or_first(standards.end_post),
        vertical: or_first(standards.vertical),
        diagonal: or_first(standards.diagonal),
        horizontal_cut: read_cut(&mut s, "horizontal_cut", faults),
        vertical_cut: read_cut(&mut s, "vertical_cut", faults),
        diagonal_cut: read_cut(&mut s, "diagonal_cut", faults),
        carrier: s
            .word("carrier", &CARRIERS, faults)
            .unwrap_or(Carrier::Bottom),
        roller_spacing: s
            .number(
                "roller_spacing",
                (Decimal::new(10, 2), Decimal::ONE),
                faults,
            )
            .unwrap_or(Decimal::new(85, 2)),
        lead: s.maybe_size("lead", Range::From, Rounding::Nearest, faults),
    };
    s.done(faults);
    (gate, standards)
}

fn read_standards(s: &mut Section<'_>, book: &mut PipeBook, faults: &mut Faults) -> StandardPipes {
    StandardPipes {
        horizontal: pipe_setting(s, "horizontal", book, faults),
        end_post: pipe_setting(s, "end_post", book, faults),
        vertical: pipe_setting(s, "vertical", book, faults),
        diagonal: pipe_setting(s, "diagonal", book, faults),
        sway: None,
    }
}

fn read_cut(s: &mut Section<'_>, key: &'static str, faults: &mut Faults) -> CutMethod {
    let words = [
        ("true saddle", CutMethod::TrueSaddle),
        ("radial", CutMethod::Radial),
    ];
    s.word(key, &words, faults).unwrap_or(CutMethod::TrueSaddle)
}

fn read_risers(s: &mut Section<'_>, faults: &mut Faults) -> (bool, bool) {
    let risers = s.yes("barbed_risers", false, faults);
    let on_top = s.yes("roller_on_top", true, faults);
    if risers && on_top {
        faults.error(
            FaultCode::ValuesDisagree,
            &s.spot("barbed_risers"),
            "risers on verticals stand in the way of a roller on top of the top horizontal",
            "write roller_on_top = false if no roller runs there, or barbed_risers = false",
        );
    }
    (risers, on_top)
}

/// The height words; `Fabric` and `Grade` still want their figure.
#[derive(Clone, Copy, PartialEq)]
enum HeightWord {
    Outside,
    Axes,
    Fabric,
    Grade,
}

fn read_height(
    s: &mut Section<'_>,
    clearance: Option<Length>,
    faults: &mut Faults,
) -> HeightMeaning {
    let words = [
        ("outside", HeightWord::Outside),
        ("axes", HeightWord::Axes),
        ("fabric", HeightWord::Fabric),
        ("grade", HeightWord::Grade),
    ];
    let word = s.word("height_means", &words, faults);
    let difference = s.maybe_size("fabric_difference", Range::Any, Rounding::Nearest, faults);
    match (word.unwrap_or(HeightWord::Outside), difference) {
        (HeightWord::Outside, _) => HeightMeaning::Outside,
        (HeightWord::Axes, _) => HeightMeaning::Axes,
        (HeightWord::Fabric, Some(difference)) => HeightMeaning::Fabric { difference },
        (HeightWord::Fabric, None) => {
            faults.error(
                FaultCode::ValueMissing,
                &s.spot("height_means"),
                "height means the fabric's, and the frame's difference is not given",
                "add fabric_difference = how much taller the frame is (0 if none)",
            );
            HeightMeaning::Outside
        }
        (HeightWord::Grade, _) => {
            if clearance.is_none() {
                faults.error(
                    FaultCode::ValueMissing,
                    &s.spot("height_means"),
                    "height is above grade, and the ground clearance is not given",
                    "add clearance = the gap under the gate",
                );
            }
            HeightMeaning::Grade
        }
    }
}

fn read_tail(s: &mut Section<'_>, faults: &mut Faults) -> TailRule {
    let fraction = s.number("tail_fraction", (Decimal::new(1, 2), Decimal::TEN), faults);
    let least = s.size("tail_least", (feet(4), mm(1200)), Range::From, faults);
    let Some(entry) = s.entry("tail_steps") else {
        return TailRule::Fraction {
            fraction: fraction.unwrap_or(Decimal::new(50, 2)),
            least,
        };
    };
    if fraction.is_some() {
        faults.error(
            FaultCode::GivenTwice,
            &s.spot("tail_steps"),
            "there are two rules for the tail: tail_fraction and tail_steps",
            "keep one of them",
        );
    }
    TailRule::Steps(read_steps(s, &entry.value, faults))
}

fn read_steps(s: &Section<'_>, value: &Value, faults: &mut Faults) -> Vec<(Length, Length)> {
    let mend = "write tail_steps = [[\"10 ft\", \"6 ft 6 in\"], [\"14 ft\", \"7 ft 6 in\"]]: opening up to and including, tail";
    let Value::List(items) = value else {
        faults.error(
            FaultCode::ValueUnreadable,
            &s.spot("tail_steps"),
            "a list of pairs is wanted here",
            mend,
        );
        return Vec::new();
    };
    let mut steps: Vec<(Length, Length)> = Vec::new();
    for item in items {
        let spot = Spot {
            line: Some(item.line),
            value: Some(item.value.shown()),
            ..s.spot("tail_steps")
        };
        let pair = match &item.value {
            Value::List(pair) if pair.len() == 2 => pair,
            _ => {
                faults.error(
                    FaultCode::ValueUnreadable,
                    &spot,
                    "a step is a pair: opening, tail",
                    mend,
                );
                continue;
            }
        };
        let opening = s.item_size(&pair[0].value, &spot, faults);
        let tail = s.item_size(&pair[1].value, &spot, faults);
        let (Some(opening), Some(tail)) = (opening, tail) else {
            continue;
        };
        if steps.last().is_some_and(|last| last.0 >= opening) {
            faults.error(
                FaultCode::ValuesDisagree,
                &spot,
                "the openings of the steps must rise",
                "put the rows in order",
            );
        }
        steps.push((opening, tail));
    }
    if items.is_empty() {
        faults.error(
            FaultCode::ValueMissing,
            &s.spot("tail_steps"),
            "the table of steps is empty",
            mend,
        );
    }
    steps
}
