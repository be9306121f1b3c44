//! stock.csv → joints on sale, each with its landed price.

use rust_decimal::Decimal;

use super::Quote;
use super::faults::Faults;
use super::judge_size::{Bounds, judge_size};
use super::mark::parse_mark;
use super::pipe_book::PipeBook;
use super::row_pipe::row_pipe;
use super::sheet::{Cells, Column, Sheet, alias, column};
use super::shop_file::ShopFile;
use crate::measure::{Length, Misread, Money, Unit, parse_money};
use crate::text::SourceFile;

const COLUMNS: [Column; 9] = [
    column("pipe"),
    column("finish"),
    alias("supplier", &["vendor"]),
    alias("length", &["nominal", "joint", "joint_length"]),
    alias("planning", &["planning_length"]),
    column("price"),
    alias("per", &["basis", "price_per"]),
    column("available"),
    alias("note", &["notes"]),
];

/// What a price is for.
#[derive(Clone, Copy)]
enum Basis {
    Foot,
    Metre,
    Joint,
}

/// Reads stock.csv.
pub(super) fn read_stock(
    file: &SourceFile,
    shop: &ShopFile,
    book: &mut PipeBook,
    faults: &mut Faults,
) -> Vec<Quote> {
    let sheet = Sheet::open(file, &COLUMNS, faults);
    if !sheet.require(&["pipe", "length"], faults) {
        return Vec::new();
    }
    let mut quotes: Vec<Quote> = Vec::new();
    for cells in sheet.rows() {
        let Some(quote) = read_quote(&cells, shop, book, faults) else {
            continue;
        };
        let same = |q: &&Quote| {
            (q.pipe, q.nominal, &q.supplier) == (quote.pipe, quote.nominal, &quote.supplier)
        };
        if let Some(first) = quotes.iter().find(same) {
            faults.warn(
                &cells.spot("length"),
                &format!(
                    "{} quotes the same joint of the same supplier",
                    first.origin.line_words()
                ),
                "keep one row, unless both prices are to be had",
            );
        }
        quotes.push(quote);
    }
    quotes
}

fn read_quote(
    cells: &Cells<'_>,
    shop: &ShopFile,
    book: &mut PipeBook,
    faults: &mut Faults,
) -> Option<Quote> {
    let pipe = row_pipe(cells, book, faults);
    let supplier = cells
        .read("supplier", faults, parse_mark)
        .unwrap_or_default();
    let nominal = read_joint(cells, "length", shop, faults);
    let planning = read_joint(cells, "planning", shop, faults).map(|p| p.1);
    let price = read_price(cells, nominal.map(|n| n.0), faults);
    let available = cells.count("available", faults);
    cells.read("note", faults, super::mark::parse_note);
    if cells.text("length").is_empty() {
        faults.error(
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
            &cells.spot("planning"),
            "the planning length is over the length the supplier bills",
            "write the shortest length you count on, or leave it empty",
        );
        return None;
    }
    judge_trims(cells, planning, shop, faults)?;
    let (price, quoted) = price?;
    Some(Quote {
        pipe: pipe?,
        supplier,
        nominal,
        planning,
        price,
        quoted,
        available,
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

/// Trims and hold-back must leave something of a joint.
fn judge_trims(
    cells: &Cells<'_>,
    planning: Length,
    shop: &ShopFile,
    faults: &mut Faults,
) -> Option<()> {
    let saw = &shop.shop.saw;
    if planning <= saw.near_trim + saw.far_trim + saw.hold_back {
        faults.error(
            &cells.spot("length"),
            "the trims and the hold-back eat the whole joint",
            "check saw.near_trim, saw.far_trim and saw.hold_back in shop.toml",
        );
        return None;
    }
    Some(())
}

/// Price of one joint and the price as quoted; `None` inside when none is given; `None` outside
/// when it is faulty.
fn read_price(
    cells: &Cells<'_>,
    nominal: Option<Length>,
    faults: &mut Faults,
) -> Option<(Option<Money>, String)> {
    let text = cells.text("price");
    if text.is_empty() {
        faults.note(
            &cells.spot("price"),
            "there is no price: this pipe is planned by joints, and no money is said of it",
            "fill in price and per",
        );
        return Some((None, String::new()));
    }
    let amount = cells.read("price", faults, parse_money);
    let basis = cells.need("per", faults, parse_basis);
    let (amount, basis, nominal) = (amount?, basis?, nominal?);
    if amount == Money::ZERO {
        faults.error(
            &cells.spot("price"),
            "a price of 0 is not a price",
            "write the price, or leave it empty to plan by joints",
        );
        return None;
    }
    let ticks = Decimal::from(nominal.ticks());
    let (price, word) = match basis {
        Basis::Foot => (
            amount.0 * ticks / Decimal::from(Length::FOOT.ticks()),
            "foot",
        ),
        Basis::Metre => (
            amount.0 * ticks / Decimal::from(Length::MM.ticks() * 1000),
            "metre",
        ),
        Basis::Joint => (amount.0, "joint"),
    };
    Some((
        Some(Money(price.normalize())),
        format!("{} / {word}", amount.0),
    ))
}

fn parse_basis(text: &str) -> Result<Basis, Misread> {
    match text.to_lowercase().as_str() {
        "foot" | "ft" | "feet" => Ok(Basis::Foot),
        "metre" | "meter" | "m" | "metres" | "meters" => Ok(Basis::Metre),
        "joint" | "piece" | "each" | "ea" | "pc" => Ok(Basis::Joint),
        _ => Err(Misread::new(
            &format!("\"{text}\" is not what a price is for"),
            "write foot, metre or joint",
        )),
    }
}
