//! The one crossing: files as found → `Week`, or every fault of every file.

use super::faults::{Faults, Spot};
use super::marks::Marks;
use super::names::Names;
use super::odd_terms::judge_splice_cost;
use super::orders_file::read_orders;
use super::parts_file::read_parts;
use super::pipe_book::PipeBook;
use super::rack_file::read_rack;
use super::shop_file::{ShopFile, read_shop};
use super::stock_dates::judge_dates;
use super::stock_file::read_stock;
use super::suppliers_file::read_suppliers;
use super::{Begun, Fault, GateOrder, PipeId, Shop, Week};
use crate::measure::FaultCode;
use jiff::civil::Date;

use crate::text::SourceFile;

/// The files of a week's folder, as found. Each list may be a workbook (`orders.xlsx`) instead.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct WeekFiles {
    /// orders.csv: one row per gate.
    pub orders: Option<SourceFile>,
    /// shop.toml: the shop's standards and settings.
    pub shop: Option<SourceFile>,
    /// stock.csv: joint lengths on sale.
    pub stock: Option<SourceFile>,
    /// suppliers.csv: freight, minimum order, tax.
    pub suppliers: Option<SourceFile>,
    /// rack.csv: measured joints and remnants.
    pub rack: Option<SourceFile>,
    /// parts.csv: plain parts riding along.
    pub parts: Option<SourceFile>,
    /// Day of the order as given on the command line; it goes before `buying.order_date`.
    pub date: Option<Date>,
}

/// Reads a week. On `Ok`, warnings and notes are in [`Week::notices`]; on `Err`, every fault of
/// every file (warnings too), in file and line order.
pub fn read_week(files: &WeekFiles) -> Result<Week, Vec<Fault>> {
    let mut faults = Faults::default();
    let mut book = PipeBook::default();
    let mut marks = Marks::default();
    let mut shop = read_shop_or_say(files, &mut book, &mut faults);
    let gates = files.orders.as_ref().map_or_else(Vec::new, |f| {
        read_orders(f, &shop, &mut book, &mut marks, &mut faults)
    });
    let extras = files.parts.as_ref().map_or_else(Vec::new, |f| {
        read_parts(f, &shop, &mut book, &mut marks, &mut faults)
    });
    let before = faults.errors();
    if files.date.is_some() {
        shop.shop.buying.order_date = files.date;
    }
    let mut names = Names::default();
    let mut quotes = files.stock.as_ref().map_or_else(Vec::new, |f| {
        read_stock(f, &shop, &mut book, &mut names, &mut faults)
    });
    let suppliers = files.suppliers.as_ref().map_or_else(Vec::new, |f| {
        read_suppliers(f, &shop, &mut quotes, &mut names, &mut faults)
    });
    judge_dates(&shop, &gates, &quotes, &mut faults);
    judge_splice_cost(&shop, &quotes, &mut faults);
    let longest = quotes.iter().map(|q| q.nominal).max();
    let rack = files.rack.as_ref().map_or_else(Vec::new, |f| {
        read_rack(f, &shop, &mut book, longest, &mut faults)
    });
    book.say_unknown(&mut faults);
    if faults.errors() == before {
        let on_hand = quotes.iter().map(|q| q.pipe);
        book.judge_finishes(on_hand.chain(rack.iter().map(|r| r.pipe)), &mut faults);
    }
    say_missing(files, &gates, &shop, &mut faults);
    marks.check_made_marks(&mut faults);
    shop.shop.sway.pipe = shop
        .standards
        .sway
        .or(shop.standards.vertical.id)
        .unwrap_or(PipeId(0));
    let wrong = faults.any_error();
    let notices = faults.sorted(&file_names(files));
    if wrong {
        return Err(notices);
    }
    let (pipes, new) = book.settle();
    let mut week = Week {
        shop: shop.shop,
        pipes,
        gates,
        extras,
        quotes,
        suppliers,
        rack,
        begun: Begun::default(),
        notices,
    };
    renumber(&mut week, &new);
    Ok(week)
}

fn read_shop_or_say(files: &WeekFiles, book: &mut PipeBook, faults: &mut Faults) -> ShopFile {
    if let Some(file) = &files.shop {
        return read_shop(file, book, faults);
    }
    faults.error(
        FaultCode::FileMissing,
        &Spot::file("shop.toml"),
        "the file is missing: nothing is known of the shop's pipe, saw and standards",
        "write one with `longpoint new` and fill it in",
    );
    // An empty shop, so that the other files' own faults are still found.
    let empty = SourceFile {
        name: "shop.toml".to_owned(),
        bytes: Vec::new(),
    };
    read_shop(&empty, book, &mut Faults::default())
}

fn say_missing(files: &WeekFiles, gates: &[GateOrder], shop: &ShopFile, faults: &mut Faults) {
    if files.orders.is_none() && files.parts.is_none() {
        faults.error(
            FaultCode::FileMissing,
            &Spot::file("orders.csv"),
            "there is neither orders.csv nor parts.csv: no work",
            "add orders.csv or orders.xlsx (one row per gate), or parts.csv for plain parts alone",
        );
    }
    if files.stock.is_none() {
        faults.error(
            FaultCode::FileMissing, &Spot::file("stock.csv"),
            "the file is missing: no joint is on sale",
            "add stock.csv with pipe, length, price and per (a header row alone if all comes off the rack)",
        );
    }
    if let Some(file) = &files.shop
        && !gates.is_empty()
        && !shop.splice_cost_given
    {
        let spot = Spot {
            column: Some("splice.cost".to_owned()),
            ..Spot::file(&file.name)
        };
        faults.error(
            FaultCode::ValueMissing,
            &spot,
            "the money per splice is not given, and it is never taken as nothing",
            "add cost under [splice]: what one splice costs you, time and material",
        );
    }
}

/// Names in the order faults are listed.
fn file_names(files: &WeekFiles) -> Vec<String> {
    let all = [
        (&files.shop, "shop.toml"),
        (&files.orders, "orders.csv"),
        (&files.parts, "parts.csv"),
        (&files.stock, "stock.csv"),
        (&files.suppliers, "suppliers.csv"),
        (&files.rack, "rack.csv"),
    ];
    all.iter()
        .map(|(f, name)| f.as_ref().map_or(*name, |f| f.name.as_str()).to_owned())
        .collect()
}

/// Gives every pipe its place in sheet order.
fn renumber(week: &mut Week, new: &[PipeId]) {
    let to = |id: &mut PipeId| *id = new.get(id.0).copied().unwrap_or(*id);
    let Shop {
        gate, sway, money, ..
    } = &mut week.shop;
    to(&mut gate.horizontal);
    to(&mut gate.end_post);
    to(&mut gate.vertical);
    to(&mut gate.diagonal);
    to(&mut sway.pipe);
    money.spares.iter_mut().for_each(|(id, _)| to(id));
    for gate in &mut week.gates {
        let p = &mut gate.pipes;
        to(&mut p.horizontal);
        to(&mut p.latch_post);
        to(&mut p.tail_post);
        to(&mut p.vertical);
        to(&mut p.diagonal);
        to(&mut p.sway);
    }
    week.extras.iter_mut().for_each(|e| to(&mut e.pipe));
    week.quotes.iter_mut().for_each(|q| to(&mut q.pipe));
    week.rack.iter_mut().for_each(|r| to(&mut r.pipe));
}
