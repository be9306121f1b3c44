//! `[money]` and `[minutes]`.

use rust_decimal::Decimal;

use super::Context;
use super::section::{Range, Section};
use super::{inches, mm};
use crate::measure::{FaultCode, parse_count};
use crate::order::faults::{Faults, Spot};
use crate::order::pipe_book::PipeBook;
use crate::order::{MinuteRules, MoneyRules, PipeId};
use crate::text::Value;

/// Reads `[money]`.
pub(super) fn read_money(
    context: &Context<'_>,
    book: &mut PipeBook,
    faults: &mut Faults,
) -> MoneyRules {
    let mut s = context.section("money", faults);
    let rules = MoneyRules {
        currency: s.text("currency", faults).unwrap_or_else(|| "$".to_owned()),
        keep_length: s.size("keep_length", (inches(36), mm(900)), Range::Over, faults),
        credit_rate: s
            .number("credit_rate", (Decimal::ZERO, Decimal::ONE), faults)
            .unwrap_or(Decimal::new(50, 2)),
        spares: read_spares(context.file, &mut s, book, faults),
        held_credits: Vec::new(),
    };
    s.done(faults);
    rules
}

fn read_spares(
    file: &str,
    s: &mut Section<'_>,
    book: &mut PipeBook,
    faults: &mut Faults,
) -> Vec<(PipeId, u32)> {
    let Some(entry) = s.entry("spares") else {
        return Vec::new();
    };
    let Value::Table(rows) = &entry.value else {
        faults.error(
            FaultCode::ValueUnreadable,
            &s.spot("spares"),
            "spare joints are given per pipe",
            "write spares = { \"name of the pipe\" = 1 }",
        );
        return Vec::new();
    };
    let mut out = Vec::new();
    for row in rows {
        let path = format!("money.spares.{}", row.key);
        let spot = Spot::at(file, row.line, &path, &row.value.shown());
        let id = book.find(&row.key, &spot);
        let count = faults.take(&spot, parse_count(&row.value.shown()));
        if let (Some(id), Some(count)) = (id, count) {
            out.push((id, count));
        }
    }
    out
}

/// Reads `[minutes]`.
pub(super) fn read_minutes(context: &Context<'_>, faults: &mut Faults) -> MinuteRules {
    let mut s = context.section("minutes", faults);
    let (least, most) = (Decimal::new(5, 1), Decimal::from(24));
    let day_hours = s.number("day_hours", (least, most), faults);
    let mut read = |key, default| {
        s.number(key, (Decimal::ZERO, Decimal::from(1000)), faults)
            .unwrap_or(default)
    };
    let rules = MinuteRules {
        joint: read("joint", Decimal::new(20, 1)),
        cut: read("cut", Decimal::new(12, 1)),
        cope: read("cope", Decimal::from(3)),
        splice: read("splice", Decimal::from(25)),
        day_hours: day_hours.unwrap_or(Decimal::from(8)),
    };
    s.done(faults);
    rules
}
