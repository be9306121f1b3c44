//! stock.csv → joints on sale, each with its landed price.

use super::breaks::{QuoteRow, settle_breaks};
use super::currency::{judge_currency, read_amount};
use super::faults::{Faults, Spot};
use super::judge_size::{Bounds, judge_size};
use super::mark::parse_name;
use super::names::Names;
use super::odd_price::judge_prices;
use super::odd_terms::judge_fee;
use super::pipe_book::PipeBook;
use super::price_basis::{QuotedPrice, parse_basis};
use super::row_pipe::row_pipe;
use super::sheet::{Cells, Column, Sheet, alias, column};
use super::shop_file::{ShopFile, parse_days};
use super::usual;
use super::{Lift, Pipe, Quote, QuoteTerms};
use crate::measure::{FaultCode, Length, Money, Unit, parse_date_in};
use crate::text::SourceFile;

const COLUMNS: [Column; 17] = [
    column("pipe"),
    column("finish"),
    alias("supplier", &["vendor"]),
    alias("length", &["nominal", "joint", "joint_length"]).number(),
    alias("planning", &["planning_length"]).number(),
    column("price").number(),
    alias("per", &["basis", "price_per"]),
    column("currency"),
    alias("from", &["from_joints", "break"]),
    column("available"),
    alias("lift", &["joints_per_lift"]),
    column("lift_fee").number(),
    alias("part_lift_fee", &["part_fee"]).number(),
    alias("lead_days", &["lead", "days"]),
    alias("valid_until", &["valid", "expires"]),
    alias("taxable", &["taxed"]),
    alias("note", &["notes"]),
];

/// Reads stock.csv.
pub(super) fn read_stock(
    file: &SourceFile,
    shop: &ShopFile,
    book: &mut PipeBook,
    names: &mut Names,
    faults: &mut Faults,
) -> Vec<Quote> {
    let mut sheet = Sheet::open(file, &COLUMNS, faults);
    if !sheet.require(&["pipe", "length"], faults) {
        return Vec::new();
    }
    let rows = sheet.rows().filter_map(|cells| {
        let quote = read_quote(&cells, shop, book, names, faults)?;
        Some(QuoteRow {
            quote,
            planning_given: !cells.text("planning").is_empty(),
            from: cells.spot("from"),
            length: cells.spot("length"),
            price: cells.spot("price"),
        })
    });
    let rows = judge_trims(rows.collect(), shop, faults);
    judge_prices(&rows, shop, book, faults);
    say_unpriced(&rows, shop, book, faults);
    settle_breaks(rows, faults)
}

fn read_quote(
    cells: &Cells<'_>,
    shop: &ShopFile,
    book: &mut PipeBook,
    names: &mut Names,
    faults: &mut Faults,
) -> Option<Quote> {
    let pipe = row_pipe(cells, book, faults);
    let supplier = cells.read("supplier", faults, parse_name);
    let supplier = supplier.map(|name| names.settle(name, &cells.spot("supplier"), faults));
    let supplier = supplier.unwrap_or_default();
    let nominal = read_joint(cells, "length", shop, faults);
    let planning = read_joint(cells, "planning", shop, faults).map(|p| p.1);
    let known = pipe.and_then(|id| book.get(id));
    let price = read_price(cells, nominal.map(|n| n.0), known, shop, faults);
    let available = cells.count("available", faults);
    let terms = read_terms(cells, shop, faults);
    judge_currency(cells, shop, faults);
    cells.read("note", faults, super::mark::parse_note);
    if cells.text("length").is_empty() {
        faults.error(
            FaultCode::ValueMissing,
            &cells.spot("length"),
            "the joint has no length",
            "write the length the supplier bills, such as 21 ft or 6 m",
        );
    }
    let (nominal, down) = nominal?;
    let planning = if cells.text("planning").is_empty() {
        down
    } else {
        planning?
    };
    if planning > nominal {
        faults.error(
            FaultCode::ValuesDisagree,
            &cells.spot("planning"),
            "the planning length is over the length the supplier bills",
            "write the shortest length you count on, or leave it empty",
        );
        return None;
    }
    let (joint, quoted) = price?.unzip();
    if let Some(lift) = &terms.lift {
        judge_fee(lift.fee, &cells.spot("lift_fee"), joint, faults);
        judge_fee(lift.part_fee, &cells.spot("part_lift_fee"), joint, faults);
    }
    doubt_planning(cells, nominal, planning, shop, faults);
    Some(Quote {
        pipe: pipe?,
        supplier,
        nominal,
        planning,
        price: joint,
        quoted,
        available,
        terms,
        origin: cells.spot("pipe").origin(),
    })
}

/// A joint length: to the nearest tick, and down to a tick.
fn read_joint(
    cells: &Cells<'_>,
    name: &str,
    shop: &ShopFile,
    faults: &mut Faults,
) -> Option<(Length, Length)> {
    let parsed = cells.length(name, shop.units.map(Unit::of), faults)?;
    let units = shop.shop.units;
    let length = judge_size(cells, name, &parsed, Bounds::JOINT, units, faults)?;
    Some((length, parsed.down()))
}

/// Joints without a price: where others have one, the money of their pipe and of the week is hidden by them.
fn say_unpriced(rows: &[QuoteRow], shop: &ShopFile, book: &PipeBook, faults: &mut Faults) {
    let some = rows.iter().any(|row| row.quote.price.is_some());
    for row in rows.iter().filter(|row| row.quote.price.is_none()) {
        let pipe = book.get(row.quote.pipe).map_or("", |pipe| &pipe.name);
        let joint = format!(
            "{} of {pipe}",
            row.quote.nominal.print_with_unit(shop.shop.units)
        );
        if some {
            faults.warn(
                FaultCode::ValueMissing, &row.price,
                &format!(
                    "the joint of {joint} has no price: if its pipe is needed no money is said of it, and none of the \
                     week's total"
                ),
                "fill in price and per, or take the row away if it is not to be had",
            );
        } else {
            faults.note(
                FaultCode::ValueMissing,
                &row.price,
                "there is no price: this pipe is planned by joints, and no money is said of it",
                "fill in price and per",
            );
        }
    }
}

/// A planning length allows for joints that come short by inches, not by a part of the joint (common practice, no
/// source): nine tenths of the nominal length.
const LEAST_PLANNED: (i64, i64) = (9, 10);

fn doubt_planning(
    cells: &Cells<'_>,
    nominal: Length,
    planning: Length,
    shop: &ShopFile,
    faults: &mut Faults,
) {
    let (over, under) = LEAST_PLANNED;
    if planning * under < nominal * over {
        let units = shop.shop.units;
        faults.ask(
            &cells.spot("planning"),
            &format!(
                "{} are planned of a joint of {}: the rest is paid for and never cut",
                planning.print_with_unit(units),
                nominal.print_with_unit(units)
            ),
            usual::MEND,
        );
    }
}

/// Trims and hold-back must leave something of a joint; where they leave nothing of any, the settings
/// are at fault, once.
fn judge_trims(rows: Vec<QuoteRow>, shop: &ShopFile, faults: &mut Faults) -> Vec<QuoteRow> {
    let saw = &shop.shop.saw;
    let off = saw.near_trim + saw.far_trim + saw.hold_back;
    let (eaten, left): (Vec<_>, Vec<_>) = rows.into_iter().partition(|r| r.quote.planning <= off);
    if eaten.len() > 1 && left.is_empty() {
        let taken = [
            (saw.near_trim, "saw.near_trim"),
            (saw.far_trim, "saw.far_trim"),
            (saw.hold_back, "saw.hold_back"),
        ];
        let most = taken.into_iter().max_by_key(|(length, _)| *length);
        let (most, key) = most.unwrap_or(taken[0]);
        let spot = Spot {
            column: Some(key.to_owned()),
            value: Some(most.print(shop.shop.units)),
            ..Spot::file("shop.toml")
        };
        faults.error(
            FaultCode::ValueOutOfRange,
            &spot,
            &format!(
                "the trims and the hold-back, {} in all, eat every joint of stock.csv",
                off.print_with_unit(shop.shop.units)
            ),
            "check near_trim, far_trim and hold_back under [saw]",
        );
        return left;
    }
    for row in eaten {
        faults.error(
            FaultCode::ValueOutOfRange,
            &row.length,
            "the trims and the hold-back eat the whole joint",
            "check saw.near_trim, saw.far_trim and saw.hold_back in shop.toml",
        );
    }
    left
}

/// What a row says beyond its price.
fn read_terms(cells: &Cells<'_>, shop: &ShopFile, faults: &mut Faults) -> QuoteTerms {
    QuoteTerms {
        from: cells.count("from", faults).unwrap_or(0),
        lift: read_lift(cells, shop, faults),
        lead_days: cells.read("lead_days", faults, parse_days),
        valid_until: cells.read("valid_until", faults, |t| parse_date_in(t, shop.date_order)),
        untaxed: cells.yes("taxable", faults) == Some(false),
    }
}

fn read_lift(cells: &Cells<'_>, shop: &ShopFile, faults: &mut Faults) -> Option<Lift> {
    let joints = cells.count("lift", faults);
    let fee = read_amount(cells, "lift_fee", shop, faults);
    let part_fee = read_amount(cells, "part_lift_fee", shop, faults);
    if joints == Some(0) {
        faults.error(
            FaultCode::ValueOutOfRange,
            &cells.spot("lift"),
            "a lift of no joints",
            "write how many joints are banded together, or leave it empty",
        );
        return None;
    }
    let loose = ["lift_fee", "part_lift_fee"]
        .into_iter()
        .find(|fee| !cells.text(fee).is_empty());
    if let Some(fee) = loose.filter(|_| cells.text("lift").is_empty()) {
        faults.error(
            FaultCode::ValueMissing,
            &cells.spot(fee),
            "a fee per lift is given, and not how many joints a lift holds",
            "write the joints of a lift under lift",
        );
    }
    Some(Lift {
        joints: joints?,
        fee: fee.unwrap_or_default(),
        part_fee: part_fee.unwrap_or_default(),
    })
}

/// Price of one joint and the price as quoted; `None` inside when none is given, outside when it is faulty.
fn read_price(
    cells: &Cells<'_>,
    nominal: Option<Length>,
    pipe: Option<&Pipe>,
    shop: &ShopFile,
    faults: &mut Faults,
) -> Option<Option<(Money, QuotedPrice)>> {
    let text = cells.text("price");
    if text.is_empty() {
        return Some(None);
    }
    let amount = read_amount(cells, "price", shop, faults);
    let basis = cells.need("per", faults, parse_basis);
    let (amount, basis, nominal) = (amount?, basis?, nominal?);
    if amount == Money::ZERO {
        faults.error(
            FaultCode::ValueOutOfRange,
            &cells.spot("price"),
            "a price of 0 is not a price",
            "write the price, or leave it empty to plan by joints",
        );
        return None;
    }
    let Some(made) = basis.of_joint(amount.0, nominal, pipe?) else {
        faults.error(
            FaultCode::ValueOutOfRange,
            &cells.spot("price"),
            "a joint at this price costs more than can be counted",
            "check price and per",
        );
        return None;
    };
    let quoted = QuotedPrice {
        amount,
        per: basis,
        weight: made.weight,
    };
    Some(Some((Money(made.price.normalize()), quoted)))
}
