//! `[splice]`: DESIGN §8's figures.

use rust_decimal::Decimal;

use super::section::{Range, Section};
use super::{Context, feet, inches, mm};
use crate::measure::{FaultCode, Length, Money, parse_count, parse_money};
use crate::order::faults::{Faults, Spot};
use crate::order::{SplicePolicy, SpliceRules};

/// Reads `[splice]`; also whether the money per splice was given, and where it stands.
pub(super) fn read_splice(context: &Context<'_>, faults: &mut Faults) -> (SpliceRules, bool, Spot) {
    let mut s = context.section("splice", faults);
    let cost = s.read("cost", faults, parse_money);
    let given = s.has("cost");
    let cost_at = s.spot("cost");
    let policy = s.word(
        "policy",
        &[
            ("as few as needed", SplicePolicy::AsFewAsNeeded),
            ("wherever it pays", SplicePolicy::WhereverItPays),
            ("never", SplicePolicy::Never),
        ],
        faults,
    );
    let rules = SpliceRules {
        policy: policy.unwrap_or(SplicePolicy::AsFewAsNeeded),
        most_extra: read_extra(&mut s, faults),
        root_gap: s.size_up(
            "root_gap",
            (Length::from_64ths(6), Length::from_ticks(800)),
            Range::From,
            faults,
        ),
        leg: s.size_up("leg", (Length::from_64ths(12), mm(5)), Range::From, faults),
        clear_ods: ods(&mut s, "clear_ods", Decimal::new(15, 1), faults),
        clear_least_ods: ods(&mut s, "clear_least_ods", Decimal::ONE, faults),
        clear_least: s.size_up("clear_least", (inches(2), mm(50)), Range::From, faults),
        parked_clear: s.size_up("parked_clear", (inches(12), mm(300)), Range::From, faults),
        roller_bay_reach: reach(&mut s, "roller_bay_reach", Decimal::new(20, 2), faults),
        tolerated_reach: reach(&mut s, "tolerated_reach", Decimal::new(25, 2), faults),
        allow_tolerated: s.yes("allow_tolerated", false, faults),
        roller_bay_from: rel(&mut s, "roller_bay_from", Decimal::new(35, 2), faults),
        charge_over: rel(&mut s, "charge_over", Decimal::new(35, 2), faults),
        refuse_over: rel(&mut s, "refuse_over", Decimal::new(60, 2), faults),
        stagger: s.size_up("stagger", (inches(24), mm(600)), Range::From, faults),
        same_bay: s.yes("same_bay", false, faults),
        least_piece: s.size_up("least_piece", (inches(36), mm(900)), Range::From, faults),
        three_within: s.size_up("three_within", (feet(10), mm(3000)), Range::From, faults),
        cost: cost.unwrap_or(Money::ZERO),
        class_charge: read_charge(&mut s, "class_charge", Decimal::ONE, faults),
        high_stress_charge: read_charge(&mut s, "high_stress_charge", Decimal::from(40), faults),
        brackets: s.sizes("brackets", faults).unwrap_or_default(),
        bracket_half_width: s.size_up(
            "bracket_half_width",
            (inches(1), mm(25)),
            Range::From,
            faults,
        ),
    };
    if rules.refuse_over < rules.charge_over {
        faults.error(
            FaultCode::ValuesDisagree,
            &s.spot("refuse_over"),
            "splices are refused at less stress than they are charged at",
            "write at least charge_over",
        );
    }
    if rules.high_stress_charge < rules.class_charge {
        faults.error(
            FaultCode::ValuesDisagree,
            &s.spot("high_stress_charge"),
            "a splice at the highest stress costs less than one at middling stress",
            "write at least class_charge",
        );
    }
    if rules.tolerated_reach < rules.roller_bay_reach {
        faults.error(
            FaultCode::ValuesDisagree,
            &s.spot("tolerated_reach"),
            "the tolerated reach is under the plain one",
            "write at least roller_bay_reach",
        );
    }
    s.done(faults);
    (rules, given, cost_at)
}

fn read_charge(
    s: &mut Section<'_>,
    key: &'static str,
    default: Decimal,
    faults: &mut Faults,
) -> Money {
    let charge = s.read(key, faults, parse_money).unwrap_or(Money(default));
    if charge.cents() != charge {
        faults.error(
            FaultCode::ValueOutOfRange,
            &s.spot(key),
            "a charge for stress is in whole cents",
            "write it with two decimals",
        );
    }
    charge
}

fn read_extra(s: &mut Section<'_>, faults: &mut Faults) -> u32 {
    const MOST: u32 = SpliceRules::MOST_EXTRA;
    let extra = s.read("most_extra", faults, parse_count).unwrap_or(1);
    if extra > MOST {
        faults.error(
            FaultCode::ValueOutOfRange,
            &s.spot("most_extra"),
            "that many splices over the fewest are never needed",
            "write 0, 1 or 2",
        );
    }
    extra.min(MOST)
}

fn ods(s: &mut Section<'_>, key: &'static str, default: Decimal, faults: &mut Faults) -> Decimal {
    s.number(key, (Decimal::ZERO, Decimal::TEN), faults)
        .unwrap_or(default)
}

fn reach(s: &mut Section<'_>, key: &'static str, default: Decimal, faults: &mut Faults) -> Decimal {
    s.number(key, (Decimal::ZERO, Decimal::new(50, 2)), faults)
        .unwrap_or(default)
}

fn rel(s: &mut Section<'_>, key: &'static str, default: Decimal, faults: &mut Faults) -> Decimal {
    s.number(key, (Decimal::ZERO, Decimal::ONE), faults)
        .unwrap_or(default)
}
