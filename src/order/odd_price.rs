//! Prices that can hardly be meant: far from what other rows ask for the same pipe, or by weight far from what
//! all pipes cost. Pipe is sold by what is in it: a pound of one costs about what a pound of another does.
//!
//! The price farthest off is taken out first and the rest judged again, so that one slip does not make the
//! sound rows beside it look odd.

use std::collections::BTreeMap;

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::breaks::QuoteRow;
use super::currency::is_like_dollars;
use super::faults::Faults;
use super::pipe_book::PipeBook;
use super::price_basis::PriceBasis;
use super::shop_file::ShopFile;
use super::{Pipe, PipeId, Quote};
use crate::measure::{FaultCode, Length, Units};

/// Times over (or under) the other rows of the same pipe that are asked about: suppliers and lengths differ by a
/// third at most (common practice, no source).
const ODD_OF_PIPE: f64 = 2.0;
/// Times over the other rows of the same pipe that cannot be meant: no two suppliers are so far apart (common
/// practice, no source).
const WRONG_OF_PIPE: f64 = 5.0;
/// Times over a pound of the week's other pipes that are asked about: grade, coating and small sizes make up to
/// three (common practice, no source).
const ODD_BY_WEIGHT: f64 = 4.0;
/// Times over a pound of the week's other pipes that cannot be meant (common practice, no source).
const WRONG_BY_WEIGHT: f64 = 20.0;
/// A pound of pipe in dollars, euros or pounds: black pipe by the truck to stainless tube by the foot (common
/// practice, no source).
const POUND: (f64, f64) = (0.25, 8.0);
/// A reading that comes this near to what others ask may be the one meant.
const NEAR: f64 = 1.6;
/// Odd prices told one by one; where more are odd, the list as a whole is.
const TOLD: usize = 50;

/// A priced row.
#[derive(Clone, Copy)]
struct Priced<'a> {
    row: &'a QuoteRow,
    /// Money a pound.
    pound: f64,
}

/// What a price is held against.
struct Others<'a> {
    /// Money a pound.
    pound: f64,
    /// The row of the same pipe that asks it; `None`: other pipes.
    row: Option<&'a Quote>,
}

impl Others<'_> {
    fn limits(&self) -> (f64, f64) {
        match self.row {
            Some(_) => (ODD_OF_PIPE, WRONG_OF_PIPE),
            None => (ODD_BY_WEIGHT, WRONG_BY_WEIGHT),
        }
    }
}

/// Asks about every price far from the others, and about prices that are all of them far from usual.
pub(super) fn judge_prices(
    rows: &[QuoteRow],
    shop: &ShopFile,
    book: &PipeBook,
    faults: &mut Faults,
) {
    let mut left: Vec<Priced<'_>> = rows.iter().filter_map(|row| priced(row, book)).collect();
    for _ in 0..TOLD {
        let Some((at, others)) = oddest(&left, shop) else {
            break;
        };
        let odd = left.remove(at);
        say(odd, &others, shop, book, faults);
    }
    judge_level(&left, shop, book, faults);
}

fn priced<'a>(row: &'a QuoteRow, book: &PipeBook) -> Option<Priced<'a>> {
    let quote = &row.quote;
    let price = quote.price?.0.to_f64()?;
    let pounds = pounds(book.get(quote.pipe)?, quote.nominal);
    let pound = price / pounds;
    (pound.is_finite() && pound > 0.0).then_some(Priced { row, pound })
}

/// Weight of a joint in lb.
fn pounds(pipe: &Pipe, nominal: Length) -> f64 {
    pipe.weight(Units::Inch, nominal.geometric())
}

/// Times over or under, whichever is over one.
fn times(a: f64, b: f64) -> f64 {
    (a / b).max(b / a)
}

/// The priced rows of one pipe, ascending by the pound, and the middle pound of all other pipes.
struct OfPipe<'a> {
    rows: Vec<(usize, Priced<'a>)>,
    elsewhere: Option<f64>,
}

fn by_pipe<'a>(rows: &[Priced<'a>]) -> BTreeMap<PipeId, OfPipe<'a>> {
    let mut all: Vec<(usize, Priced<'a>)> = rows.iter().copied().enumerate().collect();
    all.sort_by(|a, b| a.1.pound.total_cmp(&b.1.pound));
    let mut pipes: BTreeMap<PipeId, OfPipe<'a>> = BTreeMap::new();
    for row in &all {
        let of = pipes.entry(row.1.row.quote.pipe).or_insert_with(|| OfPipe {
            rows: Vec::new(),
            elsewhere: None,
        });
        of.rows.push(*row);
    }
    for (pipe, of) in &mut pipes {
        let others = all.iter().filter(|r| r.1.row.quote.pipe != *pipe);
        let others: Vec<f64> = others.map(|r| r.1.pound).collect();
        of.elsewhere = others.get(others.len() / 2).copied();
    }
    pipes
}

/// The row farthest from what it is held against, past the limit; of two alike the later.
fn oddest<'a>(rows: &[Priced<'a>], shop: &ShopFile) -> Option<(usize, Others<'a>)> {
    let mut best: Option<(usize, (bool, f64), Others<'a>)> = None;
    let oddness = oddness(rows, shop);
    for of in by_pipe(rows).values() {
        for (place, (at, own)) in of.rows.iter().enumerate() {
            let middle = (of.rows.len() - 1) / 2;
            let middle = middle + usize::from(middle >= place);
            let others = match (of.rows.get(middle), of.elsewhere) {
                (Some((_, middle)), _) => Others {
                    pound: middle.pound,
                    row: Some(&middle.row.quote),
                },
                (None, Some(pound)) => Others { pound, row: None },
                (None, None) => continue,
            };
            if times(own.pound, others.pound) < others.limits().0 {
                continue;
            }
            let score = oddness(own.pound);
            let more = |(last, most, _): &(usize, _, _)| (*most, *last) < (score, *at);
            if best.as_ref().is_none_or(more) {
                best = Some((*at, score, others));
            }
        }
    }
    best.map(|(at, _, others)| (at, others))
}

/// How far a price is off, to tell which of two is the odd one: outside what pipe usually costs before inside,
/// then by the middle of the week.
fn oddness(rows: &[Priced<'_>], shop: &ShopFile) -> impl Fn(f64) -> (bool, f64) {
    let known = is_like_dollars(&shop.shop.money.currency);
    let mut all: Vec<f64> = rows.iter().map(|r| r.pound).collect();
    all.sort_by(f64::total_cmp);
    // Of two neither is the middle.
    let middle = all.get(all.len() / 2).copied().filter(|_| all.len() > 2);
    let middle = middle.or(known.then(middle_pound));
    move |pound| {
        let usual = (POUND.0..=POUND.1).contains(&pound);
        (known && !usual, times(pound, middle.unwrap_or(pound)))
    }
}

/// The middle of what a pound of pipe usually costs, by ratio.
fn middle_pound() -> f64 {
    (POUND.0 * POUND.1).sqrt()
}

fn say(
    odd: Priced<'_>,
    others: &Others<'_>,
    shop: &ShopFile,
    book: &PipeBook,
    faults: &mut Faults,
) {
    let units = shop.shop.units;
    let quote = &odd.row.quote;
    let Some(pipe) = book.get(quote.pipe) else {
        return;
    };
    let off = times(odd.pound, others.pound);
    let off = match odd.pound > others.pound {
        true => format!("{} times", figure(off)),
        false => format!("1/{} of", figure(off)),
    };
    let what = match others.row {
        Some(other) => format!(
            "a {} comes to {}, {off} the {} of {} for the same pipe",
            long_unit(units),
            each(quote, units),
            each(other, units),
            other.origin.line_words()
        ),
        None => format!(
            "a {} of it comes to {}, {off} the {} of the other pipes",
            weight_unit(units),
            by_weight(odd.pound, units),
            by_weight(others.pound, units)
        ),
    };
    let readings = readings(odd.row, pipe, others.pound);
    let (_, wrong) = others.limits();
    if times(odd.pound, others.pound) >= wrong {
        let mend = match readings.is_empty() {
            true => "check price, per and length".to_owned(),
            false => readings.join("; or "),
        };
        faults.error(FaultCode::ValueOutOfRange, &odd.row.price, &what, &mend);
        return;
    }
    let mend = match readings.is_empty() {
        true => "check price, per and length; leave it if it is meant".to_owned(),
        false => format!("{}; leave it if it is meant", readings.join("; or ")),
    };
    faults.ask(&odd.row.price, &what, &mend);
}

/// Other ways to read the row that come near to what others ask: another basis, or a slipped point.
fn readings(row: &QuoteRow, pipe: &Pipe, pound: f64) -> Vec<String> {
    let Some(quoted) = row.quote.quoted else {
        return Vec::new();
    };
    let (amount, basis) = (quoted.amount.0, quoted.per);
    let joint = pound * pounds(pipe, row.quote.nominal);
    let fits = |amount: Decimal, basis: PriceBasis| {
        let made = basis.of_joint(amount, row.quote.nominal, pipe);
        let price = made.and_then(|m| m.price.to_f64());
        price.is_some_and(|price| times(price, joint) <= NEAR)
    };
    let bases = PriceBasis::ALL.iter().filter(|b| **b != basis);
    let bases = bases.filter(|b| fits(amount, **b));
    let bases = bases.map(|b| {
        format!(
            "if that is the price of {}, write {} under per",
            b.of_one(),
            b.word()
        )
    });
    let shifts = [(1, 2), (1, 1), (10, 0), (100, 0)];
    let shifted = shifts.map(|(over, scale)| amount * Decimal::new(over, scale));
    let slips = shifted.iter().filter(|a| fits(**a, basis));
    let slips = slips.map(|a| format!("if the point slipped, write {}", a.normalize()));
    bases.chain(slips).take(2).collect()
}

/// Where all that is left costs far from what pipe does, once.
fn judge_level(rows: &[Priced<'_>], shop: &ShopFile, book: &PipeBook, faults: &mut Faults) {
    let mut rows = rows.to_vec();
    rows.sort_by(|a, b| a.pound.total_cmp(&b.pound));
    let Some(middle) = rows.get(rows.len() / 2) else {
        return;
    };
    let usual = (POUND.0..=POUND.1).contains(&middle.pound);
    if usual || !is_like_dollars(&shop.shop.money.currency) {
        return;
    }
    let units = shop.shop.units;
    let quote = &middle.row.quote;
    let readings = book
        .get(quote.pipe)
        .map(|pipe| readings(middle.row, pipe, middle_pound()));
    let mend = match readings.filter(|r| !r.is_empty()) {
        Some(readings) => format!("{}; leave it if it is meant", readings.join("; or ")),
        None => "check price, per and length; leave it if it is meant".to_owned(),
    };
    let unit = weight_unit(units);
    faults.ask(
        &middle.row.price,
        &format!(
            "a {unit} of pipe comes to {}: usual is {} to {}",
            by_weight(middle.pound, units),
            by_weight(POUND.0, units),
            by_weight(POUND.1, units)
        ),
        &mend,
    );
}

/// Pounds in a kilogram.
const POUNDS_PER_KG: f64 = 2.204_622_6;

fn by_weight(pound: f64, units: Units) -> String {
    match units {
        Units::Inch => format!("{pound:.2}"),
        Units::Metric => format!("{:.2}", pound * POUNDS_PER_KG),
    }
}

fn weight_unit(units: Units) -> &'static str {
    match units {
        Units::Inch => "pound",
        Units::Metric => "kilogram",
    }
}

fn long_unit(units: Units) -> &'static str {
    match units {
        Units::Inch => "foot",
        Units::Metric => "metre",
    }
}

/// The price of a foot or a metre.
fn each(quote: &Quote, units: Units) -> String {
    let long = match units {
        Units::Inch => quote.nominal.inches() / 12.0,
        Units::Metric => quote.nominal.millimetres() / 1000.0,
    };
    let price = quote.price.and_then(|p| p.0.to_f64()).unwrap_or(0.0);
    format!("{:.2}", price / long)
}

/// `2.5` under ten, else whole.
fn figure(times: f64) -> String {
    if times < 9.95 {
        format!("{times:.1}")
    } else {
        format!("{times:.0}")
    }
}
