//! `[fabric]`, `[sway]`, `[kit]`: what hangs on a gate, what braces it, what travels without it.

use rust_decimal::Decimal;

use super::section::{Range, Rounding};
use super::{Context, feet, inches, mm, pipe_setting};
use crate::measure::{Length, Units};
use crate::order::faults::Faults;
use crate::order::pipe_book::PipeBook;
use crate::order::rolling::{FABRIC_WEIGHTS, LOAD_FACTORS};
use crate::order::{FabricRules, KitRules, PipeId, SwayRules};

/// Reads `[fabric]`.
pub(super) fn read_fabric(context: &Context<'_>, faults: &mut Faults) -> FabricRules {
    let mut s = context.section("fabric", faults);
    let rules = FabricRules {
        weight_per_area: s.number("weight_per_area", FABRIC_WEIGHTS, faults),
        hardware: s.number("hardware", (Decimal::ZERO, Decimal::from(10_000)), faults),
        zinc_percent: s.number(
            "zinc_percent",
            (Decimal::ZERO, Decimal::ONE_HUNDRED),
            faults,
        ),
        load_factor: s
            .number("load_factor", LOAD_FACTORS, faults)
            .unwrap_or(Decimal::ONE),
        engineer_over: s
            .number("engineer_over", (Decimal::ZERO, Decimal::ONE), faults)
            .unwrap_or(Decimal::new(60, 2)),
    };
    s.done(faults);
    rules
}

/// Reads `[sway]`; also the pipe when one is named.
pub(super) fn read_sway(
    context: &Context<'_>,
    book: &mut PipeBook,
    faults: &mut Faults,
) -> (SwayRules, Option<PipeId>) {
    let mut s = context.section("sway", faults);
    let pipe = pipe_setting(&mut s, "pipe", book, faults).id;
    let rules = SwayRules {
        expected_over: s.size("expected_over", (feet(25), mm(7_600)), Range::Over, faults),
        review_over: s.size("review_over", (feet(30), mm(9_100)), Range::Over, faults),
        rise: s.size("rise", (inches(6), mm(150)), Range::Over, faults),
        end_allowance: s.size("end_allowance", (inches(2), mm(50)), Range::From, faults),
        pipe: pipe.unwrap_or(PipeId(0)),
    };
    s.done(faults);
    (rules, pipe)
}

/// Reads `[kit]`.
pub(super) fn read_kit(context: &Context<'_>, faults: &mut Faults) -> KitRules {
    let mut s = context.section("kit", faults);
    let local = match s.units() {
        Units::Inch => [feet(20), feet(21), feet(24), feet(40)],
        Units::Metric => [mm(6_000), mm(6_400), mm(7_000), mm(12_000)],
    };
    let rules = KitRules {
        local_joints: s
            .sizes("local_joints", faults)
            .unwrap_or_else(|| local.to_vec()),
        trim: s.size_up("trim", (Length::from_64ths(16), mm(6)), Range::From, faults),
        kerf: s.size_up("kerf", (Length::from_64ths(8), mm(3)), Range::From, faults),
        carrier_limit: s.maybe_size("carrier_limit", Range::Over, Rounding::Nearest, faults),
    };
    s.done(faults);
    rules
}
