//! What the order date says of prices: which ran out, and that nothing can be judged without one.

use super::faults::{Faults, Spot};
use super::shop_file::ShopFile;
use super::{PipeId, Quote};

/// Warns of every price past its last day; notes once that dates stand idle without an order date.
pub(super) fn judge_dates(shop: &ShopFile, quotes: &[Quote], faults: &mut Faults) {
    let Some(ordered) = shop.shop.buying.order_date else {
        say_idle(quotes, faults);
        return;
    };
    judge_days(quotes, faults);
    for quote in quotes {
        let Some(last) = quote.terms.valid_until.filter(|last| ordered > *last) else {
            continue;
        };
        faults.warn(
            &spot(quote, "valid_until", &last.to_string()),
            &format!("the price ran out before the order date {ordered}: it is used, and marked"),
            "ask for a new price",
        );
    }
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
            &spot(quote, column, &value),
            "there is no order date: days to delivery and last days of prices are not judged",
            "give --date 2026-03-02, or order_date under [buying] in shop.toml",
        );
    }
}

fn spot(quote: &Quote, column: &str, value: &str) -> Spot {
    Spot::at(&quote.origin.file, quote.origin.line, column, value)
}
