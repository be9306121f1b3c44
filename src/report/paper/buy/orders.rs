//! What goes to each supplier: order lines with price, tax and dates, fees, and what it comes to.

use crate::measure::Money;
use crate::report::buy_list::supplier_money;
use crate::report::freight_words::{free_by_amount, freight_words};
use crate::report::order_line::{OrderLine, order_lines, price_words, suppliers};
use crate::report::paper::desk::Desk;
use crate::report::paper::table::{Column, TICK_CELL, Table, bold, figures, words};
use crate::report::wrap::soften;

/// What is asked of every supplier.
pub const ASK: &str = "Ask for uniform length, no jointers, plain square ends, and the length tolerance in writing. Nominal lengths are billed; cutting is planned on the planning length where the two differ.";
/// Title of the spare joints.
pub const SPARES: &str = "Spare joints on top (not needed by the plan)";

/// One supplier's order.
pub struct Order {
    /// The supplier's name.
    pub title: String,
    /// What it comes to: lines, spares, tax and fees.
    pub money: String,
    /// What the plan wants, then the fees.
    pub lines: Table,
    /// Spares on top.
    pub spares: Table,
    /// How its freight follows from the supplier's terms.
    pub freight: String,
}

/// The orders of the week, suppliers in the order of their first line.
pub fn orders(desk: &Desk) -> Vec<Order> {
    let lines = order_lines(desk.job());
    let order = |supplier: String| {
        let of = |spare: bool| -> Vec<&OrderLine<'_>> {
            let mine = lines
                .iter()
                .filter(|l| l.of.supplier == supplier && l.spare == spare);
            mine.collect()
        };
        let mut wanted = table(desk, &of(false));
        wanted
            .rows
            .extend(fees(desk, &supplier, wanted.columns.len()));
        let mine: Vec<&OrderLine<'_>> =
            lines.iter().filter(|l| l.of.supplier == supplier).collect();
        if free_by_amount(desk.job(), &supplier, &mine) {
            let name = String::from("Freight, free by amount");
            let nothing = desk.money(Some(Money::ZERO));
            wanted
                .rows
                .push(fee_row(name, nothing, wanted.columns.len()));
        }
        let freight = freight_words(desk.job(), &supplier, &mine, "their");
        Order {
            money: desk.money(supplier_money(desk.job(), &lines, &supplier)),
            lines: wanted,
            spares: table(desk, &of(true)),
            freight: soften(&freight),
            title: if supplier.is_empty() {
                String::from("Buy (supplier not named)")
            } else {
                supplier
            },
        }
    };
    suppliers(&lines).into_iter().map(order).collect()
}

fn columns(taxed: bool) -> Vec<Column> {
    let mut list = vec![
        words("", 0.35),
        bold(figures("joints", 0.62)),
        bold(words("pipe", 2.6)),
        bold(figures("nominal", 0.8)),
        figures("billed", 0.9),
        figures("weight", 1.1),
        words("price", 1.75),
        words("here by", 1.2),
        words("for", 1.25),
    ];
    if taxed {
        list.push(figures("tax", 0.9));
    }
    list.push(bold(figures("money", 1.25)));
    list
}

fn table(desk: &Desk, lines: &[&OrderLine<'_>]) -> Table {
    let taxed = lines.iter().any(|l| l.tax.is_some_and(|t| t > Money::ZERO));
    Table {
        columns: columns(taxed),
        rows: lines.iter().map(|l| row(desk, l, taxed)).collect(),
        size: 11.0,
        room: desk.room,
    }
}

/// The pipe with what it is made to.
fn pipe(desk: &Desk, line: &OrderLine<'_>) -> String {
    let pipe = desk.week.pipe(line.of.pipe);
    let mut words = pipe.title();
    for part in [&pipe.standard, &pipe.grade] {
        if !part.is_empty() {
            words.push_str(", ");
            words.push_str(part);
        }
    }
    words
}

fn row(desk: &Desk, line: &OrderLine<'_>, taxed: bool) -> Vec<String> {
    let job = desk.job();
    let mut price = price_words(job, line).unwrap_or_else(|| String::from("no price"));
    if let Some(last) = line.expired {
        price.push_str(&format!("; THE PRICE RAN OUT ON {last}"));
    }
    let mut row = vec![
        TICK_CELL.to_string(),
        line.joints.to_string(),
        pipe(desk, line),
        desk.length(line.of.nominal),
        desk.length(line.nominal),
        desk.weight(line.weight),
        soften(&price),
        line.needed.map_or(String::new(), |day| day.to_string()),
        line.marks.join(", "),
    ];
    if taxed {
        row.push(desk.money(line.tax));
    }
    row.push(desk.money(line.money));
    row
}

/// Freight, lifts and what a minimum adds, a row each.
fn fees(desk: &Desk, supplier: &str, columns: usize) -> Vec<Vec<String>> {
    let mine = desk.plan.fees.iter().filter(|f| f.supplier == supplier);
    mine.map(|fee| fee_row(fee.name.clone(), desk.money(Some(fee.money)), columns))
        .collect()
}

/// A row of the order's table that holds a name and money alone.
fn fee_row(name: String, money: String, columns: usize) -> Vec<String> {
    let mut row = vec![String::new(); columns.saturating_sub(1)];
    if let Some(cell) = row.get_mut(2) {
        *cell = name;
    }
    row.push(money);
    row
}
