//! What the order date says of prices and due dates: which ran out, which gate is late before it is
//! ordered, and that nothing can be judged without one.

use crate::measure::FaultCode;
use jiff::ToSpan;
use jiff::civil::Date;

use super::faults::{Faults, Spot};
use super::shop_file::ShopFile;
use super::usual;
use super::{GateOrder, PipeId, Quote};

/// Warns of every price past its last day and of every gate whose pipe is wanted before the order
/// date; notes once that dates stand idle without an order date.
pub(super) fn judge_dates(
    shop: &ShopFile,
    gates: &[GateOrder],
    quotes: &[Quote],
    faults: &mut Faults,
) {
    let Some(ordered) = shop.shop.buying.order_date else {
        if !faults.of_setting("buying.order_date") {
            say_idle(quotes, faults);
        }
        return;
    };
    let shop_days = shop.shop.buying.shop_days;
    for gate in gates.iter().filter(|gate| gate.count > 0) {
        judge_due(gate, ordered, shop_days, faults);
    }
    judge_days(quotes, faults);
    for quote in quotes {
        let until = quote.terms.valid_until;
        if let Some(last) = until.filter(|last| far(*last, ordered)) {
            say_far(
                &spot(quote, "valid_until", &last.to_string()),
                ordered,
                faults,
            );
        }
        let Some(last) = quote.terms.valid_until.filter(|last| ordered > *last) else {
            continue;
        };
        faults.warn(
            FaultCode::DatePassed,
            &spot(quote, "valid_until", &last.to_string()),
            &format!("the price ran out before the order date {ordered}: it is used, and marked"),
            "ask for a new price",
        );
    }
}

fn judge_due(gate: &GateOrder, ordered: Date, shop_days: u32, faults: &mut Faults) {
    let Some(due) = gate.due else { return };
    if far(due, ordered) {
        let spot = Spot::at(&gate.origin.file, gate.origin.line, "due", &due.to_string());
        say_far(&spot, ordered, faults);
    }
    let less = match shop_days {
        0 => String::new(),
        n => format!(", less {n} shop days,"),
    };
    if due.saturating_sub(i64::from(shop_days).days()) < ordered {
        faults.warn(
            FaultCode::DatePassed,
            &Spot::at(&gate.origin.file, gate.origin.line, "due", &due.to_string()),
            &format!("the due date{less} is before the order date {ordered}: the gate is late as it stands"),
            "correct the due date or the order date, or agree on a new day",
        );
    }
}

/// A day so many days from the order date is asked about: prices hold for weeks, gates are due in months (common
/// practice, no source).
const FAR_DAYS: i64 = 730;

/// Whether a day lies so far ahead that its year may be a slip.
fn far(day: Date, ordered: Date) -> bool {
    day > ordered.saturating_add(FAR_DAYS.days())
}

fn say_far(spot: &Spot, ordered: Date, faults: &mut Faults) {
    let what = format!("this is over two years after the order date {ordered}");
    faults.ask(spot, &what, usual::MEND);
}

/// More days to delivery of one pipe than anybody quotes, and than the nest room tells apart.
const MOST_DAYS: usize = 31;

fn judge_days(quotes: &[Quote], faults: &mut Faults) {
    let mut seen: Vec<(PipeId, u32)> = Vec::new();
    for quote in quotes {
        let Some(days) = quote.terms.lead_days else {
            continue;
        };
        if !seen.contains(&(quote.pipe, days)) {
            seen.push((quote.pipe, days));
        }
        if seen.iter().filter(|(p, _)| *p == quote.pipe).count() > MOST_DAYS {
            faults.error(
                FaultCode::ValueOutOfRange,
                &spot(quote, "lead_days", &days.to_string()),
                "over 31 different days to delivery are quoted for this pipe",
                "round them to days that matter",
            );
            return;
        }
    }
}

fn say_idle(quotes: &[Quote], faults: &mut Faults) {
    let column = |q: &Quote| {
        let terms = &q.terms;
        match (terms.lead_days, terms.valid_until) {
            (Some(days), _) if days > 0 => Some(("lead_days", days.to_string())),
            (_, Some(last)) => Some(("valid_until", last.to_string())),
            _ => None,
        }
    };
    let first = quotes.iter().find_map(|q| column(q).map(|c| (q, c)));
    if let Some((quote, (column, value))) = first {
        faults.note(
            FaultCode::ValueMissing,
            &spot(quote, column, &value),
            "there is no order date: days to delivery and last days of prices are not judged",
            "give --date 2026-03-02, or order_date under [buying] in shop.toml",
        );
    }
}

fn spot(quote: &Quote, column: &str, value: &str) -> Spot {
    Spot::at(&quote.origin.file, quote.origin.line, column, value)
}
